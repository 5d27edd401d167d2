/** What the patches book takes from the line and the stock: mix made for orders, mix laid in holes, the rate of use. */
import type { Fact } from '../../line/facts.ts';
import type { HeardAt } from '../../record/book.types.ts';
import type { Scenario } from '../../scenario/shift.schema.ts';
import { withList, withOrder } from './hear-facts.ts';
import { orderCovers, readPatchId } from './naming.ts';
import { stateOf } from './orders.ts';
import type { PatchList } from './patch.types.ts';
import type { DayUse, PatchesState, ShiftOrder } from './state.ts';
import { sumOf } from './take-off.ts';

/** Days of use that are kept; the rate of use looks no further back. */
const USE_DAYS = 60;

const isFilled = ({ state, patches, laidKg }: PatchList): boolean =>
  state === 'open' &&
  patches.length > 0 &&
  patches.every(({ takenOut, row }) => takenOut !== null || (laidKg[row] ?? 0) > 0);

/** A list whose holes are all filled is put away as done when the next shift opens: its sums stay, its holes are in the record. */
const putAway = (state: PatchesState): PatchesState => {
  const filled = Object.values(state.lists).filter(isFilled);
  if (filled.length === 0) return state;
  const away = filled.map((list) => [list.id, { ...list, state: 'done' as const, patches: [], laidKg: {} }]);
  const lists = { ...state.lists, ...Object.fromEntries(away) };
  const orders = Object.values(state.orders).map((order) => [
    order.id,
    { ...order, state: stateOf(order, lists) },
  ]);
  return { ...state, lists, orders: Object.fromEntries(orders) };
};

export const hearOpening = (before: PatchesState, { shift, plant, mixes }: Scenario): PatchesState => {
  const state = putAway(before);
  const days = Object.entries(state.week.days).filter(([date]) => date >= shift.date);
  return {
    ...state,
    plant,
    mixes,
    lots: {},
    week: { ...state.week, days: Object.fromEntries(days) },
    shift: {
      id: shift.id,
      date: shift.date,
      startsAt: shift.startsAt,
      hours: shift.hours,
      ended: false,
      orders: shift.orders.map(({ mix, bay, for: order }): ShiftOrder => ({ mix, bay, for: order ?? null })),
      order: 0,
    },
  };
};

/** The production order mix of a lot is made for: that of the shift's order worked on, when the mix is the same. */
const orderOfLot = (state: PatchesState, mix: string): string | null => {
  const worked = state.shift?.orders[state.shift.order];
  return worked !== undefined && worked.mix === mix ? worked.for : null;
};

export const hearLine = (state: PatchesState, fact: Fact): PatchesState => {
  switch (fact.is) {
    case 'orderChosen':
      return state.shift === null ? state : { ...state, shift: { ...state.shift, order: fact.order - 1 } };
    case 'lotOpened': {
      const lot = { mix: fact.mix, bay: fact.bay, for: orderOfLot(state, fact.mix) };
      return { ...state, lots: { ...state.lots, [fact.lot]: lot } };
    }
    case 'batchDischarged': {
      const lot = state.lots[fact.lot];
      // Two orders for one mix and bay may share a lot: the order worked on when a batch is laid is the one it counts for.
      const order = lot === undefined ? null : (orderOfLot(state, lot.mix) ?? lot.for);
      if (order === null) return state;
      return withOrder(state, order, (before) => ({
        madeGrams: before.madeGrams + fact.grams,
        lots: before.lots.includes(fact.lot) ? before.lots : [...before.lots, fact.lot],
      }));
    }
    case 'shiftEnded':
      return state.shift === null ? state : { ...state, lots: {}, shift: { ...state.shift, ended: true } };
    default:
      return state;
  }
};

const withUse = (use: readonly DayUse[], date: string, mix: string, kg: number): readonly DayUse[] => {
  const found = use.findIndex((day) => day.date === date && day.mix === mix);
  const next =
    found < 0
      ? [...use, { date, mix, kg }]
      : use.map((day, i) => (i === found ? { ...day, kg: day.kg + kg } : day));
  const dates = [...new Set(next.map((day) => day.date))].sort().slice(-USE_DAYS);
  return next.filter((day) => day.date >= (dates[0] ?? ''));
};

/** So many loads are remembered for the mix they carry; older ones have long been laid. */
const LOADS_KEPT = 200;

const withLoad = (loads: PatchesState['loads'], load: string, mix: string): PatchesState['loads'] =>
  [...loads, { load, mix }].slice(-LOADS_KEPT);

/** Mix laid in a hole, or taken back with `grams` below 0. */
const laid = (state: PatchesState, patch: string, grams: number): PatchesState => {
  const id = readPatchId(patch);
  const list = id === null ? undefined : state.lists[id.list];
  if (id === null || list === undefined) return state;
  const kg = grams / 1000;
  const now = withList(state, list.id, (before) => {
    const laidKg = { ...before.laidKg, [id.row]: Math.max(0, (before.laidKg[id.row] ?? 0) + kg) };
    if (before.state !== 'open')
      return { sum: { ...before.sum, laidKg: Math.max(0, before.sum.laidKg + kg) } };
    return { laidKg, sum: sumOf(before.patches, laidKg) };
  });
  const route = list.patches.find(({ row }) => row === id.row)?.route ?? '';
  const order = Object.values(now.orders).find(
    (one) => one.state !== 'withdrawn' && orderCovers(one, list.id, route),
  );
  if (order === undefined) return now;
  return withOrder(now, order.id, (one) => ({ deliveredKg: Math.max(0, one.deliveredKg + kg) }));
};

/** Facts of the stock by the fields they carry; all others are none of this book's business. */
export const hearStock = (
  state: PatchesState,
  fact: { readonly is: string },
  { at }: HeardAt,
): PatchesState => {
  const { load, mix, patch, grams } = fact as Partial<Record<'load' | 'mix' | 'patch' | 'grams', unknown>>;
  if (fact.is === 'loadMadeOut' && typeof load === 'string' && typeof mix === 'string')
    return { ...state, loads: withLoad(state.loads, load, mix) };
  if (fact.is !== 'patchLaid' && fact.is !== 'patchLaidReversed') return state;
  if (typeof patch !== 'string' || typeof grams !== 'number') return state;
  const more = fact.is === 'patchLaid' ? grams : -grams;
  const now = laid(state, patch, more);
  const of = state.loads.find((one) => one.load === load)?.mix;
  return of === undefined ? now : { ...now, use: withUse(now.use, at.slice(0, 10), of, more / 1000) };
};
