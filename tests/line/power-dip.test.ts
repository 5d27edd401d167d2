/** A lost supply: everything fails safe, and comes back tripped. */
import { describe, expect, it } from 'vitest';
import { AT_REST } from '../../machines/field/outputs.ts';
import { truthOf } from '../../machines/plant/truth.ts';
import { driedYard, seatedYard, type TestYard } from './yard.ts';

const trainer = ['trainer', 'console-3'] as const;
const dip = (yard: TestYard, seconds: number): TestYard =>
  yard
    .does({ do: 'injectFault', target: { equipment: 'powerDip' } }, ...trainer)
    .run(seconds)
    .does({ do: 'clearFault', target: { equipment: 'powerDip' } }, ...trainer)
    .run(1);

describe('a power dip', () => {
  it('with the burner lit: flame out, fuel shut, tripped on FT-11, and nothing starts again before the reset', () => {
    const yard = seatedYard('cutback-day');
    yard
      .does({ do: 'startCampaign', batches: 1 })
      .does({ do: 'acknowledgeCautions' })
      .does({ do: 'lightBurner' });
    yard.until(() => yard.value('campaign') === 'drying', 10);
    dip(yard, 2);
    expect(truthOf(yard.world.plant).dryerFlame).toBe(false);
    expect(yard.told('tripLatched').at(-1)?.causes).toEqual(['FT-11']);
    yard.run(30);
    const { outputs } = yard.line;
    for (const key of [
      'burnerPilot',
      'burnerMain',
      'drumTurn',
      'pugMill',
      'belt',
      'bucketValve',
      'oilBurner',
    ] as const)
      expect(outputs[key], key).toBe(AT_REST[key]);
    expect(truthOf(yard.world.plant).puffs).toBe(0);
    yard.does({ do: 'resetTrip' }).run(2);
    expect(yard.line.signals.tripped).toBe(false);
  });

  it('while it lasts a reset is refused and says why', () => {
    const yard = seatedYard('emulsion-day');
    yard.does({ do: 'injectFault', target: { equipment: 'powerDip' } }, ...trainer).run(2);
    expect(yard.refused({ do: 'resetTrip' }).join()).toMatch(/FT-11 The supply to the plant was lost/);
  });

  it('with cutback in the pug mill: the hood fan runs on as soon as the supply is back, and the batch can be ended', () => {
    const yard = driedYard(1).does({ do: 'start', batches: 1 });
    yard.untilStep('mixing', 20).run(5);
    dip(yard, 3);
    expect(yard.line.outputs.hoodFan).toBe(true);
    expect(yard.line.outputs.pugMill).toBe(false);
    yard.until((line) => line.signals.extractionProved && line.signals.vapourLow, 5);
    yard.does({ do: 'resetTrip' }).run(3);
    expect(yard.line.signals.tripped).toBe(false);
  });
});

describe('fuel that does not burn', () => {
  it('a fuel valve that leaks unlit past the flame-failure time trips FT-10 and says so', () => {
    const yard = seatedYard('cutback-day');
    yard.does({ do: 'injectFault', target: { equipment: 'fuelValveLeaking' } }, ...trainer).run(8);
    expect(yard.told('tripLatched').at(-1)?.causes).toEqual(['FT-10']);
    yard.does({ do: 'clearFault', target: { equipment: 'fuelValveLeaking' } }, ...trainer).run(3);
    yard.does({ do: 'resetTrip' });
  });

  it('a flame that fails while the valve closes as it should is a lockout, not a trip', () => {
    const yard = seatedYard('cutback-day');
    yard
      .does({ do: 'startCampaign', batches: 1 })
      .does({ do: 'acknowledgeCautions' })
      .does({ do: 'lightBurner' });
    yard.until(() => yard.value('campaign') === 'drying', 10);
    yard.does({ do: 'injectFault', target: { equipment: 'flameWillNotLight' } }, ...trainer);
    yard.until((line) => line.signals.burnerLockedOut, 1).run(5);
    expect(yard.value('burner')).toEqual({ lockedOut: 'flameFailed' });
    expect(yard.told('tripLatched')).toEqual([]);
  });
});
