/** Deliveries and what is known to be in a tank: the right binder, the wrong one, and water under hot binder. */
import { describe, expect, it } from 'vitest';
import { viewLine } from '../../machines/line/view.ts';
import { truthOf } from '../../machines/plant/truth.ts';
import { scenarioOf, seatedYard, TestYard } from './yard.ts';

const supervisor = ['supervisor', 'console-2'] as const;
const trainer = ['trainer', 'console-3'] as const;
const truth = (yard: TestYard) => truthOf(yard.world.plant);
const tank = (yard: TestYard, id: 'emulsion' | 'cutback') =>
  viewLine(yard.line).tanks.find((one) => one.id === id);
const receive = (id: 'emulsion' | 'cutback', kg: number) =>
  ({ do: 'receiveDelivery', tank: id, product: id, kg, ticket: 'T-417' }) as const;

describe('a delivery', () => {
  it('holds heat and draws from the tank until it is confirmed and ended, and fills the tank by what came', () => {
    const yard = seatedYard('emulsion-day');
    const before = truth(yard).emulsionTankKg;
    yard.does(receive('emulsion', 1200)).run(1);
    expect(viewLine(yard.line).causes.holding).toEqual(expect.arrayContaining(['FI-23', 'TE-04', 'TE-07']));
    expect(tank(yard, 'emulsion')).toMatchObject({ identity: 'not confirmed', mayHeat: false });
    yard.run(110);
    expect(truth(yard).emulsionTankKg - before).toBeCloseTo(1200, 3);
    yard.does({ do: 'confirmDelivery', tank: 'emulsion', product: 'emulsion' });
    yard.does({ do: 'endDelivery', tank: 'emulsion' }).run(1);
    expect(tank(yard, 'emulsion')?.identity).toBe('confirmed');
    expect(viewLine(yard.line).causes.holding).not.toContain('FI-23');
  });

  it('ended without having been confirmed leaves a doubt that only a supervisor clears', () => {
    const yard = seatedYard('emulsion-day');
    yard.does(receive('emulsion', 300)).does({ do: 'endDelivery', tank: 'emulsion' }).run(1);
    expect(tank(yard, 'emulsion')?.identity).toBe('not confirmed');
    // Another truck, confirmed, does not clear it.
    yard
      .does(receive('emulsion', 300))
      .does({ do: 'confirmDelivery', tank: 'emulsion', product: 'emulsion' })
      .does({ do: 'endDelivery', tank: 'emulsion' })
      .run(1);
    expect(yard.line.signals.emulsionKnown).toBe(false);
    const identify = {
      do: 'identifyTank',
      tank: 'emulsion',
      product: 'emulsion',
      reason: 'sample tested',
    } as const;
    expect(yard.refused(identify).join()).toMatch(/may not do this/);
    yard.does(identify, ...supervisor).run(1);
    expect(yard.line.signals.emulsionKnown).toBe(true);
  });

  it('is refused into the wrong tank, over the brim, or beside hot work; cutback is confirmed by a second person', () => {
    const yard = seatedYard('cutback-day');
    const wrong = { ...receive('cutback', 500), product: 'emulsion' } as const;
    expect(yard.refused(wrong).join()).toMatch(/ticket says emulsion and this tank is for cutback/);
    expect(yard.refused(receive('cutback', 25_000)).join()).toMatch(/room for \d+ kg: take less/);
    yard.does(receive('cutback', 500)).run(45);
    const confirm = { do: 'confirmDelivery', tank: 'cutback', product: 'cutback' } as const;
    expect(yard.refused(confirm).join()).toMatch(/second person/);
    yard
      .does(confirm, ...supervisor)
      .does({ do: 'endDelivery', tank: 'cutback' })
      .run(1);
    expect(tank(yard, 'cutback')?.identity).toBe('confirmed');
  });
});

describe('binder drawn before its tank fell into doubt', () => {
  it('counts as cutback, so that no flame may be lit beside it, and can be dumped', () => {
    const yard = seatedYard('emulsion-day');
    yard.does({ do: 'start', batches: 1 });
    for (let s = 0; s < 600 && yard.line.readings.bucketKg < 20; s++) yard.run(1);
    expect(yard.line.readings.bucketKg).toBeGreaterThan(20);
    expect(yard.line.signals.cutbackInBucket).toBe(false);
    const reason = 'the laboratory found cutback';
    yard.does({ do: 'identifyTank', tank: 'emulsion', product: 'cutback', reason }, ...supervisor).run(2);
    expect(yard.line.signals.cutbackInBucket).toBe(true);
    expect(yard.line.signals.flamePermitted).toBe(false);
    expect(viewLine(yard.line).causes.holding).toContain('FI-12');
    yard.does({ do: 'abort' }).run(10);
    // As with cutback, the drum is purged before the binder valve may open.
    yard.does({ do: 'purgeDrum' }).run(120);
    yard.does({ do: 'dump', reason: 'binder in doubt' });
    for (let s = 0; s < 900 && (yard.line.signals.cutbackInBucket || yard.line.signals.cutbackInMixer); s++)
      yard.run(1);
    expect(yard.line.readings.bucketKg).toBeLessThan(1);
    expect(yard.line.signals.cutbackInMixer).toBe(false);
    expect(yard.line.signals.flamePermitted).toBe(true);
  });

  it('in the mill counts as cutback too, and its silence is not held against the vapour detector', () => {
    const yard = seatedYard('emulsion-day');
    yard.does({ do: 'start', batches: 1 });
    for (let s = 0; s < 900 && (yard.line.batch?.mixedTicks ?? 0) < 50; s++) yard.run(1);
    expect(yard.line.signals.cutbackInMixer).toBe(false);
    const reason = 'the laboratory found cutback';
    yard.does({ do: 'identifyTank', tank: 'emulsion', product: 'cutback', reason }, ...supervisor).run(200);
    expect(yard.line.signals.cutbackInMixer).toBe(true);
    expect(yard.line.signals.flamePermitted).toBe(false);
    expect(yard.line.signals.detectorCalibrated).toBe(true);
  });
});

