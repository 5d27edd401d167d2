/** Everything the record holds about one lot, across line, lab and yard: what the books know of it, and every entry that names it. */

import { type LotsKept, monthOf } from '../../machines/lab/lots.ts';
import { wordsOfFact } from '../../machines/ledger/words.ts';
import { BOOK_NAMES, type BookName } from '../../machines/record/book.types.ts';
import type { Entry } from '../../machines/record/entry.ts';
import type { Store } from '../store/store.ts';

export type LotEntry = {
  readonly seq: number;
  /** The book it stands in; 'line' for what the line told. */
  readonly book: BookName | 'line';
  /** Plant time since its shift began, ms. */
  readonly atMs: number;
  /** By the plant's own clock; null for what the line told. */
  readonly at: string | null;
  readonly by: string;
  readonly fact: { readonly is: string; readonly [field: string]: unknown };
  /** In a sentence; '' for what the line told, which the console has words for. */
  readonly words: string;
};

export type LotFound = {
  readonly lot: string;
  /** What each book has under this lot's name; null when nothing. */
  readonly books: { readonly [B in BookName]: unknown };
  readonly shifts: readonly {
    readonly shift: number;
    readonly day: string;
    readonly archivedIn: string | null;
  }[];
  readonly entries: readonly LotEntry[];
};

const personOf = (value: unknown): string => {
  const by = value as { readonly person?: unknown; readonly role?: unknown } | undefined;
  return typeof by?.person === 'string' && by.role !== 'line' ? by.person : '';
};

const entryOf = (entry: Entry): LotEntry[] => {
  const { seq, atMs } = entry;
  if (entry.kind === 'ledger') {
    const { book, at, by, fact } = entry.body;
    return [{ seq, book, atMs, at, by: by.person, fact, words: wordsOfFact(book, fact) }];
  }
  if (entry.kind !== 'fact') return [];
  const fact = entry.body.fact as LotEntry['fact'];
  return [{ seq, book: 'line', atMs, at: null, by: personOf(fact.by), fact, words: '' }];
};

/** Null when nothing on record names the lot. Entries of archived shifts lie in their files and are not among these. */
export const lotFound = async (store: Store, lot: string): Promise<LotFound | null> => {
  const found = await store.find({ lot });
  if (found.length === 0) return null;
  const { ledger } = await store.books();
  const books = Object.fromEntries(
    BOOK_NAMES.map((name) => {
      const { lots = {}, past = {} } = (ledger[name] ?? {}) as Partial<LotsKept<unknown>>;
      const old = past[monthOf(lot)] ?? {};
      return [name, Object.hasOwn(lots, lot) ? lots[lot] : Object.hasOwn(old, lot) ? old[lot] : null];
    }),
  ) as LotFound['books'];
  const entries: LotEntry[] = [];
  for (const { mentions } of found)
    for (const mention of mentions) entries.push(...(await store.naming(mention)).flatMap(entryOf));
  return {
    lot,
    books,
    shifts: found.map(({ shift: { shift, day, archivedIn } }) => ({ shift, day, archivedIn })),
    entries: entries.sort((a, b) => a.seq - b.seq),
  };
};
