/** Benches of coating, water resistance, workability and bond. */
import { MPA_PER_KG_CM2 } from '../worksheets/bond.ts';
import type { Bench, Rng } from './bench.types.ts';
import { between, clamped, observed, read } from './draw.ts';
import { RELATIVE_SD, SD } from './precision.ts';

/** What two people say who looked at the same coating: each a little beside it, to whole percents. */
const eyes = (rng: Rng, truthPct: number, error: number) => {
  const first = observed(rng, truthPct, SD.coatedPct * error, 0, 100);
  const second = observed(rng, truthPct, SD.coatedPct * error, 0, 100);
  const firstPct = read(first, 1);
  // Too far apart they look again and come closer.
  return {
    firstPct,
    secondPct: clamped(read(second, 1), Math.max(0, firstPct - 8), Math.min(100, firstPct + 8)),
  };
};

export const wetCoatingBench: Bench = (truth, rng, error, context) => ({
  aggregateG: 500,
  waterG: 10,
  binderG: read(between(rng, 27, 29), 0.1),
  binderC: 80,
  mixedMin: 2,
  ...eyes(rng, truth.wetCoatedPct ?? 0, error),
  endedAt: context.nowAt,
});

export const staticImmersionBench: Bench = (truth, rng, error, context) => ({
  binder: 'cutback',
  aggregateG: 100,
  binderG: read(between(rng, 5.3, 5.7), 0.1),
  cureC: 60,
  cureH: 2,
  waterC: 25,
  immersedH: read(between(rng, 16.2, 17.8), 0.1),
  ...eyes(rng, truth.immersionCoatedPct ?? 0, error),
  endedAt: context.nowAt,
});

export const particleCountBench: Bench = (truth, rng, error, context) => {
  const share = clamped((truth.countCoatedPct ?? 0) / 100, 0, 1);
  const readings: Record<string, string | number> = { sieveMm: '4.75', endedAt: context.nowAt };
  for (const n of ['1', '2', '3']) {
    const counted = Math.floor(between(rng, 220, 480));
    // The only error of a count is which particles came to lie on the sieve.
    const sd = Math.sqrt(counted * share * (1 - share));
    readings[`counted:${n}`] = counted;
    readings[`coated:${n}`] = read(observed(rng, counted * share, sd * error, 0, counted), 1);
  }
  return readings;
};

export const waterResistanceBench: Bench = (truth, rng, error, context) => ({
  portionG: read(between(rng, 49.5, 50.5), 0.1),
  ovenC: 120,
  ovenH: 4,
  cooledC: 95,
  waterMl: 400,
  waterC: 99,
  stirredS: 180,
  turns: Math.floor(between(rng, 174, 187)),
  ...eyes(rng, truth.coatedPct ?? 0, error),
  endedAt: context.nowAt,
});

/** Workable in truth when it is at least half so; how long it takes goes by `breakUpS`. */
export const workabilityBench: Bench = (truth, rng, error, context) => {
  const seconds = truth.breakUpS ?? 30;
  const workable = (truth.workable ?? 1) >= 0.5;
  const cold = {
    portionG: read(Math.min(context.sampleMassG ?? 2500, between(rng, 2400, 2600)), 1),
    coldH: 16,
    cabinetC: -8,
    middleC: read(between(rng, -7.8, -6.2), 0.1),
    spatula: '200 mm',
    endedAt: context.nowAt,
  };
  if (!workable) return { ...cold, broke: 'no' };
  const shown = read(observed(rng, seconds, seconds * RELATIVE_SD.breakUp * error, 1, 1800), 1);
  return { ...cold, broke: shown > 60 ? 'with effort' : 'readily', breakUpS: Math.max(1, shown) };
};

export const bondBench: Bench = (truth, rng, error, context) => {
  const kgCm2 = truth.bondKgCm2 ?? (truth.bondMPa ?? 0) / MPA_PER_KG_CM2;
  const shown = observed(rng, kgCm2, kgCm2 * RELATIVE_SD.bond * error, 0, 29);
  const load = read((shown * (Math.PI * 10.16 ** 2)) / 4, 1);
  const specimen = {
    diameterMm: 101.6,
    blowsLower: 50,
    blowsUpper: 50,
    stoodH: 24,
    testC: 25,
    endedAt: context.nowAt,
  };
  return load === 0
    ? { ...specimen, parted: 'before loading' }
    : { ...specimen, parted: 'at the joint', loadUnit: 'kgf', load };
};