describe('the wrong binder in the truck', () => {
  it('cutback pumped into the emulsion tank never reaches the bucket: what it is shows in the sample, not in the dip', () => {
    const yard = seatedYard('emulsion-day');
    yard.does({ do: 'injectFault', target: { equipment: 'wrongBinderInTruck' } }, ...trainer);
    yard.does(receive('emulsion', 1000)).run(40);
    expect(yard.line.readings.sightTruckBlackPct).toBe(100);
    expect(truth(yard).emulsionTankOtherKg).toBeGreaterThan(300);
    yard.does({ do: 'start', batches: 1 }).run(240);
    expect(yard.line.outputs.emulsionFeed).toBe('shut');
    expect(yard.line.held.map((one) => one.key)).toContain('emulsionFeed');
    // Seen for what it is: pumping stops and the doubt stays.
    yard.does({ do: 'confirmDelivery', tank: 'emulsion', product: 'cutback' }).run(1);
    expect(yard.world.plant.emulsionTank.delivery).toBeNull();
    expect(tank(yard, 'emulsion')).toMatchObject({ identity: 'not confirmed' });
    expect(yard.told('tankDoubted')[0]?.why).toMatch(/other binder/);
    yard.run(120);
    expect(truth(yard).solventInMixKg).toBe(0);
  });

  it('confirmed against the sample, it does reach the bucket: the truth about the tank is what people say it is', () => {
    const yard = new TestYard(scenarioOf('emulsion-day', { tanks: { emulsion: { otherBinderKg: 2000 } } }));
    yard.does({ do: 'takeControls' }).run(10);
    yard
      .does({ do: 'start', batches: 1 })
      .until(() => yard.step() === 'mixing', 15)
      .run(2);
    expect(truth(yard).solventInMixKg).toBeGreaterThan(0.5);
  });

  it('not confirmed this morning by the shift file, a tank is neither heated nor drawn from', () => {
    const yard = new TestYard(scenarioOf('cutback-day', { tanks: { cutback: { confirmed: false } } }));
    yard.run(2);
    expect(viewLine(yard.line).causes.holding).toEqual(expect.arrayContaining(['FI-22', 'TC-07']));
  });
});

describe('water in the cutback tank', () => {
  const wet = (setC: number, startC: number) => {
    const scenario = scenarioOf('cutback-day', {
      tanks: { cutback: { waterKg: 80 } },
      tanksC: { cutback: startC },
    });
    const [mix] = scenario.mixes;
    if (mix === undefined) throw new Error('no mix');
    const windows = { ...mix.windows, tankSetC: setC, binderC: { fromC: 75, toC: 125 } };
    return new TestYard({ ...scenario, mixes: [{ ...mix, windows } as typeof mix] });
  };

  it('is found at the bottom; the tank is not heated above 95 °C over it, until it is drawn off and proved dry', () => {
    const yard = wet(105, 85);
    yard.does({ do: 'takeControls' }).run(30);
    expect(yard.line.readings.cutbackWaterMm).toBeGreaterThan(20);
    expect(viewLine(yard.line).causes.holding).toContain('TC-08');
    expect(yard.line.outputs.cutbackCoil).toBe(false);
    yard.does({ do: 'proveCause', cause: 'TC-08', result: 'passed', remark: 'drawn off, paste dry' }).run(30);
    expect(yard.line.readings.cutbackWaterMm).toBe(0);
    expect(viewLine(yard.line).causes.holding).not.toContain('TC-08');
    yard.until((line) => line.outputs.cutbackCoil, 30);
  });

  it('below 95 °C it lies still; a tank already hotter foams, is told by its level, and stays held', () => {
    const still = wet(82, 82);
    still.run(120);
    expect(truth(still).cutbackTankFoamM).toBe(0);
    expect(viewLine(still.line).causes.holding).not.toContain('TC-08');
    const hot = wet(82, 112);
    hot.until((line) => line.tankMemos.cutback.foamed, 5);
    expect(truth(hot).cutbackTankFoamM).toBeGreaterThan(0.05);
    expect(truth(hot).ventLelPct).toBeGreaterThan(20);
    expect(hot.line.signals.cutbackDry).toBe(false);
    expect(viewLine(hot.line).causes.holding).toEqual(expect.arrayContaining(['TC-06', 'TC-08', 'TE-06']));
    hot.run(600);
    expect(hot.line.signals.cutbackDry).toBe(false);
  });
});

describe('kinds of tank heater', () => {
  const heatedBy = (heater: 'fire-tube' | 'electric' | 'thermal-oil', massKg: number) => {
    const scenario = scenarioOf('cutback-day');
    const { cutback } = scenario.plant.tanks;
    const tanks = {
      ...scenario.plant.tanks,
      cutback: { ...cutback, heater, startMassKg: massKg, startC: 70 },
    };
    const yard = new TestYard({ ...scenario, plant: { ...scenario.plant, tanks } });
    return yard.run(30);
  };

  it('a fire tube asks for twice the cover and is shut by less vapour', () => {
    const views = (['fire-tube', 'electric', 'thermal-oil'] as const).map((kind) =>
      tank(heatedBy(kind, 3000), 'cutback'),
    );
    expect(views.map((one) => [one?.kind, one?.coverNeededMm, one?.ventLimitLelPct, one?.mayHeat])).toEqual([
      ['fire-tube', 300, 10, false],
      ['electric', 150, 20, true],
      ['thermal-oil', 150, 20, true],
    ]);
  });
});
