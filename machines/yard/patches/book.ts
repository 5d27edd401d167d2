/** The patches book: patch lists, what they take, orders to make mix for them, and the week's plan. */
import type { Book } from '../../record/book.types.ts';
import { answerPatches } from './answer.ts';
import type { PatchesCommand } from './commands.ts';
import type { PatchesFact } from './facts.ts';
import { hearPatches } from './hear.ts';
import type { PatchesOthers } from './others.ts';
import { EMPTY_PATCHES, type PatchesState } from './state.ts';

export const patchesBook: Book<PatchesState, PatchesCommand, PatchesFact, PatchesOthers> = {
  name: 'patches',
  empty: EMPTY_PATCHES,
  hear: hearPatches,
  answer: answerPatches,
};
