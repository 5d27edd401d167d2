/** The stock book at this console. */
import { STOCK_PERMISSIONS } from '../../../machines/yard/stock/commands.ts';
import { type BookAsked, useBook } from '../../live/use-book.ts';

export type StockHere = BookAsked<'stock'>;

export const useStock = (): StockHere => useBook('stock', STOCK_PERMISSIONS);
