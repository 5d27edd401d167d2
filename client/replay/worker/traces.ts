/** Recorded readings as curves: exact where the picture has room for every change, least and most per column elsewhere. */
import { countUpTo } from './columns.ts';
import type { Recording, TagSeries } from './recording.ts';

export type Trace = {
  readonly fromTick: number;
  readonly toTick: number;
  /** Ticks of the points, shared by all instruments. */
  readonly ticks: Float64Array;
  /** One column of values an instrument asked for, NaN before it was first read. */
  readonly values: readonly Float64Array[];
  /** True when every change is there; false when each column holds its least and its most. */
  readonly exact: boolean;
};

const valueAt = (series: TagSeries | undefined, tick: number): number => {
  if (series === undefined) return Number.NaN;
  const index = countUpTo(series.ticks, tick) - 1;
  return index < 0 ? Number.NaN : series.values.at(index);
};

const everyTick = (series: TagSeries | undefined, ticks: Float64Array): Float64Array =>
  Float64Array.from(ticks, (tick) => valueAt(series, tick));

/** Least and most of a stretch, in the order they came, so that a short peak is never lost. */
const extremes = (series: TagSeries | undefined, edges: Float64Array): Float64Array => {
  const columns = edges.length - 1;
  const found = new Float64Array(columns * 2).fill(Number.NaN);
  if (series === undefined) return found;
  for (let c = 0; c < columns; c++) {
    const [from, to] = [edges[c] ?? 0, edges[c + 1] ?? 0];
    let index = countUpTo(series.ticks, from) - 1;
    let [least, most, leastAt, mostAt] = [Number.NaN, Number.NaN, 0, 0];
    for (index = Math.max(0, index); index < series.ticks.length && series.ticks.at(index) < to; index++) {
      const value = series.values.at(index);
      if (!(value >= least)) [least, leastAt] = [value, index];
      if (!(value <= most)) [most, mostAt] = [value, index];
    }
    found[2 * c] = leastAt <= mostAt ? least : most;
    found[2 * c + 1] = leastAt <= mostAt ? most : least;
  }
  return found;
};

/** Curves of `tags` over ticks `fromTick`..`toTick` with about `columns` columns to draw them in. */
export const traceOf = (
  recording: Recording,
  tags: readonly string[],
  fromTick: number,
  toTick: number,
  columns: number,
): Trace => {
  const from = Math.max(1, Math.floor(fromTick));
  const to = Math.max(from, Math.min(recording.lastTick, Math.ceil(toTick)));
  const chosen = tags.map((tag) => recording.series[recording.tags.indexOf(tag)]);
  const span = to - from;
  if (span <= columns * 2) {
    const ticks = Float64Array.from({ length: span + 1 }, (_, i) => from + i);
    return { fromTick: from, toTick: to, ticks, values: chosen.map((s) => everyTick(s, ticks)), exact: true };
  }
  const edges = Float64Array.from({ length: columns + 1 }, (_, i) => from + (span * i) / columns);
  const ticks = Float64Array.from({ length: columns * 2 }, (_, i) => {
    const column = Math.floor(i / 2);
    const [a, b] = [edges[column] ?? 0, edges[column + 1] ?? 0];
    return a + (b - a) * (i % 2 === 0 ? 0.25 : 0.75);
  });
  return { fromTick: from, toTick: to, ticks, values: chosen.map((s) => extremes(s, edges)), exact: false };
};
