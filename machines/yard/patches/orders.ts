/** Sizing of a production order, and the state it is in. */
import { holesOf } from './naming.ts';
import type { OrderState, PatchList, ProductionOrder } from './patch.types.ts';

export type OrderSize = {
  readonly needKg: number;
  readonly fromStockKg: number;
  readonly batches: number;
  /** Whole batches. */
  readonly makeKg: number;
  readonly lots: number;
};

/**
 * Mix to make for a need, kg: what is free in stock is taken first, the rest is rounded up to whole batches, or to
 * whole lots when asked; a lot is as many whole batches as reach its size.
 */
export const orderSize = (
  needKg: number,
  freeKg: number,
  rounding: 'batches' | 'lots',
  { batchKg, lotKg }: { readonly batchKg: number; readonly lotKg: number },
): OrderSize => {
  const fromStockKg = Math.min(Math.max(0, freeKg), needKg);
  const left = needKg - fromStockKg;
  const perLot = Math.max(1, Math.ceil(lotKg / batchKg - 1e-9));
  const least = Math.ceil(left / batchKg - 1e-9);
  const batches = rounding === 'lots' ? Math.ceil(least / perLot) * perLot : least;
  return {
    needKg,
    fromStockKg,
    batches,
    makeKg: batches * batchKg,
    lots: Math.ceil(batches / perLot),
  };
};

/** Batches weigh a little more or less than they should: made counts from 98 % on, as a load against its batches (±2 %). */
export const MADE_SHARE = 0.98;

/** Still to be made, kg. */
export const leftToMakeKg = (order: Pick<ProductionOrder, 'makeKg' | 'madeGrams' | 'state'>): number => {
  if (order.state === 'delivered' || order.state === 'withdrawn') return 0;
  const left = order.makeKg - order.madeGrams / 1000;
  return left <= order.makeKg * (1 - MADE_SHARE) + 1e-9 ? 0 : left;
};

/** The state of an order that stands: delivered once every hole of it has been filled. */
export const stateOf = (order: ProductionOrder, lists: Readonly<Record<string, PatchList>>): OrderState => {
  if (order.state === 'withdrawn') return 'withdrawn';
  if (order.settled || order.lists.every((list) => lists[list]?.state !== 'open')) return 'delivered';
  const holes = holesOf(lists, order);
  if (holes.length > 0 && holes.every(({ list, patch }) => (lists[list]?.laidKg[patch.row] ?? 0) > 0))
    return 'delivered';
  if (leftToMakeKg({ ...order, state: 'open' }) === 0) return 'made';
  return order.madeGrams > 0 ? 'part made' : 'open';
};
