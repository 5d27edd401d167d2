/** A command put to a book, made into the entries that follow from it. */

import type { Who } from '../line/facts.ts';
import type { BookName } from '../record/book.types.ts';
import { canonical } from '../record/canonical.ts';
import type { EntryContent, LedgerFact } from '../record/entry.ts';
import { answerLedger, commandName, type Ledger } from './ledger.ts';

/** A command with the id its sender chose. */
export type LedgerAsk = {
  readonly id: string;
  readonly book: BookName;
  readonly by: Who;
  readonly command: unknown;
};

export type Made =
  | { readonly ok: true; readonly contents: readonly EntryContent[] }
  | { readonly ok: false; readonly because: readonly string[] };

/** Letters one command may write to the record: a list of 5,000 patches has about two million. */
const LETTERS_AT_MOST = 8_000_000;

/** What the record knows a ledger command by, to tell a repeat from another command under the same id. */
export const answerName = (book: BookName, command: string): string => `${book}: ${command}`;

/** Facts as plain JSON, without fields that are not there. Throws when they cannot be written. */
const plainFacts = (facts: readonly LedgerFact[]): readonly LedgerFact[] => {
  const text = JSON.stringify(facts);
  if (text.length > LETTERS_AT_MOST) throw new RangeError(`it would write ${text.length} letters`);
  const plain = JSON.parse(text) as LedgerFact[];
  for (const fact of plain) canonical(fact);
  return plain;
};

/** Never throws. `at`: the plant's clock. */
export const entriesFor = (
  ledger: Ledger,
  { id, book, by, command }: LedgerAsk,
  at: string,
  onFault: (error: unknown) => void = () => undefined,
): Made => {
  const told = answerLedger(ledger, book, { command, by, at }, onFault);
  if (!told.ok) return told;
  try {
    const name = commandName(command);
    const contents = plainFacts(told.facts).map(
      (fact): EntryContent => ({ kind: 'ledger', body: { id, do: name, by, at, book, fact } }),
    );
    return { ok: true, contents };
  } catch (error) {
    onFault(error);
    const why = error instanceof Error ? error.message : String(error);
    return { ok: false, because: [`It cannot be written to the record (${why}): do it in smaller parts.`] };
  }
};
