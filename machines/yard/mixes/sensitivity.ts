/** What a mix comes to when something is a little other than believed, each as a sentence with its figures. */
import { onMixPct } from '../../mix/residue.ts';
import type { Mix } from '../../scenario/mix.schema.ts';
import type { BinFigures } from './bins.ts';
import { figure } from './findings.ts';
import type { Weight, WeightsSheet } from './weights-sheet.ts';

export type Sensitivity = {
  readonly what: string;
  readonly words: string;
  /** Change of residual binder, % of mix. */
  readonly residueChangePct: number;
};

const signed = (value: number, decimals: number): string =>
  `${value < 0 ? '−' : '+'}${figure(Math.abs(value), decimals)}`;

/** Residual binder, % of mix, of binderKg as delivered on dryKg of stone. */
const residueOf = (mix: Mix, binderKg: number, dryKg: number): number =>
  onMixPct((binderKg * mix.binder.residueMassPct) / dryKg);

/** A bin is wetter by 1 % than tested: the scale shows the same, but there is less stone and more water on it. */
const wetter = (mix: Mix, weights: WeightsSheet, bin: BinFigures): Sensitivity | null => {
  const { targets } = weights;
  const part = targets.parts.find((one) => one.bin === bin.bin);
  if (part === undefined) return null;
  const dryKg = part.wetKg / (1 + (bin.moisturePct + 1) / 100);
  const lessKg = part.dryKg - dryKg;
  const allKg = targets.dryKg - lessKg;
  const waterKg = targets.parts.reduce((sum, one) => sum + one.wetKg - one.dryKg, 0) + targets.waterKg;
  const change = residueOf(mix, targets.binderKg, allKg) - residueOf(mix, targets.binderKg, targets.dryKg);
  const fluids = (water: number, dry: number) => (100 * (targets.binderKg + water)) / dry;
  const before = fluids(waterKg, targets.dryKg);
  const after = fluids(waterKg + lessKg, allKg);
  return {
    what: `1 % wetter ${bin.name.toLowerCase()}`,
    words: `1 % wetter ${bin.name.toLowerCase()} than tested means ${figure(lessKg, 1)} kg less stone and as much more water in every batch: total fluids go from ${figure(before, 1)} to ${figure(after, 1)} % on dry aggregate, residual binder changes by ${signed(change, 3)} % of mix.`,
    residueChangePct: change,
  };
};

const weakerBinder = (mix: Mix, { targets }: WeightsSheet): Sensitivity => {
  const now = residueOf(mix, targets.binderKg, targets.dryKg);
  const then = onMixPct((targets.binderKg * (mix.binder.residueMassPct - 1)) / targets.dryKg);
  const water = mix.family === 'emulsion' ? 'water' : 'solvent';
  return {
    what: `1 % more ${water} in the binder`,
    words: `1 % more ${water} in the binder (${figure(mix.binder.residueMassPct - 1, 1)} % residue in place of ${figure(mix.binder.residueMassPct, 1)} %) means residual binder of ${figure(then)} % of mix in place of ${figure(now)} %.`,
    residueChangePct: then - now,
  };
};

const scaleAtLimit = (mix: Mix, { targets }: WeightsSheet, bucket: Weight): Sensitivity | null => {
  if (bucket.errorKg === null) return null;
  const change =
    residueOf(mix, targets.binderKg - bucket.errorKg, targets.dryKg) -
    residueOf(mix, targets.binderKg, targets.dryKg);
  return {
    what: 'binder scale at its limit',
    words: `A binder scale at its in-service limit (±${figure(bucket.errorKg, 2)} kg at ${figure(bucket.kg, 1)} kg) means ±${figure(Math.abs(change), 3)} % of mix in residual binder.`,
    residueChangePct: change,
  };
};

const tolerance = (mix: Mix, { targets }: WeightsSheet): Sensitivity => {
  const share = mix.tolerance.binderPct / 100;
  const change =
    residueOf(mix, targets.binderKg * (1 - share), targets.dryKg * (1 + mix.tolerance.aggregatePct / 100)) -
    residueOf(mix, targets.binderKg, targets.dryKg);
  return {
    what: 'weights at the edge of tolerance',
    words: `Binder ${figure(mix.tolerance.binderPct, 1)} % light and aggregate ${figure(mix.tolerance.aggregatePct, 1)} % heavy, both still within tolerance, mean ${signed(change, 3)} % of mix in residual binder.`,
    residueChangePct: change,
  };
};

const wetterToDry = (
  mix: Mix,
  kwhPerDryT: (moisturePct: number) => number,
  moisturePct: number,
): Sensitivity | null =>
  mix.drying === undefined
    ? null
    : {
        what: '1 % wetter stone to dry',
        words: `1 % wetter stone means ${figure(kwhPerDryT(moisturePct + 1) - kwhPerDryT(moisturePct), 1)} kWh more heat from the burner for each tonne of dry stone, ${figure((100 * kwhPerDryT(moisturePct + 1)) / kwhPerDryT(moisturePct) - 100, 0)} % more.`,
        residueChangePct: 0,
      };

/** All that is asked of a mix, the ones that move residual binder first. */
export const sensitivities = (
  mix: Mix,
  bins: readonly BinFigures[],
  weights: WeightsSheet,
  kwhPerDryT: (moisturePct: number) => number,
  moisturePct: number,
): Sensitivity[] => {
  const bucket = weights.weights.find((one) => one.scale === 'bucket');
  const all = [
    ...bins.map((bin) => wetter(mix, weights, bin)),
    weakerBinder(mix, weights),
    bucket === undefined ? null : scaleAtLimit(mix, weights, bucket),
    tolerance(mix, weights),
    wetterToDry(mix, kwhPerDryT, moisturePct),
  ].filter((one) => one !== null);
  return all.sort((a, b) => Math.abs(b.residueChangePct) - Math.abs(a.residueChangePct));
};
