/**
 * Percent within limits: the share of a lot estimated to lie within its limits, from three results or more.
 *
 * Beta estimator as tabulated in FHWA Technical Advisory T 5080.12 Table 1B:
 * PWL = 100·(1 − I_x(n/2 − 1, n/2 − 1)), x = ½ − ½·Q·√n/(n − 1), Q the quality index (mean − limit)/s.
 */

import { deviation, mean } from './describe.ts';
import { betaCdf } from './distributions.ts';

export const PWL_LEAST_N = 3;

/** % within one limit from the quality index of n results. n below 3 cannot say: NaN. */
export const pwlOfQuality = (quality: number, n: number): number => {
  if (n < PWL_LEAST_N || Number.isNaN(quality)) return Number.NaN;
  const alpha = n / 2 - 1;
  const x = 0.5 - (0.5 * Math.abs(quality) * Math.sqrt(n)) / (n - 1);
  const within = x <= 0 ? 100 : 100 * (1 - betaCdf(x, alpha, alpha));
  return quality < 0 ? 100 - within : within;
};

export type Pwl = {
  readonly n: number;
  readonly mean: number;
  /** Sample standard deviation, n − 1. */
  readonly deviation: number;
  /** Quality indices against the lower and the upper limit; null without that limit. */
  readonly lowerQuality: number | null;
  readonly upperQuality: number | null;
  readonly lowerPct: number;
  readonly upperPct: number;
  /** Both sides together: lower + upper − 100. */
  readonly withinPct: number;
};

/** % of the lot estimated within the limits; null for fewer than three results. Results all alike lie all in or all out. */
export const pwlOf = (
  values: readonly number[],
  limits: { readonly from: number | null; readonly to: number | null },
): Pwl | null => {
  const n = values.length;
  if (n < PWL_LEAST_N) return null;
  const centre = mean(values);
  const s = deviation(values);
  const quality = (distance: number): number =>
    s === 0 ? (distance >= 0 ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY) : distance / s;
  const lowerQuality = limits.from === null ? null : quality(centre - limits.from);
  const upperQuality = limits.to === null ? null : quality(limits.to - centre);
  const lowerPct = lowerQuality === null ? 100 : pwlOfQuality(lowerQuality, n);
  const upperPct = upperQuality === null ? 100 : pwlOfQuality(upperQuality, n);
  return {
    n,
    mean: centre,
    deviation: s,
    lowerQuality,
    upperQuality,
    lowerPct,
    upperPct,
    withinPct: Math.max(0, lowerPct + upperPct - 100),
  };
};
