/** Looks entries up by what they name, newest first, by the index: the record is not read through. */
import type { Entry } from '../../machines/record/entry.ts';
import type { FoundKind, FoundQuery } from '../../machines/reports/found.ts';
import type { FindQuery, ShiftSummary, Store } from '../store/store.ts';
import { breathe } from './breathe.ts';
import { decisionsOf } from './source.ts';

/** More lines than a person reads. */
const ENTRIES_AT_MOST = 500;
const SHIFTS_AT_MOST = 60;

export type FoundShift = {
  readonly shift: number;
  readonly day: string;
  readonly startsAt: string;
  readonly archived: boolean;
  readonly entries: readonly Entry[];
};

export type FoundEntries = {
  readonly shifts: readonly FoundShift[];
  /** There may be more than is told here. */
  readonly more: boolean;
};

const isOfKind = (entry: Entry, kind: FoundKind | undefined): boolean => {
  if (kind === undefined) return entry.kind !== 'readings';
  if (kind === 'command') return entry.kind === 'command';
  if (kind === 'refusal') return entry.kind === 'fact' && entry.body.fact.is === 'commandRefused';
  if (kind === 'fact') return entry.kind === 'fact' && entry.body.fact.is !== 'commandRefused';
  return entry.kind !== 'command' && entry.kind !== 'fact' && entry.kind !== 'readings';
};

const conditions = ({ from, to, lot, person, material }: FoundQuery): FindQuery => ({
  ...(from === undefined ? {} : { fromDay: from }),
  ...(to === undefined ? {} : { toDay: to }),
  ...(lot === undefined ? {} : { lot }),
  ...(person === undefined ? {} : { person }),
  ...(material === undefined ? {} : { material }),
  limit: SHIFTS_AT_MOST,
});

const startsAt = (entries: readonly Entry[]): string => {
  for (const entry of entries)
    if (entry.kind === 'fact' && entry.body.fact.is === 'shiftOpened') return entry.body.fact.startsAt;
  return '00:00';
};

const openingOf = async (store: Store, { shift }: ShiftSummary): Promise<string> =>
  startsAt(
    await store.read({ after: shift - 1, limit: 1, kind: 'fact', fact: 'shiftOpened' }).catch(() => []),
  );

/** Entries that meet every condition, the newest shift first and the newest entry first within it. */
export const foundEntries = async (store: Store, query: FoundQuery): Promise<FoundEntries> => {
  const found = await store.find(conditions(query));
  const shifts: FoundShift[] = [];
  let count = 0;
  let cut = found.length >= SHIFTS_AT_MOST;
  for (const { shift, mentions } of found) {
    if (count >= ENTRIES_AT_MOST) {
      cut = true;
      break;
    }
    const archived = shift.archivedIn !== null;
    let entries: readonly Entry[] = [];
    if (!archived) {
      const [first, ...others] = mentions;
      entries = first === undefined ? await decisionsOf(store, shift) : await store.naming(first);
      for (const other of others) {
        const kept = new Set((await store.naming(other)).map((entry) => entry.seq));
        entries = entries.filter((entry) => kept.has(entry.seq));
      }
    }
    const own = entries.filter((entry) => isOfKind(entry, query.kind));
    const taken = own.slice(-(ENTRIES_AT_MOST - count)).reverse();
    if (taken.length < own.length) cut = true;
    count += taken.length;
    if (taken.length > 0 || archived)
      shifts.push({
        shift: shift.shift,
        day: shift.day,
        startsAt: archived ? '00:00' : await openingOf(store, shift),
        archived,
        entries: taken,
      });
    await breathe();
  }
  return { shifts, more: cut };
};
