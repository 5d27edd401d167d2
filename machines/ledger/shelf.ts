/** The five books where the ledger finds them. */
import { labBook } from '../lab/book.ts';
import { LAB_PERMISSIONS, labCommandSchema } from '../lab/commands.ts';
import { viewLab } from '../lab/view.ts';
import type { BookName } from '../record/book.types.ts';
import type { LedgerFact } from '../record/entry.ts';
import { mixesBook } from '../yard/mixes/book.ts';
import { MIXES_PERMISSIONS, mixesCommandSchema } from '../yard/mixes/commands.ts';
import { viewMixes } from '../yard/mixes/view.ts';
import { mixWords } from '../yard/mixes/words.ts';
import { patchesBook } from '../yard/patches/book.ts';
import { PATCHES_PERMISSIONS, patchesCommandSchema } from '../yard/patches/commands.ts';
import { viewPatches } from '../yard/patches/view.ts';
import { patchesWords } from '../yard/patches/words.ts';
import { stockBook } from '../yard/stock/book.ts';
import { STOCK_PERMISSIONS, stockCommandSchema } from '../yard/stock/commands.ts';
import { viewStock } from '../yard/stock/view.ts';
import { stockWords } from '../yard/stock/words.ts';
import { recallsBook } from '../yard/trace/recalls/book.ts';
import { RECALLS_PERMISSIONS, recallsCommandSchema } from '../yard/trace/recalls/commands.ts';
import { viewRecalls } from '../yard/trace/recalls/view.ts';
import { recallsWords } from '../yard/trace/recalls/words.ts';
import type { Shelved } from './books.types.ts';

/** Words of a book's own facts, for a fact as the record holds it. */
const inWords =
  <F>(words: (fact: F) => string) =>
  (fact: LedgerFact): string =>
    words(fact as F);

export const SHELF: { readonly [B in BookName]: Shelved } = {
  lab: { book: labBook, schema: labCommandSchema, may: LAB_PERMISSIONS, view: viewLab },
  patches: {
    book: patchesBook,
    schema: patchesCommandSchema,
    may: PATCHES_PERMISSIONS,
    view: viewPatches,
    words: inWords(patchesWords),
  },
  mixes: {
    book: mixesBook,
    schema: mixesCommandSchema,
    may: MIXES_PERMISSIONS,
    view: viewMixes,
    words: mixWords,
  },
  stock: {
    book: stockBook,
    schema: stockCommandSchema,
    may: STOCK_PERMISSIONS,
    view: viewStock,
    words: inWords(stockWords),
  },
  recalls: {
    book: recallsBook,
    schema: recallsCommandSchema,
    may: RECALLS_PERMISSIONS,
    view: viewRecalls,
    words: inWords(recallsWords),
  },
};
