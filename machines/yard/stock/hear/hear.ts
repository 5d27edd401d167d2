/** The stock hears the record: openings, the line's facts and its own, in their order. */
import type { Heard } from '../../../record/book.types.ts';
import type { StockFact } from '../facts.ts';
import type { StockState } from '../state.types.ts';
import { hearLine } from './hear-line.ts';
import { hearOpening } from './hear-opening.ts';
import { hearStockFact } from './hear-stock.ts';
import type { Work } from './work.ts';

/** The state after one thing heard; `edges` are those this thing made. The same state when it was none of its business. */
export const hearStock = (state: StockState, heard: Heard): StockState => {
  if (heard.from !== 'opening' && heard.from !== 'line' && heard.from !== 'stock') return state;
  const work: Work = { s: { ...state }, edges: [], heard };
  if (heard.from === 'opening') hearOpening(work, heard.scenario);
  else if (heard.from === 'line') hearLine(work, heard.fact);
  else hearStockFact(work, heard.fact as StockFact, heard.by);
  const same = (Object.keys(state) as (keyof StockState)[]).every((key) => work.s[key] === state[key]);
  if (same && work.edges.length === 0) return state;
  return { ...work.s, edges: work.edges };
};
