/** What one hole takes: mix, tack, prime, crusher run, sand. Every figure comes from the basis. */
import type { Basis } from './basis.ts';
import { depthsOf, fillLayersOf, layersOf } from './layers.ts';
import type { ListSum, Measured, Patch, TakeOff } from './patch.types.ts';

/** To the hundred grams: no scale in the yard reads finer, and sums of rounded rows stay what the rows say. */
const tenths = (kg: number): number => Math.round(kg * 10) / 10;
/** Liquids and areas: a small hole takes less than a hundred grams of prime, and that is not nothing. */
const hundredths = (value: number): number => Math.round(value * 100) / 100;

/** Sides of the hole once trimmed, m: the cut goes so far beyond the broken edge on every side. */
export const trimmedM = (
  { lengthM, widthM }: Pick<Measured, 'lengthM' | 'widthM'>,
  trimMm: number,
): { readonly lengthM: number; readonly widthM: number } => ({
  lengthM: lengthM + (2 * trimMm) / 1000,
  widthM: widthM + (2 * trimMm) / 1000,
});

/** Mix for a block of that plan area and thickness, kg: area × thickness × compacted density, and waste on top. */
export const mixKgOf = (
  areaM2: number,
  thickMm: number,
  { compactedKgM3, wastePct }: Pick<Basis, 'compactedKgM3' | 'wastePct'>,
): number => areaM2 * (thickMm / 1000) * compactedKgM3 * (1 + wastePct / 100);

/**
 * Tack, kg: the bottom at the rate of what it is (primed where the base is reached or crusher run was placed), the
 * vertical sides of the mix at the rate of the road around it.
 */
export const tackKgOf = (
  areaM2: number,
  sidesM2: number,
  bottom: Measured['surface'] | 'primed',
  sides: Measured['surface'],
  basis: Basis,
): number => {
  const rates = {
    bituminous: basis.tackBituminousKgM2,
    concrete: basis.tackConcreteKgM2,
    primed: basis.tackPrimedKgM2,
  };
  return areaM2 * rates[bottom] + sidesM2 * rates[sides];
};

/** Whole take-off of a hole that `troubleWith` found nothing wrong with; its depth is taken to the whole millimetre. */
export const takeOffOf = (hole: Measured, basis: Basis): TakeOff => {
  const depthMm = Math.round(hole.depthMm);
  const cut = trimmedM(hole, basis.trimMm);
  const areaM2 = cut.lengthM * cut.widthM;
  const { mixMm, fillMm } = depthsOf(depthMm, hole.baseReached, basis);
  const finishMm = hole.compactedBy === 'roller' ? basis.finishRollerMm : basis.finishHandMm;
  const primed = hole.baseReached || fillMm > 0;
  const sidesM2 = 2 * (cut.lengthM + cut.widthM) * (mixMm / 1000);
  const waste = 1 + basis.wastePct / 100;
  return {
    areaM2: hundredths(areaM2),
    mixDepthMm: mixMm,
    finishMm,
    layersMm: layersOf(mixMm),
    fillDepthMm: fillMm,
    fillLayersMm: fillLayersOf(fillMm),
    mixKg: tenths(mixKgOf(areaM2, mixMm + finishMm, basis)),
    tackKg: hundredths(tackKgOf(areaM2, sidesM2, primed ? 'primed' : hole.surface, hole.surface, basis)),
    primeKg: primed ? hundredths(areaM2 * basis.primeKgM2) : 0,
    crusherRunKg: tenths(areaM2 * (fillMm / 1000) * basis.crusherRunKgM3 * waste),
    sandKg: tenths(areaM2 * basis.sandKgM2),
  };
};

export const NO_SUM: ListSum = {
  patches: 0,
  mixKg: 0,
  tackKg: 0,
  primeKg: 0,
  crusherRunKg: 0,
  sandKg: 0,
  laidKg: 0,
};

/** Sum over the patches that stand. */
export const sumOf = (
  patches: readonly Pick<Patch, 'takenOut' | 'takeOff' | 'row'>[],
  laidKg: Readonly<Record<string, number>> = {},
): ListSum => {
  const sum = { ...NO_SUM };
  for (const { takenOut, takeOff, row } of patches) {
    sum.laidKg += laidKg[row] ?? 0;
    if (takenOut !== null) continue;
    sum.patches += 1;
    for (const key of ['mixKg', 'tackKg', 'primeKg', 'crusherRunKg', 'sandKg'] as const)
      sum[key] += takeOff[key];
  }
  for (const key of ['mixKg', 'tackKg', 'primeKg', 'crusherRunKg', 'sandKg', 'laidKg'] as const)
    sum[key] = hundredths(sum[key]);
  return sum;
};

/** Sums by route in the order of first mention; holes without one stand under ''. */
export const sumsByRoute = (
  patches: readonly Patch[],
  laidKg: Readonly<Record<string, number>> = {},
): readonly { readonly route: string; readonly sum: ListSum }[] => {
  const routes = [...new Set(patches.map(({ route }) => route))];
  return routes.map((route) => ({
    route,
    sum: sumOf(
      patches.filter((patch) => patch.route === route),
      laidKg,
    ),
  }));
};
