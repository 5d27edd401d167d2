/** Reads the newest entries of the record from the server and sorts them into what a person looks for. */
import type { Entry } from '../../machines/record/entry.ts';
import { troubleOf } from '../live/trouble.ts';
import { commandSentence, factBy, factSentence, ledgerSentence } from './words.ts';

export type Sort = 'command' | 'refusal' | 'fact' | 'note';

export type RecordLine = {
  readonly seq: number;
  readonly atMs: number;
  readonly wall: string;
  readonly sort: Sort;
  readonly text: string;
  readonly by: string;
  readonly hash: string;
};

/** Null for readings, which are many and say little by themselves. */
export function lineOf(entry: Entry): RecordLine | null {
  const { seq, atMs, wall, hash } = entry;
  const common = { seq, atMs, wall, hash };
  switch (entry.kind) {
    case 'readings':
      return null;
    case 'command': {
      const { envelope } = entry.body;
      return { ...common, sort: 'command', text: commandSentence(envelope.command), by: envelope.by.person };
    }
    case 'fact': {
      const { fact } = entry.body;
      const sort = fact.is === 'commandRefused' ? 'refusal' : 'fact';
      return { ...common, sort, text: factSentence(fact), by: factBy(fact) };
    }
    case 'note':
      return { ...common, sort: 'note', text: `${entry.body.what}: ${entry.body.detail}`, by: '' };
    case 'seal':
      return {
        ...common,
        sort: 'note',
        text: `Shift sealed: ${entry.body.count} entries, root ${entry.body.root.slice(0, 16)}…, key ${entry.body.key.slice(0, 16)}…`,
        by: entry.body.by?.person ?? '',
      };
    case 'countersignature':
      return {
        ...common,
        sort: 'note',
        text: `Seal ${entry.body.seal} countersigned${entry.body.remark === '' ? '' : `: ${entry.body.remark}`}`,
        by: entry.body.by.person,
      };
    case 'keyRotated':
      return {
        ...common,
        sort: 'note',
        text: `Another key seals from here on: ${entry.body.to.slice(0, 16)}… (${entry.body.reason})`,
        by: '',
      };
    case 'ledger': {
      const { book, fact, by } = entry.body;
      return { ...common, sort: 'fact', text: ledgerSentence(book, fact), by: by.person };
    }
    case 'opening':
      return {
        ...common,
        sort: 'note',
        text: `Record opened${entry.body.openedBy === undefined ? '' : ` by ${entry.body.openedBy}`}: ${entry.body.program}, shift ${entry.body.scenario}`,
        by: '',
      };
  }
}

export type Fetched =
  | { readonly ok: true; readonly lines: readonly RecordLine[] }
  | { readonly ok: false; readonly why: string };

/** Readings are left out: they are many and say little by themselves. */
const KINDS = [
  'command',
  'fact',
  'note',
  'opening',
  'seal',
  'countersignature',
  'keyRotated',
  'ledger',
] as const;
const PAGE = 1000;
/** A window of the record never needs more pages than this; it keeps a wrong answer from asking for ever. */
const PAGES_LIMIT = 20;

type Page = { readonly entries: readonly Entry[]; readonly next: number | null };

const isPage = (value: unknown): value is Page =>
  typeof value === 'object' &&
  value !== null &&
  'entries' in value &&
  Array.isArray(value.entries) &&
  'next' in value;

async function fetchKind(kind: string, after: number, upTo: number): Promise<readonly Entry[]> {
  const entries: Entry[] = [];
  let from: number | null = after;
  for (let pages = 0; from !== null && from < upTo && pages < PAGES_LIMIT; pages++) {
    const response: Response = await fetch(`/api/record?kind=${kind}&after=${from}&limit=${PAGE}`);
    if (!response.ok) throw new Error(`The server answered ${response.status} ${response.statusText}`.trim());
    const page: unknown = await response.json();
    if (!isPage(page)) throw new Error('The server answered something this page does not know');
    entries.push(...page.entries);
    from = page.next;
  }
  return entries.filter((entry) => entry.seq <= upTo);
}

/** Lines of the entries after `after` up to `upTo`, newest first. */
export async function fetchRecord(after: number, upTo: number): Promise<Fetched> {
  try {
    const byKind = await Promise.all(KINDS.map((kind) => fetchKind(kind, after, upTo)));
    const lines = byKind.flat().map(lineOf);
    return { ok: true, lines: lines.filter((line) => line !== null).sort((a, b) => b.seq - a.seq) };
  } catch (error) {
    return { ok: false, why: troubleOf(error) };
  }
}
