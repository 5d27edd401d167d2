/** The demo plant is about the size it should be: times and vapour a small plant would show. */
import { describe, expect, it } from 'vitest';
import { batchTargets } from '../../machines/mix/batch-targets.ts';
import { blendGrading } from '../../machines/mix/gradation.ts';
import type { Plant } from '../../machines/plant/plant.ts';
import { truthOf } from '../../machines/plant/truth.ts';
import { demoPlant, demoSpec, emulsionMix, run, runUntil, secondsBetween } from './demo.ts';
import {
  chargeCutback,
  discharge,
  dryCharges,
  lightBurner,
  mixCutback,
  mixEmulsion,
  weigh,
  weighEmulsion,
  withDryStone,
} from './sequences.ts';

const between = (value: number, low: number, high: number): void => {
  expect(value).toBeGreaterThanOrEqual(low);
  expect(value).toBeLessThanOrEqual(high);
};

describe('a batch', () => {
  it('weighs about 700 kg from three bins in 60–75 s', () => {
    const start = demoPlant();
    const plant = weigh(start, batchTargets(emulsionMix, demoSpec.bins).parts, {});
    between(secondsBetween(start, plant), 60, 75);
    between(plant.readings.hopperKg, 690, 705);
  });

  it('weighs about 50 kg of binder in about 20 s', () => {
    const start = demoPlant();
    const plant = weighEmulsion(start, {});
    between(plant.readings.bucketKg, 49, 52.5);
    between(secondsBetween(start, plant), 16, 26);
  });

  it('discharges 750 kg in about 25 s', () => {
    const mixed = mixEmulsion(demoPlant());
    between(secondsBetween(mixed, discharge(mixed, 1)), 20, 30);
  });

  it('has the grading of its bins in the shares of its mix, within a per cent', () => {
    const found = truthOf(mixEmulsion(demoPlant())).mixGrading;
    const wanted = blendGrading(
      emulsionMix.aggregates.map(({ bin, dryPct }) => ({
        share: dryPct / 100,
        grading: demoSpec.bins[bin - 1]?.grading ?? [],
      })),
    );
    expect(found.map((point) => point.sieveMm)).toEqual(wanted.map((point) => point.sieveMm));
    for (const [i, point] of found.entries())
      expect(Math.abs(point.passingPct - (wanted[i]?.passingPct ?? Number.NaN))).toBeLessThan(1);
    expect(found.length).toBeGreaterThan(5);
  });

  it('of emulsion comes out evenly brown: coated, hardly broken', () => {
    const mixed = mixEmulsion(demoPlant());
    between(mixed.readings.sightCoatedPct, 92, 100);
    between(mixed.readings.sightBlackPct, 3, 35);
  });

  it('shows on the motor when the mixer has run empty', () => {
    const mixed = mixEmulsion(demoPlant());
    expect(mixed.readings.mixerMotorA).toBeGreaterThan(45);
    const empty = run(discharge(mixed, 1), 3, { pugMill: true });
    expect(Math.abs(empty.readings.mixerMotorA - demoSpec.mixer.idleA)).toBeLessThanOrEqual(0.5);
    expect(run(empty, 3, {}).readings.mixerMotorA).toBe(0);
  });
});

describe('a drying campaign', () => {
  it('dries a 10 t lot in about 50 minutes and cools it to the 50 °C it is drawn at in about 50', () => {
    const lit = lightBurner(demoPlant());
    const dried = dryCharges(lit, 10);
    between(secondsBetween(lit, dried) / 60, 42, 58);
    const truth = truthOf(dried);
    expect(truth.holdingBinMoisturePct).toBeLessThan(0.5);
    between(dried.readings.holdingBinKg, 9300, 10_000);
    between(dried.readings.holdingBinC, 98, 116);
    expect(truth.dryerFlame).toBe(false);
    expect(truth.puffs).toBe(0);
    const cooled = runUntil(dried, { coolingFan: true }, (p) => p.readings.holdingBinC <= 50, 7200);
    between(secondsBetween(dried, cooled) / 60, 42, 60);
  });
});

describe('vapour at the hood', () => {
  const mixAt = (tempC: number, fan: boolean): Plant =>
    mixCutback(withDryStone(demoPlant(), 5000, tempC), fan);

  it('stays at 1–3 % LEL over a normal cutback mix of about 52 °C', () => {
    const plant = mixAt(51, true);
    between(plant.readings.mixC, 49, 55);
    between(plant.readings.vapourLelPct, 1, 3);
    between(plant.readings.sightCoatedPct, 95, 100);
  });

  it('climbs past 20 % LEL within five minutes of losing the fan', () => {
    const plant = mixAt(51, true);
    const lost = run(plant, 1, { pugMill: true }, [
      { ask: 'equipmentFault', equipment: 'hoodFanStopped', on: true },
    ]);
    const over = runUntil(lost, { pugMill: true }, (p) => p.readings.vapourLelPct >= 20, 300);
    between(secondsBetween(lost, over), 30, 300);
    const fixed = run(over, 60, { pugMill: true }, [
      { ask: 'equipmentFault', equipment: 'hoodFanStopped', on: false },
    ]);
    expect(fixed.readings.vapourLelPct).toBeLessThan(5);
  });

  it('goes far past the limit over 90 °C aggregate: past 100 % LEL even ventilated, above 150 % without', () => {
    const peak = (hoodFan: boolean): number => {
      const base = { pugMill: true, hoodFan };
      let plant = chargeCutback(withDryStone(demoPlant(), 5000, 92), base);
      let most = 0;
      for (let i = 0; i < 60; i += 1) {
        plant = run(plant, 1, { ...base, bucketValve: true });
        most = Math.max(most, truthOf(plant).hoodLelPct);
      }
      return most;
    };
    expect(peak(true)).toBeGreaterThan(100);
    expect(peak(false)).toBeGreaterThan(150);
  });
});

describe('binder tanks', () => {
  it('hold at least 6 t each, the cutback inside 75–95 °C and losing about half a degree an hour unheated', () => {
    const start = demoPlant();
    expect(start.emulsionTank.massKg).toBeGreaterThanOrEqual(6000);
    expect(start.cutbackTank.massKg).toBeGreaterThanOrEqual(6000);
    const plant = run(start, 3600, {});
    between(start.cutbackTank.tempC - plant.cutbackTank.tempC, 0.25, 1);
    between(start.emulsionTank.tempC - plant.emulsionTank.tempC, 0, 0.25);
  });

  it('are warmed by the oil coil, more when stirred', () => {
    const heat = { oilPump: true, oilBurner: true, cutbackCoil: true };
    const hot = runUntil(demoPlant(), heat, (p) => p.readings.oilC >= 160, 7200);
    const still = run(hot, 600, { oilPump: true, cutbackCoil: true });
    const stirred = run(hot, 600, { oilPump: true, cutbackCoil: true, cutbackStir: true });
    expect(still.cutbackTank.tempC).toBeGreaterThan(hot.cutbackTank.tempC);
    expect(stirred.cutbackTank.tempC).toBeGreaterThan(still.cutbackTank.tempC);
  });
});
