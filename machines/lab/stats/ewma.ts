/**
 * Exponentially weighted moving average: remembers what went before, so small lasting shifts add up.
 *
 * NIST/SEMATECH e-Handbook 6.3.2.4: z(t) = λ·x(t) + (1 − λ)·z(t − 1), limits at centre ± k·s·√(λ/(2 − λ)) once it has
 * run a while; from the start they are narrower by √(1 − (1 − λ)^(2t)).
 */

export type EwmaOptions = {
  readonly centre: number;
  readonly sigma: number;
  /** Weight of the newest value, above 0 up to 1. */
  readonly lambda?: number;
  /** Width of the limits in sigmas of the average. */
  readonly k?: number;
  /** settled: the same limits all along (as NIST prints them); growing: right from the first value. */
  readonly limits?: 'settled' | 'growing';
};

export type EwmaChart = {
  readonly centre: number;
  readonly lambda: number;
  readonly k: number;
  readonly values: readonly number[];
  /** Limits value by value. */
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  /** Indices outside the limits. */
  readonly outside: readonly number[];
};

export const ewma = (values: readonly number[], options: EwmaOptions): EwmaChart => {
  const { centre, sigma, lambda = 0.3, k = 3, limits = 'settled' } = options;
  const averages: number[] = [];
  let z = centre;
  for (const value of values) {
    z = lambda * value + (1 - lambda) * z;
    averages.push(z);
  }
  const settled = k * sigma * Math.sqrt(lambda / (2 - lambda));
  const widths = values.map((_, i) =>
    limits === 'settled' ? settled : settled * Math.sqrt(1 - (1 - lambda) ** (2 * (i + 1))),
  );
  return {
    centre,
    lambda,
    k,
    values: averages,
    lower: widths.map((w) => centre - w),
    upper: widths.map((w) => centre + w),
    outside: averages.flatMap((value, i) => (Math.abs(value - centre) > (widths[i] ?? 0) ? [i] : [])),
  };
};
