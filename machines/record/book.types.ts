/** What the ledger's books have in common: each is a fold over the record, and answers commands with facts or reasons. */
import type { Fact, Who } from '../line/facts.ts';
import type { Scenario } from '../scenario/shift.schema.ts';

/** The books of the ledger: lab work, the three parts of the yard, and recalls over all of them. */
export const BOOK_NAMES = ['lab', 'patches', 'mixes', 'stock', 'recalls'] as const;
export type BookName = (typeof BOOK_NAMES)[number];

/** Where in the record something was heard. */
export type HeardAt = {
  readonly seq: number;
  /** seq of the opening entry of the shift it stands in; 0 when it stands before any. */
  readonly shift: number;
  /** The plant's own local clock, YYYY-MM-DDTHH:MM:SS. It stands still between shifts. */
  readonly at: string;
};

/** One thing the books hear, in the order of the record: a shift opens, the line tells a fact, a book tells one. */
export type Heard = HeardAt &
  (
    | { readonly from: 'opening'; readonly scenario: Scenario }
    | { readonly from: 'line'; readonly fact: Fact }
    | { readonly from: BookName; readonly by: Who; readonly fact: { readonly is: string } }
  );

/** A command put to a book, by whom and at which plant time. */
export type Asked<C> = { readonly command: C; readonly by: Who; readonly at: string };

/** What a book answers: the facts that follow, or why not, in words that say what to do. */
export type Told<F> =
  | { readonly ok: true; readonly facts: readonly F[] }
  | { readonly ok: false; readonly because: readonly string[] };

/**
 * A book. `hear` is total and pure: it takes everything in the order of the record and ignores only what is none of its
 * business by name. `answer` is pure and never throws; `others` is what other books offer it.
 */
export type Book<S, C, F, O = unknown> = {
  readonly name: BookName;
  readonly empty: S;
  readonly hear: (state: S, heard: Heard) => S;
  readonly answer: (state: S, asked: Asked<C>, others: O) => Told<F>;
};
