/** The lab book: hears lots and samples from the line and its own facts, and answers what the lab asks of it. */
import type { Book } from '../record/book.types.ts';
import { answerLab, type LabOthers } from './answer.ts';
import type { LabCommand } from './commands.ts';
import type { LabFact } from './facts.ts';
import { hearLab } from './hear.ts';
import { EMPTY_LAB, type LabState } from './state.ts';

export const labBook: Book<LabState, LabCommand, LabFact, LabOthers> = {
  name: 'lab',
  empty: EMPTY_LAB,
  hear: hearLab,
  answer: answerLab,
};
