/** Keeps words beside their marks without letting them lie on each other. */

/** Places in the order given, moved apart to at least `least` between neighbours and kept inside from..to. */
export function spread(at: readonly number[], least: number, from: number, to: number): number[] {
  const order = at.map((y, i) => ({ y, i })).sort((a, b) => a.y - b.y);
  let below = from - least;
  for (const one of order) {
    one.y = Math.max(one.y, below + least);
    below = one.y;
  }
  let above = to + least;
  for (const one of order.toReversed()) {
    one.y = Math.min(one.y, above - least);
    above = one.y;
  }
  const placed = at.map(() => 0);
  for (const { y, i } of order) placed[i] = y;
  return placed;
}

/** Three to seven round steps that hold all values, with a little room; one value alone gets room around it. */
export function roundScale(values: readonly number[]): {
  readonly min: number;
  readonly max: number;
  readonly ticks: readonly number[];
} {
  const seen = values.filter((value) => Number.isFinite(value));
  const low = seen.length === 0 ? 0 : Math.min(...seen);
  const high = seen.length === 0 ? 1 : Math.max(...seen);
  const room = high > low ? (high - low) * 0.06 : Math.max(Math.abs(low) * 0.1, 0.5);
  const raw = (high - low + 2 * room) / 5;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = ([1, 2, 5, 10].find((each) => each * power >= raw) ?? 10) * power;
  // Masses, ranges and sums are never below nothing: a scale that begins there says so.
  const first = low >= 0 && low - room < 0 ? 0 : Math.floor((low - room) / step);
  const last = Math.ceil((high + room) / step);
  const ticks = Array.from({ length: last - first + 1 }, (_, i) =>
    Number(((first + i) * step).toPrecision(12)),
  );
  return { min: first * step, max: last * step, ticks };
}

/** A figure with so many decimals as the step between ticks needs. */
export const atStep = (value: number, step: number): string =>
  value.toFixed(Math.max(0, Math.min(4, Math.ceil(-Math.log10(step) - 1e-9)))).replace(/^-/, '−');
