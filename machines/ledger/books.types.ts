/** What a book's folder offers the ledger: the book, its commands, who may give them, and what is shown of it. */
import type { z } from 'zod';
import type { Book } from '../record/book.types.ts';
import type { Role } from '../scenario/people.schema.ts';

// biome-ignore lint/suspicious/noExplicitAny: each book has types of its own, which the ledger never looks into
type Any = any;

export type Shelved = {
  readonly book: Book<Any, Any, Any, Any>;
  readonly schema: z.ZodType<{ readonly do: string }>;
  /** Who may give each command, by its name. */
  readonly may: { readonly [command: string]: readonly Role[] };
  /** What a console is shown; plain JSON. `others` are the states of all books. */
  readonly view: (state: Any, at: string, others: Any) => unknown;
};
