/** Filled bags against OIML R 61: deviation of each from the mean, and of the mean from the preset value. */

/**
 * Greatest deviation of one fill from the mean in service for class X(1), g, by the mean in g.
 * OIML R 61, as in UK SI 2000/388 schedule 5: over 15 kg 1 %, 10–15 kg 150 g, 1–10 kg 1.5 %, 500 g–1 kg 15 g.
 */
const classOneInServiceG = (meanG: number): number => {
  if (meanG > 15_000) return meanG * 0.01;
  if (meanG > 10_000) return 150;
  if (meanG > 1000) return meanG * 0.015;
  return 15;
};

/** The same on first verification: over 15 kg 0.7 %, 10–15 kg 105 g, 1–10 kg 1.05 %, 500 g–1 kg 10.5 g. */
const classOneInitialG = (meanG: number): number => {
  if (meanG > 15_000) return meanG * 0.007;
  if (meanG > 10_000) return 105;
  if (meanG > 1000) return meanG * 0.0105;
  return 10.5;
};

export type FillLimits = {
  readonly deviationG: number;
  readonly initialDeviationG: number;
  /** Of the mean from the preset value: a quarter of the deviation in service. */
  readonly presetG: number;
};

/** Limits for accuracy class X(x) at a nominal fill in kg. */
export const fillLimits = (nominalKg: number, accuracyClass: number): FillLimits => {
  const deviationG = classOneInServiceG(nominalKg * 1000) * accuracyClass;
  return {
    deviationG,
    initialDeviationG: classOneInitialG(nominalKg * 1000) * accuracyClass,
    presetG: deviationG / 4,
  };
};

/** Fills looked at for a verdict: 20 for fills over 25 kg. From memory. */
export const SAMPLE_BAGS = 20;

export type BagCheck = {
  readonly meanKg: number;
  readonly limits: FillLimits;
  readonly bags: readonly {
    readonly kg: number;
    readonly deviationG: number;
    readonly within: boolean;
  }[];
  readonly presetErrorG: number;
  readonly presetWithin: boolean;
  readonly pass: boolean;
};

/** Each weighed bag against the mean of all, and the mean against the preset value. */
export const checkBags = (
  weighedKg: readonly number[],
  nominalKg: number,
  accuracyClass: number,
): BagCheck => {
  const limits = fillLimits(nominalKg, accuracyClass);
  const meanKg = weighedKg.reduce((sum, kg) => sum + kg, 0) / weighedKg.length;
  const bags = weighedKg.map((kg) => {
    const deviationG = Math.round((kg - meanKg) * 1e6) / 1000;
    return { kg, deviationG, within: Math.abs(deviationG) <= limits.deviationG + 1e-6 };
  });
  const presetErrorG = Math.round((meanKg - nominalKg) * 1e6) / 1000;
  const presetWithin = Math.abs(presetErrorG) <= limits.presetG + 1e-6;
  return {
    meanKg,
    limits,
    bags,
    presetErrorG,
    presetWithin,
    pass: presetWithin && bags.every((bag) => bag.within),
  };
};
