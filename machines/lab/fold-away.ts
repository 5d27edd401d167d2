/** Keeps the lab book small: of old decided lots only the summary stays, the record has the rest. */
import { compareLots, isDecided } from './lots.ts';
import type { LabLot, LabState } from './state.ts';

/** Newest lots kept whole, whatever their state: about two weeks of work. */
export const LOTS_WHOLE = 120;
/** Lots whose summary is kept: about a year. What is older is found in the record. */
export const LOTS_KEPT = 2500;
/** Worksheets on no lot that are kept. */
export const OTHERS_KEPT = 300;

/** A lot without its samples, worksheets and events. */
export const summaryOf = (lot: LabLot): LabLot => ({
  ...lot,
  samples: [],
  worksheets: [],
  events: [],
  retests: [],
  nextSteps: [],
  batches: [],
  batchGrams: [],
  folded: true,
});

/** A portion still kept back is not forgotten. */
const isOver = (lot: LabLot): boolean =>
  isDecided(lot) && lot.samples.every((sample) => sample.discarded || (sample.retainedKg ?? 0) === 0);

/** Asked whenever a lot is opened: folds those that are over, and drops those that are very old. */
export const folded = (state: LabState): LabState => {
  const names = Object.keys(state.lots);
  if (names.length <= LOTS_WHOLE) return state;
  const sorted = names.sort(compareLots);
  const old = sorted.slice(0, sorted.length - LOTS_WHOLE);
  const toFold = old.filter((name) => {
    const lot = state.lots[name];
    return lot !== undefined && !lot.folded && isOver(lot);
  });
  const toDrop = sorted
    .slice(0, Math.max(0, sorted.length - LOTS_KEPT))
    .filter((name) => state.lots[name]?.folded === true);
  if (toFold.length === 0 && toDrop.length === 0) return state;
  const lots: Record<string, LabLot> = { ...state.lots };
  for (const name of toFold) {
    const lot = lots[name];
    if (lot !== undefined) lots[name] = summaryOf(lot);
  }
  for (const name of toDrop) delete lots[name];
  return { ...state, lots };
};
