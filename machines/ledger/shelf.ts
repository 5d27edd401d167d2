/** The five books where the ledger finds them; words for their facts stand in words.ts. */
import { labBook } from '../lab/book.ts';
import { LAB_PERMISSIONS, labCommandSchema } from '../lab/commands.ts';
import { viewLab } from '../lab/view.ts';
import type { BookName } from '../record/book.types.ts';
import { mixesBook } from '../yard/mixes/book.ts';
import { MIXES_PERMISSIONS, mixesCommandSchema } from '../yard/mixes/commands.ts';
import { viewMixes } from '../yard/mixes/view.ts';
import { patchesBook } from '../yard/patches/book.ts';
import { PATCHES_PERMISSIONS, patchesCommandSchema } from '../yard/patches/commands.ts';
import { viewPatches } from '../yard/patches/view.ts';
import { stockBook } from '../yard/stock/book.ts';
import { STOCK_PERMISSIONS, stockCommandSchema } from '../yard/stock/commands.ts';
import { viewStock } from '../yard/stock/view.ts';
import { recallsBook } from '../yard/trace/recalls/book.ts';
import { RECALLS_PERMISSIONS, recallsCommandSchema } from '../yard/trace/recalls/commands.ts';
import { viewRecalls } from '../yard/trace/recalls/view.ts';
import type { Shelved } from './books.types.ts';

export const SHELF: { readonly [B in BookName]: Shelved } = {
  lab: { book: labBook, schema: labCommandSchema, may: LAB_PERMISSIONS, view: viewLab },
  patches: {
    book: patchesBook,
    schema: patchesCommandSchema,
    may: PATCHES_PERMISSIONS,
    view: viewPatches,
  },
  mixes: {
    book: mixesBook,
    schema: mixesCommandSchema,
    may: MIXES_PERMISSIONS,
    view: viewMixes,
  },
  stock: {
    book: stockBook,
    schema: stockCommandSchema,
    may: STOCK_PERMISSIONS,
    view: viewStock,
  },
  recalls: {
    book: recallsBook,
    schema: recallsCommandSchema,
    may: RECALLS_PERMISSIONS,
    view: viewRecalls,
  },
};
