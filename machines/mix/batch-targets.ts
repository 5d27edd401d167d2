/** What to weigh for one batch: job-mix shares turned into kilograms, moisture on dry mass throughout. */
import type { Mix } from '../scenario/mix.schema.ts';
import type { BinSpec } from '../scenario/plant.schema.ts';

export type AggregatePart = {
  /** Bin number, from 1. */
  readonly bin: number;
  readonly name: string;
  readonly dryKg: number;
  /** What the scale must show: stone and the water in it. */
  readonly wetKg: number;
};

export type BatchTargets = {
  readonly dryKg: number;
  readonly parts: readonly AggregatePart[];
  /** Water to add: pre-wet less what the aggregate brings, never below 0. */
  readonly waterKg: number;
  readonly binderKg: number;
  readonly antiStripKg: number;
  readonly totalKg: number;
};

const binOf = (bins: readonly BinSpec[], number: number): BinSpec => {
  const bin = bins[number - 1];
  if (bin === undefined)
    throw new RangeError(`the mix draws from bin ${number}, the plant has ${bins.length}`);
  return bin;
};

const partsOf = (mix: Mix, bins: readonly BinSpec[], dryKg: number): AggregatePart[] =>
  mix.aggregates.map((share) => {
    const bin = binOf(bins, share.bin);
    const partKg = (dryKg * share.dryPct) / 100;
    return {
      bin: share.bin,
      name: bin.name,
      dryKg: partKg,
      wetKg: partKg * (1 + bin.testedMoisturePct / 100),
    };
  });

/** Moisture of the blend of a mix, % of dry mass, from the moisture tested at each bin. */
export const blendMoisturePct = (mix: Mix, bins: readonly BinSpec[]): number =>
  mix.aggregates.reduce(
    (sum, share) => sum + (share.dryPct / 100) * binOf(bins, share.bin).testedMoisturePct,
    0,
  );

/**
 * Targets in kg of a batch weighed from the cold bins; together they make mix.batchKg.
 * Throws RangeError when the mix names a bin the plant lacks.
 */
export const batchTargets = (mix: Mix, bins: readonly BinSpec[]): BatchTargets => {
  const moistureShare = blendMoisturePct(mix, bins) / 100;
  const addedShare = Math.max(0, mix.preWetPct / 100 - moistureShare);
  const binderShare = mix.binder.dosePct / 100;
  const antiStripShare = (binderShare * mix.antiStripPctOfBinder) / 100;
  const dryKg = mix.batchKg / (1 + moistureShare + addedShare + binderShare + antiStripShare);
  return {
    dryKg,
    parts: partsOf(mix, bins, dryKg),
    waterKg: dryKg * addedShare,
    binderKg: dryKg * binderShare,
    antiStripKg: dryKg * antiStripShare,
    totalKg: mix.batchKg,
  };
};

/** Targets in kg of a batch whose aggregate, dried before, comes from the holding bin: it brings no water of its own. */
export const dryTargets = (mix: Mix): BatchTargets => {
  const waterShare = mix.preWetPct / 100;
  const binderShare = mix.binder.dosePct / 100;
  const antiStripShare = (binderShare * mix.antiStripPctOfBinder) / 100;
  const dryKg = mix.batchKg / (1 + waterShare + binderShare + antiStripShare);
  return {
    dryKg,
    parts: [],
    waterKg: dryKg * waterShare,
    binderKg: dryKg * binderShare,
    antiStripKg: dryKg * antiStripShare,
    totalKg: mix.batchKg,
  };
};

export type ChargeTargets = {
  readonly dryKg: number;
  readonly parts: readonly AggregatePart[];
  /** Wet mass weighed into the dryer. */
  readonly totalKg: number;
};

/** Parts in kg of one dryer charge of wetKg as weighed, in the shares of the mix. */
export const chargeTargets = (mix: Mix, bins: readonly BinSpec[], wetKg: number): ChargeTargets => {
  const dryKg = wetKg / (1 + blendMoisturePct(mix, bins) / 100);
  return { dryKg, parts: partsOf(mix, bins, dryKg), totalKg: wetKg };
};
