/** Instruments that lie: whatever one of them says, no flame meets cutback and nothing is heated on unseen. */
import { describe, expect, it } from 'vitest';
import { driedYard, seatedYard, type TestYard } from './yard.ts';

const fault = (tag: string, kind: string, perHour = 0) =>
  ({ do: 'injectFault', target: { tag, fault: kind, perHour } }) as never;
const trainer = ['trainer', 'console-3'] as const;
const inBucket = (yard: TestYard) => yard.world.plant.bucket.cutbackKg;

describe('emptiness is believed only when scale or motor and time agree', () => {
  it('a dead bucket scale does not make a full bucket pass for empty', () => {
    const yard = driedYard(1).does({ do: 'start', batches: 1 }).untilStep('charging');
    yard.until((l) => l.signals.binderWeighed, 3);
    yard.does({ do: 'hold' }).run(3);
    yard.does(fault('bucketKg', 'dead'), ...trainer).run(5);
    expect(inBucket(yard)).toBeGreaterThan(30);
    expect(yard.line.signals.cutbackInBucket).toBe(true);
  });

  it('a bucket scale stuck at zero never ends in a flame over a full bucket', () => {
    const yard = driedYard(1)
      .does(fault('bucketKg', 'stuck'), ...trainer)
      .does({ do: 'start', batches: 1 })
      .untilStep('charging');
    yard
      .run(50)
      .does({ do: 'abort' })
      .run(5)
      .does({ do: 'dump', reason: 'scale stuck' })
      .until(() => yard.procedure() === 'idle', 6)
      .run(5);
    yard
      .does({ do: 'startCampaign', batches: 1 })
      .does({ do: 'acknowledgeCautions' })
      .does({ do: 'lightBurner' });
    yard.run(120);
    expect(yard.world.plant.dryer.burner.mainLit && inBucket(yard) > 1).toBe(false);
  });

  it('a bucket scale stuck at zero while it fills leaves the bucket under suspicion', () => {
    const yard = driedYard()
      .does(fault('bucketKg', 'stuck'), ...trainer)
      .does({ do: 'start', batches: 1 })
      .untilStep('charging');
    yard.run(25).does({ do: 'abort' }).run(5);
    expect(inBucket(yard)).toBeGreaterThan(10);
    expect(yard.line.signals.cutbackInBucket).toBe(true);
  });

  it('a motor stuck at idle before the charge does not either', () => {
    const yard = driedYard().does({ do: 'start', batches: 1 }).untilStep('charging').run(6);
    yard
      .does(fault('mixerMotorA', 'stuck'), ...trainer)
      .untilStep('looking', 30)
      .does({ do: 'confirmLook' });
    yard.run(300);
    expect(yard.world.plant.mill.stoneKg > 100 && !yard.line.signals.cutbackInMixer).toBe(false);
  });

  it('nor does a motor that drifts down', () => {
    const yard = driedYard().does({ do: 'start', batches: 1 }).untilStep('mixing', 30);
    yard.does(fault('mixerMotorA', 'drift', -1200), ...trainer).untilStep('looking', 30);
    yard.does({ do: 'confirmLook' });
    yard.run(300);
    expect(yard.world.plant.mill.stoneKg > 100 && !yard.line.signals.cutbackInMixer).toBe(false);
  });

  it('a motor stuck at idle does not make a full pug mill pass for empty', () => {
    const yard = driedYard(2)
      .does({ do: 'start', batches: 2 })
      .untilStep('looking', 30)
      .does({ do: 'confirmLook' })
      .untilStep('clearing', 5);
    yard
      .run(1)
      .does(fault('mixerMotorA', 'stuck'), ...trainer)
      .untilStep('looking', 30)
      .does({ do: 'confirmLook' });
    yard.until((l) => l.batchesDone === 2, 5).run(5);
    expect(yard.world.plant.mill.stoneKg > 100 && !yard.line.signals.cutbackInMixer).toBe(false);
  });
});

describe('a thermometer that lies', () => {
  it.each(['dead', 'stuck'])(
    'drum thermometer %s while drying: the burner goes out before the drum overheats',
    (f) => {
      const yard = seatedYard('cutback-day')
        .does({ do: 'startCampaign', batches: 2 })
        .does({ do: 'acknowledgeCautions' })
        .does({ do: 'lightBurner' });
      yard
        .until(() => yard.value('campaign') === 'drying', 5)
        .does(fault('drumAggregateC', f), ...trainer)
        .run(1800);
      expect(yard.world.plant.dryer.load.tempC).toBeLessThan(180);
    },
  );

  it.each([
    ['cutbackTankC', 'dead', 'cutback'],
    ['cutbackTankC', 'stuck', 'cutback'],
    ['emulsionTankC', 'dead', 'emulsion'],
  ] as const)('%s %s while heated: the tank is not heated on', (tag, f, tank) => {
    const yard = seatedYard('cutback-day');
    if (tank === 'emulsion') yard.give({ do: 'heatTank', tank, on: true });
    if (f === 'stuck') yard.until(() => yard.value(`${tank}Tank` as never) === 'heating', 240);
    yard.does(fault(tag, f), ...trainer).run(4 * 3600);
    const p = yard.world.plant;
    expect(tank === 'cutback' ? p.cutbackTank.tempC : p.emulsionTank.tempC).toBeLessThan(
      tank === 'cutback' ? 100 : 88,
    );
  });

  it('a dead oil thermometer stops the oil heater', () => {
    const yard = seatedYard('cutback-day')
      .does(fault('oilC', 'dead'), ...trainer)
      .run(3600);
    let max = 0;
    for (let i = 0; i < 60; i++) {
      yard.run(30);
      max = Math.max(max, yard.world.plant.oil.tempC);
    }
    expect(max).toBeLessThan(200);
  });
});
