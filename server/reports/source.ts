/** Fetches what a report is made from: the shifts its filter means, their entries, seals and files. */

import type { Entry } from '../../machines/record/entry.ts';
import type { ReportFilter, ReportKind } from '../../machines/reports/filter.ts';
import { FILTERS } from '../../machines/reports/filter.ts';
import type { LabWork } from '../../machines/reports/lab-work.ts';
import type { ReportSource, SealPrint, ShiftSource } from '../../machines/reports/source.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { archivedTexts } from '../archive/archive-file.ts';
import { messageOf, PlainError } from '../plain-error.ts';
import { keyInfoOf } from '../seal/key-file.ts';
import {
  type CountersignatureEntry,
  countersignaturesOf,
  type SealEntry,
  sealsOf,
} from '../seal/seals-of.ts';
import type { ShiftSummary, Store } from '../store/store.ts';
import { entryOf } from '../store/tables.ts';
import { breathe } from './breathe.ts';
import { labWorkFor, type NamingShift, opensLot, shiftsNaming } from './lab-work.ts';

/** More shifts than a year has: a longer stretch is asked for in parts. */
export const SHIFTS_AT_MOST = 400;

/** Nothing in the record is meant by this filter; the message says what to change. */
export class NothingMeant extends PlainError {
  override name = 'NothingMeant';
}

/** Reports of one shift; the others run over all shifts that are meant. */
const isOfOneLot = (kind: ReportKind): boolean => kind === 'lot' || kind === 'certificate';
const isOfOneShift = (kind: ReportKind): boolean => kind === 'shift' || kind === 'batch' || isOfOneLot(kind);
const drawsTraces = (kind: ReportKind): boolean => kind === 'shift' || kind === 'batch';

const inDays = ({ from, to }: ReportFilter, { day }: ShiftSummary): boolean =>
  (from === undefined || day >= from) && (to === undefined || day <= to);

/** Shifts a filter means, the oldest first. */
export const shiftsMeant = async (
  store: Store,
  kind: ReportKind,
  filter: ReportFilter,
): Promise<readonly ShiftSummary[]> => {
  const shifts = await store.shifts();
  if (filter.shift !== undefined) {
    const found = shifts.filter((one) => one.shift === filter.shift && inDays(filter, one));
    if (found.length === 0)
      throw new NothingMeant(
        `The record has no shift ${filter.shift}${filter.from === undefined && filter.to === undefined ? '' : ' in these days'}: its shifts are ${
          shifts
            .map((one) => one.shift)
            .slice(-10)
            .join(', ') || 'none yet'
        }.`,
      );
    return found;
  }
  const { lot, batch, from, to } = filter;
  const looks = lot !== undefined || batch !== undefined;
  const found = looks
    ? (
        await store.find({
          ...(lot === undefined ? {} : { lot }),
          ...(batch === undefined ? {} : { batch }),
          ...(from === undefined ? {} : { fromDay: from }),
          ...(to === undefined ? {} : { toDay: to }),
        })
      )
        .map((one) => one.shift)
        .reverse()
    : shifts.filter((one) => inDays(filter, one));
  if (found.length === 0)
    throw new NothingMeant(
      looks
        ? `The record has no ${lot === undefined ? `batch ${batch}` : `lot ${lot}`}${from === undefined && to === undefined ? '' : ' in these days'}: look it up on the Lots or Records page.`
        : 'The record has no shift in these days: choose others.',
    );
  if (isOfOneLot(kind) && lot !== undefined && found.length > 1) {
    // The lab and the yard name a lot long after it was made: the shift that opened it is meant.
    const naming = (await shiftsNaming(store, lot)).filter((one) => opensLot(one, lot));
    const own = found.filter((shift) => naming.some((one) => one.found.shift.shift === shift.shift));
    if (own.length === 1) return own;
    throw new NothingMeant(
      `Lot ${lot} stands in ${found.length} shifts (${found.map((one) => one.shift).join(', ')}): say in which with the shift filter.`,
    );
  }
  if (isOfOneShift(kind)) return found.slice(-1);
  // Without days or shift the newest shift is meant, not ten years of them.
  if (from === undefined && to === undefined && !looks) return found.slice(-1);
  if (found.length > SHIFTS_AT_MOST)
    throw new NothingMeant(
      `These days hold ${found.length} shifts, and a report takes ${SHIFTS_AT_MOST}: choose fewer days.`,
    );
  return found;
};

/** Entries are asked for in pages, so that a long shift is never held twice. */
const PAGE = 2000;
/** Entries read between two breaths. */
const PIECE = 500;

/** All kinds but readings. */
const KINDS = [
  'opening',
  'command',
  'fact',
  'note',
  'seal',
  'countersignature',
  'keyRotated',
  'ledger',
] as const;

