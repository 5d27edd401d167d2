/** What every answer of the stock needs: the state, who asks and when, and short ways to say yes and no. */
import type { Who } from '../../../line/facts.ts';
import type { Told } from '../../../record/book.types.ts';
import type { StockFact } from '../facts.ts';
import type { StockOthers } from '../others.types.ts';
import type { PlaceId, StockState, StoreId } from '../state.types.ts';

export type Asking = {
  readonly s: StockState;
  readonly by: Who;
  readonly at: string;
  readonly others: StockOthers;
};

export type Answer = Told<StockFact>;

export const yes = (...facts: readonly StockFact[]): Answer => ({ ok: true, facts });
export const no = (...because: readonly string[]): Answer => ({ ok: false, because });

/** Grams as tonnes or kilograms, in words. */
export const inWords = (grams: number): string =>
  grams >= 1_000_000 ? `${(grams / 1e6).toFixed(2)} t` : `${(grams / 1000).toFixed(1)} kg`;

export const placeName = (s: StockState, place: PlaceId): string =>
  place === 'bags'
    ? 'the stand of filled bags'
    : (s.yard?.bays.find((bay) => `bay:${bay.id}` === place)?.name ?? place.replace('bay:', 'Bay '));

export const knowsPlace = (s: StockState, place: PlaceId): boolean =>
  place === 'bags' || (s.yard?.bays.some((bay) => `bay:${bay.id}` === place) ?? false);

export const noSuchPlace = (place: PlaceId): string =>
  `There is no ${place.replace('bay:', 'bay ')} in this yard: choose one of its bays.`;

export const storeName = (s: StockState, id: StoreId): string => {
  const material = s.stores[id]?.material ?? id;
  if (id.startsWith('tank:')) return `the ${material} tank`;
  if (id.startsWith('bin:')) return `the bin of ${material}`;
  if (id.startsWith('pile:')) return `the heap of ${material}`;
  return `the shelf of ${material}`;
};

export const NOT_OPENED =
  'No shift has been opened on this record yet, so the yard is not known: open one first.';
