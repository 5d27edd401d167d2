/** Mean and spread of a few numbers. */

/** Arithmetic mean; NaN of nothing. */
export const mean = (values: readonly number[]): number =>
  values.reduce((sum, x) => sum + x, 0) / values.length;

/** Standard deviation of a sample (n − 1); NaN of fewer than two. */
export const deviation = (values: readonly number[]): number => {
  const centre = mean(values);
  return values.length < 2
    ? Number.NaN
    : Math.sqrt(values.reduce((sum, x) => sum + (x - centre) ** 2, 0) / (values.length - 1));
};