/** Opening, commands, facts and notes of a shift in order; its readings are left where they are. */
export const decisionsOf = async (store: Store, { shift, last }: ShiftSummary): Promise<Entry[]> => {
  const out: Entry[] = [];
  for (const kind of KINDS) {
    let after = shift - 1;
    for (;;) {
      const page = await store.read({ after, limit: kind === 'opening' ? 1 : PAGE, kind });
      out.push(...page.filter((entry) => entry.seq <= last));
      await breathe();
      const newest = page.at(-1)?.seq ?? last;
      if (kind === 'opening' || page.length < PAGE || newest >= last) break;
      after = newest;
    }
  }
  return out.sort((a, b) => a.seq - b.seq);
};

const wholeOf = async (store: Store, { shift, last }: ShiftSummary): Promise<Entry[]> => {
  const out: Entry[] = [];
  for await (const row of store.texts(shift, last)) {
    out.push(entryOf(row));
    if (out.length % PIECE === 0) await breathe();
  }
  return out;
};

/** Opening, seal and what stands behind it stay in the record; the rest lies in the file. */
const archivedOf = async (store: Store, summary: ShiftSummary, file: string): Promise<Entry[]> => {
  try {
    const here = await wholeOf(store, summary);
    const there = (await archivedTexts(file)).map(entryOf);
    return [...here, ...there].sort((a, b) => a.seq - b.seq);
  } catch (error) {
    throw new PlainError(
      `Shift ${summary.shift} was moved to ${file}, which cannot be read (${messageOf(error)}): bring the file back, or restore the shift.`,
    );
  }
};

const sealPrintOf = (seal: SealEntry, signed: readonly CountersignatureEntry[]): SealPrint => ({
  root: seal.body.root,
  key: seal.body.key,
  signature: seal.body.signature,
  first: seal.body.first,
  last: seal.body.last,
  count: seal.body.count,
  seq: seal.seq,
  wall: seal.wall,
  countersigned: signed
    .filter((one) => one.body.seal === seal.seq)
    .map(({ body, wall }) => ({ by: body.by.person, remark: body.remark, key: body.key, wall })),
});

const personNamed = (scenario: Scenario | null, seal: SealPrint): SealPrint => ({
  ...seal,
  countersigned: seal.countersigned.map((one) => ({
    ...one,
    by: scenario?.people.find((person) => person.id === one.by)?.name ?? one.by,
  })),
});

/** The lab's work on a lot of this shift, in it and after it. */
const labOf = async (store: Store, lot: string, source: ShiftSource): Promise<LabWork | null> => {
  const naming: readonly NamingShift[] = await shiftsNaming(store, lot);
  const after = naming.filter((one) => one.found.shift.shift >= source.shift);
  const people = source.scenario?.people ?? [];
  const nameOf = (id: string): string => people.find((person) => person.id === id)?.name ?? id;
  return labWorkFor(store, lot, after, nameOf);
};

/** Everything `makeReport` needs. Throws PlainError, in words, when the filter means nothing in this record. */
export const reportSource = async (
  store: Store,
  kind: ReportKind,
  filter: ReportFilter,
): Promise<ReportSource> => {
  const meant = await shiftsMeant(store, kind, filter);
  const seals = new Map((await sealsOf(store)).map((entry) => [entry.body.shift, entry]));
  const signed = await countersignaturesOf(store);
  const shifts: ShiftSource[] = [];
  for (const summary of meant) {
    const entries =
      summary.archivedIn !== null
        ? await archivedOf(store, summary, summary.archivedIn)
        : await (drawsTraces(kind) ? wholeOf : decisionsOf)(store, summary);
    const opening = entries.find((entry) => entry.kind === 'opening');
    const digest = opening?.kind === 'opening' ? opening.body.scenarioDigest : '';
    const scenario = (await store.loadScenario(digest)) as Scenario | null;
    const seal = seals.get(summary.shift);
    shifts.push({
      shift: summary.shift,
      scenario,
      entries,
      seal: seal === undefined ? null : personNamed(scenario, sealPrintOf(seal, signed)),
    });
  }
  const plantKey = keyInfoOf(store.where)?.fingerprint ?? null;
  const last = shifts.at(-1);
  if (!isOfOneLot(kind) || filter.lot === undefined || last === undefined) return { shifts, plantKey };
  const lab = await labOf(store, filter.lot, last);
  return { shifts: [...shifts.slice(0, -1), { ...last, lab }], plantKey };
};

/** Only the filters a report knows; what a form sends besides is dropped. */
export const knownFilters = (kind: ReportKind, filter: ReportFilter): ReportFilter =>
  Object.fromEntries(
    Object.entries(filter).filter(
      ([key, value]) => value !== undefined && (FILTERS[kind] as readonly string[]).includes(key),
    ),
  );
