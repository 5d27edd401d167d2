/** The ledger: five books side by side, each hearing the record in its order and answering what is asked of it. */

import type { Who } from '../line/facts.ts';
import { BOOK_NAMES, type BookName, type Heard, type Told } from '../record/book.types.ts';
import type { LedgerFact } from '../record/entry.ts';
import type { Role } from '../scenario/people.schema.ts';
import { SHELF } from './shelf.ts';

/** The state of every book; plain JSON. */
export type Ledger = { readonly [B in BookName]: unknown };

export const createLedger = (): Ledger => ({
  lab: SHELF.lab.book.empty,
  patches: SHELF.patches.book.empty,
  mixes: SHELF.mixes.book.empty,
  stock: SHELF.stock.book.empty,
  recalls: SHELF.recalls.book.empty,
});

/** What a book said wrong about something it heard (it then stays as it was), or an entry none can read (book null). */
export type HearingTrouble = { readonly book: BookName | null; readonly seq: number; readonly why: string };

const whyOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/**
 * All books hear one thing. A book that throws keeps the state it had and is named to `onTrouble`: what is on record
 * stands, and the others go on.
 */
export const hearLedger = (
  ledger: Ledger,
  heard: Heard,
  onTrouble: (trouble: HearingTrouble) => void = () => undefined,
): Ledger => {
  const next: { [B in BookName]: unknown } = { ...ledger };
  let changed = false;
  for (const name of BOOK_NAMES) {
    try {
      const heardTo: unknown = SHELF[name].book.hear(ledger[name], heard);
      if (heardTo === undefined) throw new Error('it came to no state');
      next[name] = heardTo;
    } catch (error) {
      onTrouble({ book: name, seq: heard.seq, why: whyOf(error) });
    }
    if (next[name] !== ledger[name]) changed = true;
  }
  return changed ? next : ledger;
};

const article = (word: string): string => (/^[aeiou]/i.test(word) ? `An ${word}` : `A ${word}`);

const whyRoleMayNot = (name: BookName, role: string, command: string): string | null => {
  const roles = SHELF[name].may[command];
  if (roles === undefined) return `Nobody may do ${command} in this book.`;
  return roles.includes(role as Role)
    ? null
    : `${article(role)} may not do this; it is for: ${roles.join(', ')}.`;
};

const issueWords = (issues: readonly { readonly path: readonly PropertyKey[]; readonly message: string }[]) =>
  issues
    .slice(0, 5)
    .map(({ path, message }) => (path.length === 0 ? message : `${path.map(String).join('.')}: ${message}`));

export type Put = { readonly command: unknown; readonly by: Who; readonly at: string };

/** The name of a command, for the record; '' when there is none. */
export const commandName = (command: unknown): string => {
  const named = (command as { do?: unknown } | null | undefined)?.do;
  return typeof named === 'string' ? named.slice(0, 60) : '';
};

/**
 * Puts a command to a book: its form, whether that role may, then the book itself. Never throws: a fault inside a book
 * is a refusal in words, and told to `onFault`.
 */
export const answerLedger = (
  ledger: Ledger,
  name: BookName,
  { command, by, at }: Put,
  onFault: (error: unknown) => void = () => undefined,
): Told<LedgerFact> => {
  const { book, schema } = SHELF[name];
  const parsed = schema.safeParse(command);
  if (!parsed.success) return { ok: false, because: issueWords(parsed.error.issues) };
  const no = whyRoleMayNot(name, by.role, parsed.data.do);
  if (no !== null) return { ok: false, because: [no] };
  try {
    return book.answer(ledger[name], { command: parsed.data, by, at }, ledger);
  } catch (error) {
    onFault(error);
    return {
      ok: false,
      because: [
        `The book of ${name} found a fault in itself and did nothing (${whyOf(error)}). The line is not affected; tell whoever keeps the program.`,
      ],
    };
  }
};

/** What the console is shown of a book. */
export const viewOfBook = (ledger: Ledger, name: BookName, at: string): unknown =>
  SHELF[name].view(ledger[name], at, ledger);
