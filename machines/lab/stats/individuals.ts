/**
 * Individuals and moving range: every value against the limits its own neighbours set.
 *
 * NIST/SEMATECH e-Handbook 6.3.2.2: sigma = mean moving range / 1.128, limits at three sigma; the moving range has its
 * upper limit at 3.267 times its mean and no lower one.
 */
import { mean } from './describe.ts';

/** d2 and D4 for ranges of two (NIST e-Handbook 6.3.2). */
export const D2 = 1.128;
export const D4 = 3.267;

export const movingRanges = (values: readonly number[]): readonly number[] =>
  values.slice(1).map((value, i) => Math.abs(value - (values[i] as number)));

/** Spread of neighbours, in the unit of the values; NaN of fewer than two. */
export const sigmaOfRanges = (values: readonly number[]): number => mean(movingRanges(values)) / D2;

export type Limits = {
  readonly centre: number;
  readonly sigma: number;
  readonly lower: number;
  readonly upper: number;
};

export type IndividualsChart = Limits & {
  readonly values: readonly number[];
  /** One fewer than values: the range between each and the one before. */
  readonly ranges: readonly number[];
  readonly meanRange: number;
  readonly upperRange: number;
};

/** The chart of values; centre and sigma come from the first `baseline` values unless they are given. */
export const individuals = (
  values: readonly number[],
  given: { readonly centre?: number; readonly sigma?: number; readonly baseline?: number } = {},
): IndividualsChart => {
  const base = values.slice(0, given.baseline ?? values.length);
  const centre = given.centre ?? mean(base);
  const sigma = given.sigma ?? sigmaOfRanges(base);
  const meanRange = sigma * D2;
  return {
    values,
    ranges: movingRanges(values),
    centre,
    sigma,
    lower: centre - 3 * sigma,
    upper: centre + 3 * sigma,
    meanRange,
    upperRange: D4 * meanRange,
  };
};
