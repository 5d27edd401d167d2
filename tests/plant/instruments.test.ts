/** Instruments: whole intervals, silence at rest, the four faults, the detector's own health. */
import { describe, expect, it } from 'vitest';
import { AT_REST } from '../../machines/field/outputs.ts';
import { TAG_NAMES, TAGS } from '../../machines/field/tags.ts';
import { readingOf } from '../../machines/plant/instrument-table.ts';
import { stepInstruments } from '../../machines/plant/instruments.ts';
import { type Plant, stepPlant } from '../../machines/plant/plant.ts';
import { demoPlant, run } from './demo.ts';
import { mixCutback, mixEmulsion, withDryStone } from './sequences.ts';

/** How often each reading changed over a number of seconds. */
const changes = (
  plant: Plant,
  seconds: number,
  outputs = AT_REST,
): { counts: Map<string, number>; end: Plant } => {
  const counts = new Map<string, number>();
  let now = plant;
  for (let i = 0; i < seconds * 10; i += 1) {
    const next = stepPlant(now, outputs, []);
    if (next.readings !== now.readings)
      for (const tag of TAG_NAMES)
        if (next.readings[tag] !== now.readings[tag]) counts.set(tag, (counts.get(tag) ?? 0) + 1);
    now = next;
  }
  return { counts, end: now };
};

describe('readings', () => {
  it('are whole numbers of their interval, written without binary dust, in range and never −0', () => {
    let plant = mixEmulsion(demoPlant(3));
    for (let i = 0; i < 100; i += 1) {
      plant = run(plant, 1, { pugMill: true, mixerGate: i > 50, drumFan: true });
      for (const tag of TAG_NAMES) {
        const value = plant.readings[tag];
        const { interval, min, max } = TAGS[tag];
        expect(Math.abs(value / interval - Math.round(value / interval))).toBeLessThan(1e-6);
        expect(String(value).length).toBeLessThan(9);
        expect(Object.is(value, -0)).toBe(false);
        expect(value).toBeGreaterThanOrEqual(min);
        expect(value).toBeLessThanOrEqual(max);
      }
    }
  });

  it('of a plant at rest stand within one interval of the truth', () => {
    let plant = run(demoPlant(9), 10, { bin1Gate: 'full', cutbackFeed: 'full' });
    plant = run(plant, 180, {});
    const { readings } = plant;
    expect(plant.hopper.cell.kg).toBeGreaterThan(100);
    expect(Math.abs(readings.hopperKg - plant.hopper.cell.kg)).toBeLessThanOrEqual(1);
    expect(Math.abs(readings.bucketKg - plant.bucket.cell.kg)).toBeLessThanOrEqual(0.1);
    expect(Math.abs(readings.cutbackTankC - plant.cutbackTank.tempC)).toBeLessThanOrEqual(0.1);
    expect(Math.abs(readings.cutbackDipMm - 1000 * plant.cutbackTank.seen.dipM)).toBeLessThanOrEqual(1);
  });

  it('never hold a −0 when a scale falls just below zero, as JSON would lose it', () => {
    const { instruments, readings } = demoPlant();
    const place = TAG_NAMES.indexOf('hopperKg');
    const one = { ...instruments, counts: instruments.counts.with(place, 1) };
    const truths = instruments.lagged.with(place, -0.3);
    const after = stepInstruments(one, { ...readings, hopperKg: 1 }, truths, 1, 1);
    expect(after.readings.hopperKg).toBe(0);
    expect(after.instruments.counts[place]).toBe(0);
  });

  it('of three intervals of 0.1 read 0.3', () => {
    const place = TAG_NAMES.indexOf('bucketKg');
    expect(readingOf(place, 3)).toBe(0.3);
    expect(readingOf(TAG_NAMES.indexOf('antiStripMeterKg'), 29)).toBe(0.29);
  });

  it('do not flicker at rest: in half an hour no instrument changes its mind twice', () => {
    let plant = run(demoPlant(5), 120, {});
    const before = plant.readings;
    const { counts, end } = changes(plant, 1800);
    plant = end;
    for (const [tag, n] of counts) {
      const steps =
        Math.abs(end.readings[tag as 'hopperKg'] - before[tag as 'hopperKg']) /
        TAGS[tag as 'hopperKg'].interval;
      expect(`${tag} ${n}`).toBe(`${tag} ${Math.round(steps)}`);
    }
    expect([...counts.values()].reduce((a, b) => a + b, 0)).toBeLessThan(20);
  });

  it('keep their identity while nothing changed', () => {
    const plant = run(demoPlant(5), 120, {});
    let same = 0;
    let now = plant;
    for (let i = 0; i < 1000; i += 1) {
      const next = stepPlant(now, AT_REST, []);
      if (next.readings === now.readings) same += 1;
      now = next;
    }
    expect(same).toBeGreaterThan(990);
  });

  it('change few times a second while a batch mixes', () => {
    const plant = mixCutback(withDryStone(demoPlant(5), 5000, 52));
    const { counts } = changes(plant, 60, { ...AT_REST, pugMill: true });
    expect([...counts.values()].reduce((a, b) => a + b, 0) / 60).toBeLessThan(3);
  });
});

describe('faults', () => {
  it('stuck: the reading stays while the truth goes on', () => {
    let plant = run(demoPlant(1), 1, {}, [
      { ask: 'instrumentFault', tag: 'hopperKg', fault: { fault: 'stuck' } },
    ]);
    plant = run(plant, 20, { bin1Gate: 'full' });
    expect(plant.readings.hopperKg).toBe(0);
    expect(plant.hopper.cell.kg).toBeGreaterThan(250);
    plant = run(plant, 3, {}, [{ ask: 'instrumentFault', tag: 'hopperKg', fault: null }]);
    expect(Math.abs(plant.readings.hopperKg - plant.hopper.cell.kg)).toBeLessThanOrEqual(1);
  });

  it('dead: the reading falls to the bottom of its range', () => {
    const plant = run(demoPlant(1), 1, {}, [
      { ask: 'instrumentFault', tag: 'cutbackTankC', fault: { fault: 'dead' } },
    ]);
    expect(plant.readings.cutbackTankC).toBe(TAGS.cutbackTankC.min);
  });

  it('drift: so many units an hour, in proportion', () => {
    const fault = { fault: 'drift', perHour: -6 } as const;
    const plant = run(demoPlant(1), 1800, {}, [{ ask: 'instrumentFault', tag: 'emulsionTankC', fault }]);
    expect(plant.readings.emulsionTankC - plant.emulsionTank.tempC).toBeCloseTo(-3, 0);
  });

  it('noisy: the reading dances about the truth', () => {
    const plant = run(demoPlant(1), 1, {}, [
      { ask: 'instrumentFault', tag: 'oilC', fault: { fault: 'noisy' } },
    ]);
    const { counts, end } = changes(plant, 120);
    expect(counts.get('oilC') ?? 0).toBeGreaterThan(60);
    expect(Math.abs(end.readings.oilC - end.oil.tempC)).toBeLessThanOrEqual(8.5 * TAGS.oilC.interval);
  });

  it('a dead vapour detector reports itself, a stuck one does not', () => {
    const dead = run(demoPlant(1), 1, {}, [
      { ask: 'instrumentFault', tag: 'vapourLelPct', fault: { fault: 'dead' } },
    ]);
    expect(dead.readings.vapourDetectorOk).toBe(0);
    const stuck = run(demoPlant(1), 1, {}, [
      { ask: 'instrumentFault', tag: 'vapourLelPct', fault: { fault: 'stuck' } },
    ]);
    expect(stuck.readings.vapourDetectorOk).toBe(1);
  });
});
