/** The stock book: materials, bays and loads as a fold over the record, and what people may do with them. */
import type { Book } from '../../record/book.types.ts';
import { answerStock } from './answer/answer.ts';
import type { StockCommand } from './commands.ts';
import type { StockFact } from './facts.ts';
import { hearStock } from './hear/hear.ts';
import type { StockOthers } from './others.types.ts';
import { EMPTY_STOCK, type StockState } from './state.types.ts';

export const stockBook: Book<StockState, StockCommand, StockFact, StockOthers> = {
  name: 'stock',
  empty: EMPTY_STOCK,
  hear: hearStock,
  answer: answerStock,
};
