/** Readings of a few instruments over a stretch of a shift, thinned to what paper and screen can show. */
import { z } from 'zod';
import { TAGS, type Tag } from '../field/tags.ts';
import type { Entry } from '../record/entry.ts';

export const traceSchema = z.object({
  tag: z.string(),
  label: z.string(),
  unit: z.string(),
  /** [seconds since the shift began, value]; a value holds until the next. */
  points: z.array(z.tuple([z.number(), z.number()])),
});
export type Trace = z.infer<typeof traceSchema>;

const TICK_MS = 100;

type Growing = { before: number | null; bucket: number; points: [number, number][] };

/**
 * Traces of `tags` from fromMs to toMs, at most `buckets` points each: the newest reading of every
 * equal slice of time. A reading taken before the stretch begins it. Values are as recorded.
 */
export const tracesOf = (
  entries: Iterable<Entry>,
  tags: readonly Tag[],
  fromMs: number,
  toMs: number,
  buckets = 240,
): Trace[] => {
  const sliceMs = Math.max(TICK_MS, (toMs - fromMs) / buckets);
  const growing = new Map<Tag, Growing>(tags.map((tag) => [tag, { before: null, bucket: -1, points: [] }]));
  const take = (one: Growing, atMs: number, value: number): void => {
    if (atMs < fromMs) {
      one.before = value;
      return;
    }
    const bucket = Math.floor((atMs - fromMs) / sliceMs);
    const point: [number, number] = [atMs / 1000, value];
    if (bucket === one.bucket) one.points[one.points.length - 1] = point;
    else one.points.push(point);
    one.bucket = bucket;
  };
  for (const entry of entries) {
    if (entry.kind !== 'readings' || entry.body.from * TICK_MS > toMs) continue;
    for (const [tick, changes] of entry.body.rows) {
      if (tick * TICK_MS > toMs) break;
      for (const tag of tags) {
        const value = changes[tag];
        const one = growing.get(tag);
        if (value !== undefined && one !== undefined) take(one, tick * TICK_MS, value);
      }
    }
  }
  return [...growing].map(([tag, { before, points }]) => {
    const first = points[0];
    const opening: [number, number][] =
      before !== null && (first === undefined || first[0] > fromMs / 1000) ? [[fromMs / 1000, before]] : [];
    return { tag, label: TAGS[tag].label, unit: TAGS[tag].unit, points: [...opening, ...points] };
  });
};
