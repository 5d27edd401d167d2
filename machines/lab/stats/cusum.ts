/**
 * Cumulative sums in table form: what each value lies above (or below) the centre by more than an allowance is summed,
 * until the sum passes its limit.
 *
 * NIST/SEMATECH e-Handbook 6.3.2.3: high(t) = max(0, high(t − 1) + x(t) − centre − k·s), low the other way round; a sum
 * above h·s is a signal. With k = ½ a shift of one sigma is found in about ten values at h = 5.
 */

export type CusumOptions = {
  readonly centre: number;
  readonly sigma: number;
  /** Allowance in sigmas: half the shift to be found. */
  readonly k?: number;
  /** Limit of the sums in sigmas. */
  readonly h?: number;
};

export type CusumChart = {
  readonly centre: number;
  readonly allowance: number;
  readonly limit: number;
  readonly high: readonly number[];
  readonly low: readonly number[];
  /** Indices where a sum passes its limit, and which one. */
  readonly outside: readonly { readonly i: number; readonly side: 'high' | 'low' }[];
};

export const cusum = (values: readonly number[], options: CusumOptions): CusumChart => {
  const { centre, sigma, k = 0.5, h = 5 } = options;
  const allowance = k * sigma;
  const limit = h * sigma;
  const high: number[] = [];
  const low: number[] = [];
  const outside: { i: number; side: 'high' | 'low' }[] = [];
  values.forEach((value, i) => {
    const up = Math.max(0, (high[i - 1] ?? 0) + value - centre - allowance);
    const down = Math.max(0, (low[i - 1] ?? 0) + centre - value - allowance);
    high.push(up);
    low.push(down);
    if (up > limit) outside.push({ i, side: 'high' });
    if (down > limit) outside.push({ i, side: 'low' });
  });
  return { centre, allowance, limit, high, low, outside };
};

/** Index of the value a sum has grown from without a break up to `i`: where the shift most likely began. */
export const grownSince = (sums: readonly number[], i: number): number => {
  let from = i;
  while (from > 0 && (sums[from - 1] ?? 0) > 0) from -= 1;
  return from;
};
