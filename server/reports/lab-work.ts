/** Finds everything the lab did with a lot: from the books while they hold it whole, else heard again from its entries. */
import type { LabFact } from '../../machines/lab/facts.ts';
import { lotIn } from '../../machines/lab/lots.ts';
import type { LabLot, LabState } from '../../machines/lab/state.ts';
import { beginListening, heardEntryOf, listen } from '../../machines/ledger/listen.ts';
import type { Entry } from '../../machines/record/entry.ts';
import { type DecisionFound, labWorkOf, type NameOf } from '../../machines/reports/lab-papers.ts';
import type { LabWork } from '../../machines/reports/lab-work.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { archivedTexts } from '../archive/archive-file.ts';
import { namedBy } from '../store/mentions.ts';
import type { Found, Store } from '../store/store.ts';
import { entryOf } from '../store/tables.ts';

const isNamed = (entry: Entry, lot: string): boolean =>
  namedBy(entry).some(([kind, key]) => kind === 'lot' && key === lot);

/** Entries of one shift that name the lot, in order; of an archived shift from its file. */
const namingIn = async (store: Store, { shift, mentions }: Found, lot: string): Promise<readonly Entry[]> => {
  if (shift.archivedIn !== null)
    return (await archivedTexts(shift.archivedIn)).map(entryOf).filter((entry) => isNamed(entry, lot));
  const mention = mentions.find((one) => one.kind === 'lot' && one.key === lot);
  return mention === undefined ? [] : store.naming(mention);
};

/** A shift that names a lot, and its entries that do. */
export type NamingShift = { readonly found: Found; readonly entries: readonly Entry[] };

/** All shifts that name a lot, the oldest first. The lab may go on with it days after its own. */
export const shiftsNaming = async (store: Store, lot: string): Promise<readonly NamingShift[]> => {
  const out: NamingShift[] = [];
  for (const found of [...(await store.find({ lot }))].reverse())
    out.push({ found, entries: await namingIn(store, found, lot) });
  return out;
};

/** Whether the lot was opened in this shift. */
export const opensLot = ({ entries }: NamingShift, lot: string): boolean =>
  entries.some(
    (entry) => entry.kind === 'fact' && entry.body.fact.is === 'lotOpened' && entry.body.fact.lot === lot,
  );

const scenarioOf = async (store: Store, opening: Entry): Promise<Scenario | null> =>
  opening.kind === 'opening'
    ? ((await store.loadScenario(opening.body.scenarioDigest)) as Scenario | null)
    : null;

/** The lab book as only this lot's entries make it. */
const heardAgain = async (store: Store, shifts: readonly NamingShift[]): Promise<LabState> => {
  let listening = beginListening();
  for (const { found, entries } of shifts) {
    const [opening] = await store.read({ after: found.shift.shift - 1, limit: 1, kind: 'opening' });
    const scenario = opening === undefined ? null : await scenarioOf(store, opening);
    for (const entry of [...(opening === undefined ? [] : [opening]), ...entries]) {
      const heard = heardEntryOf(entry);
      if (heard !== null) listening = listen(listening, heard, () => scenario).listening;
    }
  }
  return listening.ledger.lab as LabState;
};

const DECISIONS: readonly LabFact['is'][] = ['lotAccepted', 'lotRejected', 'concessionGranted'];

/** The entry that decided about the lot as it stands; null while nobody has. */
const decisionIn = (entries: readonly Entry[], lot: LabLot, nameOf: NameOf): DecisionFound | null => {
  if (lot.decidedBy === null) return null;
  const entry = entries.findLast(
    (one) =>
      one.kind === 'ledger' &&
      one.body.book === 'lab' &&
      (DECISIONS as readonly string[]).includes(one.body.fact.is),
  );
  if (entry?.kind !== 'ledger') return null;
  const fact = entry.body.fact as unknown as Extract<
    LabFact,
    { is: 'lotAccepted' | 'lotRejected' | 'concessionGranted' }
  >;
  return {
    what: lot.state,
    by: nameOf(entry.body.by.person),
    role: entry.body.by.role,
    at: entry.body.at.replace('T', ' '),
    reason: fact.is === 'lotAccepted' ? fact.remark : fact.reason,
    askedBy: fact.is === 'concessionGranted' ? nameOf(fact.askedBy) : null,
    seq: entry.seq,
    hash: entry.hash,
  };
};

/** Null for a lot the lab has no book of: records from before there was one. */
export const labWorkFor = async (
  store: Store,
  lot: string,
  shifts: readonly NamingShift[],
  nameOf: NameOf,
): Promise<LabWork | null> => {
  const entries = shifts.flatMap((one) => one.entries);
  const newest = entries.at(-1);
  if (newest === undefined) return null;
  const book = (await store.books()).ledger.lab as LabState;
  let state = book;
  let known = lotIn(book, lot);
  if (known === undefined || known.folded) {
    const again = await heardAgain(store, shifts);
    const whole = lotIn(again, lot);
    if (whole === undefined) return null;
    // What the book came to stands; tests of the stone belong to no lot and are taken from it too.
    const { verdict, missing, failing, results, labels } = known ?? whole;
    known = { ...whole, verdict, missing, failing, results, labels };
    state = { ...again, others: book.others };
  }
  return labWorkOf(state, known, {
    nameOf,
    decision: decisionIn(entries, known, nameOf),
    record: { seq: newest.seq, hash: newest.hash, wall: newest.wall },
  });
};
