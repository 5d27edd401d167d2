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

/**
 * Index at which a step away from a known centre most likely began, of the values up to `i`: where the squared sum of what
 * lies off the centre, over how many there are, is largest (maximum likelihood of one step in normal values). The sums of
 * a cusum alone date it too early whenever they happened to hang a little above nothing before.
 */
export const stepBegan = (values: readonly number[], centre: number, i: number): number => {
  let sum = 0;
  let began = i;
  let most = 0;
  for (let from = i; from >= 0; from -= 1) {
    sum += (values[from] ?? centre) - centre;
    const likely = (sum * sum) / (i - from + 1);
    if (likely <= most) continue;
    most = likely;
    began = from;
  }
  return began;
};
