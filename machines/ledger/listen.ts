/** The record as the books hear it: entry by entry, with the plant's clock and the shift each stands in. */
import type { Fact } from '../line/facts.ts';
import type { Heard } from '../record/book.types.ts';
import type { Entry } from '../record/entry.ts';
import type { Scenario } from '../scenario/shift.schema.ts';
import type { Edge } from '../yard/trace/edges.ts';
import { localAt } from './clock.ts';
import { createLedger, type HearingTrouble, hearLedger, type Ledger } from './ledger.ts';

/** Raised whenever a book would come to another state from the same record; states kept are then made again. */
export const LEDGER_VERSION = 4;

/** Where the books have got to in the record; plain JSON. */
export type Listening = {
  readonly ledger: Ledger;
  /** Newest entry that was put to the books. */
  readonly seq: number;
  /** Opening entry of the shift at hand; 0 before the first. */
  readonly shift: number;
  /** Its date and start by the plant's clock; '' before the first. */
  readonly date: string;
  readonly startsAt: string;
  /** Who leads the line: whoever last took the controls or gave a batch its start; '' before anybody did. */
  readonly leader: string;
};

export const beginListening = (): Listening => ({
  ledger: createLedger(),
  seq: 0,
  shift: 0,
  date: '',
  startsAt: '',
  leader: '',
});

/** Plant's clock of the shift at hand. */
export const clockOf = ({ date, startsAt }: Listening, atMs: number): string =>
  date === '' ? '' : localAt(date, startsAt, atMs);

/** Facts of the line that no book needs: what goes on within a batch, at the controls and in the alarm list. */
const UNHEARD: ReadonlySet<Fact['is']> = new Set<Fact['is']>([
  'commandDone',
  'commandRefused',
  'controlsAskedFor',
  'controlsReleased',
  'stepEntered',
  'procedureEntered',
  'alarmChanged',
  'elementHeld',
  'burnerEntered',
  'heaterEntered',
  'campaignStep',
  'mixExtended',
  'cautionsAcknowledged',
  'tripLatched',
  'tripReset',
  'faultInjected',
  'faultCleared',
]);

/** Names of facts that are put to the books, for looking them up. */
export const isHeardFact = (name: string): boolean => !UNHEARD.has(name as Fact['is']);

/** What is kept of an entry for the books when the entry itself is moved away. */
export type HeardEntry =
  | { readonly seq: number; readonly atMs: number; readonly kind: 'fact'; readonly fact: Fact }
  | {
      readonly seq: number;
      readonly atMs: number;
      readonly kind: 'ledger';
      readonly body: Extract<Entry, { kind: 'ledger' }>['body'];
    }
  | { readonly seq: number; readonly atMs: number; readonly kind: 'opening'; readonly digest: string };

/** Null for an entry no book listens to. */
export const heardEntryOf = (entry: Entry): HeardEntry | null => {
  const { seq, atMs } = entry;
  if (entry.kind === 'fact')
    return UNHEARD.has(entry.body.fact.is) ? null : { seq, atMs, kind: 'fact', fact: entry.body.fact };
  if (entry.kind === 'ledger') return { seq, atMs, kind: 'ledger', body: entry.body };
  if (entry.kind === 'opening') return { seq, atMs, kind: 'opening', digest: entry.body.scenarioDigest };
  return null;
};

export type ScenarioOf = (digest: string) => Scenario | null;

/** The line starts the batches of a run by itself; they are of whoever leads it. */
const leaderBy = (fact: Fact): string | null =>
  (fact.is === 'controlsTaken' || fact.is === 'orderChosen' || fact.is === 'batchStarted') &&
  fact.by.role !== 'line'
    ? fact.by.person
    : null;

type Clocked = { readonly listening: Listening; readonly heard: Heard | null };

/** The entry as the books hear it, and the clock it moves on. */
const clocked = (before: Listening, entry: HeardEntry, scenarioOf: ScenarioOf): Clocked => {
  const { seq, atMs } = entry;
  if (entry.kind === 'opening') {
    const scenario = scenarioOf(entry.digest);
    const { date = '', startsAt = '' } = scenario?.shift ?? {};
    const listening = { ...before, seq, shift: seq, date, startsAt, leader: '' };
    // Without its files nothing but the clock is known of a shift: shiftOpened tells that.
    if (scenario === null) return { listening, heard: null };
    return { listening, heard: { seq, shift: seq, at: clockOf(listening, 0), from: 'opening', scenario } };
  }
  let listening: Listening = { ...before, seq };
  if (entry.kind === 'ledger') {
    const { at, book, by, fact } = entry.body;
    return { listening, heard: { seq, shift: before.shift, at, from: book, by, fact } };
  }
  const { fact } = entry;
  const leader = leaderBy(fact);
  if (leader !== null && leader !== before.leader) listening = { ...listening, leader };
  if (fact.is === 'shiftOpened') listening = { ...listening, date: fact.date, startsAt: fact.startsAt };
  return { listening, heard: { seq, shift: before.shift, at: clockOf(listening, atMs), from: 'line', fact } };
};

/** What one entry came to: where the books stand now, what they heard, and the edges mass moved along. */
export type Listened = {
  readonly listening: Listening;
  readonly heard: Heard | null;
  readonly edges: readonly Edge[];
};

const NO_EDGES: readonly Edge[] = [];

/** Edges the book of stock made of the newest thing it heard. */
const edgesOf = (ledger: Ledger, seq: number): readonly Edge[] => {
  const edges = (ledger.stock as { readonly edges?: readonly Edge[] }).edges;
  return edges === undefined || edges.length === 0 ? NO_EDGES : edges.filter((edge) => edge.seq === seq);
};

export const listen = (
  before: Listening,
  entry: HeardEntry,
  scenarioOf: ScenarioOf,
  onTrouble?: (trouble: HearingTrouble) => void,
): Listened => {
  const { listening, heard } = clocked(before, entry, scenarioOf);
  if (heard === null) return { listening, heard, edges: NO_EDGES };
  const ledger = hearLedger(before.ledger, heard, onTrouble);
  const edges = ledger.stock === before.ledger.stock ? NO_EDGES : edgesOf(ledger, heard.seq);
  return { listening: ledger === before.ledger ? listening : { ...listening, ledger }, heard, edges };
};
