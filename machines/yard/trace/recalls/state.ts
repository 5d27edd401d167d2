/** What the book of recalls knows; plain JSON. */
import type { TraceFrom } from '../traced.types.ts';
import type { DrillResult, TickWhat } from './facts.ts';

export type Tick = {
  readonly n: number;
  readonly what: TickWhat;
  readonly note: string;
  readonly at: string;
  readonly by: string;
  /** Why it was taken back; null while it stands. */
  readonly back: string | null;
};

export type Recall = {
  readonly id: string;
  readonly from: TraceFrom;
  readonly words: string;
  readonly reason: string;
  readonly at: string;
  readonly by: string;
  readonly ticks: { readonly [patch: string]: readonly Tick[] };
  readonly closed: { readonly at: string; readonly by: string; readonly remark: string } | null;
};

export type DrillKept = Omit<DrillResult, 'truth' | 'ticked'> & {
  readonly at: string;
  readonly by: string;
  readonly patches: number;
};

export type RecallsState = {
  readonly recalls: { readonly [id: string]: Recall };
  /** The newest, the newest last. */
  readonly drills: readonly DrillKept[];
  /** Recalls opened, by day. */
  readonly numbered: { readonly [day: string]: number };
};

export const EMPTY_RECALLS: RecallsState = { recalls: {}, drills: [], numbered: {} };

/** Drills kept in the book; all are in the record. */
export const DRILLS_KEPT = 50;
/** Closed recalls kept in the book. */
export const CLOSED_KEPT = 40;
