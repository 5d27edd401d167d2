/** Masses rounded to the interval of a scale so that they still add up: the largest remainders are rounded up. */

/** A value as a whole number of intervals, free of the dust of floating point. */
const counted = (value: number, interval: number): number => {
  const exact = value / interval;
  const near = Math.round(exact);
  return Math.abs(exact - near) < 1e-9 * Math.max(1, Math.abs(near)) ? near : exact;
};

/** So many intervals as a decimal number: never 0.30000000000000004. */
const massOf = (count: number, interval: number): number => {
  const perUnit = Math.round(1 / interval);
  return interval < 1 && Math.abs(perUnit * interval - 1) < 1e-9 ? count / perUnit : count * interval;
};

/** One value at the nearest interval. */
export const roundedTo = (value: number, interval: number): number =>
  massOf(Math.round(counted(value, interval)), interval);

/**
 * Parts rounded to whole intervals; their sum is the sum of the parts rounded once (largest remainder; of equal
 * remainders the earlier part gets it). No part moves by a whole interval.
 */
export const roundedToSum = (parts: readonly number[], interval: number): number[] => {
  const exact = parts.map((part) => counted(part, interval));
  const floors = exact.map(Math.floor);
  const total = Math.round(
    counted(
      parts.reduce((sum, part) => sum + part, 0),
      interval,
    ),
  );
  const missing = total - floors.reduce((sum, count) => sum + count, 0);
  const order = exact
    .map((value, i) => ({ i, remainder: value - (floors[i] as number) }))
    .sort((a, b) => b.remainder - a.remainder || a.i - b.i);
  for (const { i } of order.slice(0, missing)) floors[i] = (floors[i] as number) + 1;
  return floors.map((count) => massOf(count, interval));
};
