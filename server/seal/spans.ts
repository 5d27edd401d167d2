/** Where each shift of a record begins and ends, and how it stands with its end and its seal. */
import type { ShiftSummary, Store } from '../store/store.ts';
import { type SealEntry, sealsOf } from './seals-of.ts';

export type Span = ShiftSummary & {
  /** 1, 2, 3 … in the order the shifts were opened. */
  readonly ordinal: number;
  /** Last entry its seal covers or would cover. */
  readonly covered: number;
  /** The newest shift of the record. */
  readonly isNewest: boolean;
  readonly sealEntry: SealEntry | null;
};

/** All shifts, the oldest first. */
export const spansOf = async (store: Store): Promise<readonly Span[]> => {
  if ((await store.tail()).seq === 0) return [];
  const shifts = await store.shifts();
  const seals = new Map((await sealsOf(store)).map((entry) => [entry.body.shift, entry]));
  return shifts.map((summary, i) => {
    const sealEntry = seals.get(summary.shift) ?? null;
    const covered = sealEntry?.body.last ?? summary.last;
    return { ...summary, ordinal: i + 1, covered, isNewest: i === shifts.length - 1, sealEntry };
  });
};
