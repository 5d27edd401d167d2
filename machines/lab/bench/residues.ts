/** Benches of binder content and of residues. */
import { onMixPct } from '../../mix/residue.ts';
import type { Bench, Rng, Truth } from './bench.types.ts';
import { between, observed, read } from './draw.ts';
import { SD } from './precision.ts';

/** True residual binder on mix, from either property. */
const onMix = (truth: Truth): number =>
  truth.residualBinderMixPct ?? onMixPct(truth.residualBinderAggPct ?? 0);

/** Grams of one test portion: its water, solvent and residual binder as the test will show them; the rest is stone. */
const portionOf = (truth: Truth, rng: Rng, sd: number, sampleMassG: number | null) => {
  const portionG = read(Math.min((sampleMassG ?? 3000) * 0.45, between(rng, 1020, 1250)), 0.1);
  const [waterPct, solventPct] = [truth.waterPct ?? 0, truth.solventPct ?? 0];
  const mixG = portionG * (1 - (waterPct + solventPct) / 100);
  const binderPct = observed(rng, onMix(truth), sd, 0, 40);
  return {
    portionG,
    waterPct: read(waterPct, 0.01),
    solventPct: read(solventPct, 0.01),
    binderG: (mixG * binderPct) / 100,
    mixG,
  };
};

export const extractionBench: Bench = (truth, rng, error, context) => {
  const { portionG, waterPct, solventPct, binderG, mixG } = portionOf(
    truth,
    rng,
    SD.extractionPct * error,
    context.sampleMassG,
  );
  const stoneG = mixG - binderG;
  const finesG = read(stoneG * between(rng, 0.003, 0.008), 0.01);
  const gainG = stoneG * between(rng, 0.001, 0.003);
  const filterG = between(rng, 14, 16);
  return {
    portionG,
    waterPct,
    solventPct,
    aggregateG: read(stoneG - finesG - gainG, 0.1),
    filterBeforeG: read(filterG, 0.01),
    filterAfterG: read(filterG + gainG, 0.01),
    washes: Math.floor(between(rng, 4, 8)),
    colour: 'straw',
    finesBy: 'weighed',
    finesG,
    endedAt: context.nowAt,
  };
};

export const ignitionBench: Bench = (truth, rng, error, context) => {
  const { portionG, waterPct, binderG, mixG } = portionOf(
    { ...truth, solventPct: 0, waterPct: 0 },
    rng,
    SD.ignitionPct * error,
    context.sampleMassG,
  );
  // What the stone itself loses in the fire, which the correction takes off again.
  const correctionPct = read(between(rng, 0.1, 0.4), 0.01);
  const basketG = between(rng, 2900, 3100);
  const ashG = read(between(rng, 0, 2), 0.1);
  const leftG = mixG - binderG - (correctionPct * mixG) / 100;
  return {
    cured: 'dried',
    waterPct,
    solventPct: 0,
    basketG: read(basketG, 0.1),
    beforeG: read(basketG + portionG, 0.1),
    afterG: read(basketG + leftG - ashG, 0.1),
    ashG,
    furnaceC: 538,
    correctionPct,
    endedAt: context.nowAt,
  };
};

export const emulsionResidueBench: Bench = (truth, rng, error, context) => {
  const readings: Record<string, string | number> = { ovenC: 163, ovenH: 3, endedAt: context.nowAt };
  for (const n of ['1', '2', '3']) {
    const pct = observed(rng, truth.residuePct ?? 0, SD.emulsionResiduePct * error, 0, 100);
    const beakerG = between(rng, 210, 240);
    const withG = beakerG + between(rng, 49.9, 50.1);
    readings[`beakerG:${n}`] = read(beakerG, 0.01);
    readings[`withG:${n}`] = read(withG, 0.01);
    readings[`afterG:${n}`] = read(beakerG + ((withG - beakerG) * pct) / 100, 0.01);
  }
  return readings;
};

/** Typical densities at 15 °C of residue and distillate, kg/m³ (from memory). */
const RESIDUE_KG_M3 = 1020;
const DISTILLATE_KG_M3 = 810;
/** How a medium-curing cutback gives off its solvent, share of all to 360 °C (inside ASTM D2027 as far as seen). */
const SHARES: readonly (readonly [cut: string, share: number])[] = [
  ['190', 0.01],
  ['225', 0.06],
  ['260', 0.25],
  ['316', 0.68],
  ['360', 1],
];

export const cutbackResidueBench: Bench = (truth, rng, error, context) => {
  const massPct = truth.residuePct ?? 80;
  const volumePct =
    truth.residueVolumePct ??
    (100 * (massPct / RESIDUE_KG_M3)) / (massPct / RESIDUE_KG_M3 + (100 - massPct) / DISTILLATE_KG_M3);
  const distilledMl = 2 * (100 - observed(rng, volumePct, SD.cutbackResidueVolumePct * error, 1, 100));
  const readings: Record<string, string | number> = {
    sampleMl: 200,
    densities: 'residue',
    residueKgM3: RESIDUE_KG_M3,
    distillateKgM3: DISTILLATE_KG_M3,
    endedAt: context.nowAt,
  };
  for (const [cut, share] of SHARES) readings[`distillateMl:${cut}`] = read(distilledMl * share, 0.1);
  return readings;
};
