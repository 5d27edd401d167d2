/** The book of job mixes: versions, who approved them, trials, and the figures mixes are worked out with. */
import type { Book } from '../../record/book.types.ts';
import { answerMixes } from './answer.ts';
import type { MixesCommand } from './commands.ts';
import type { MixFact } from './facts.ts';
import { hearMixes } from './hear.ts';
import { EMPTY_MIXES, type MixesState } from './state.ts';

export const mixesBook: Book<MixesState, MixesCommand, MixFact> = {
  name: 'mixes',
  empty: EMPTY_MIXES,
  hear: hearMixes,
  answer: answerMixes,
};
