/** How the patches book changes with its own facts. */
import type { HeardAt } from '../../record/book.types.ts';
import type { ListedPatch, PatchesFact } from './facts.ts';
import { dayOf } from './naming.ts';
import { stateOf } from './orders.ts';
import type { Patch, PatchList, ProductionOrder } from './patch.types.ts';
import type { PatchesState } from './state.ts';
import { NO_SUM, sumOf } from './take-off.ts';

export const withList = (
  state: PatchesState,
  id: string,
  change: (list: PatchList) => Partial<PatchList>,
): PatchesState => {
  const list = state.lists[id];
  if (list === undefined) return state;
  const next = { ...list, ...change(list) };
  return { ...state, lists: { ...state.lists, [id]: next } };
};

/** A list with other patches, its sum told anew. */
const withPatches = (
  state: PatchesState,
  id: string,
  change: (patches: readonly Patch[]) => readonly Patch[],
) =>
  withList(state, id, (list) => {
    const patches = change(list.patches);
    return { patches, sum: sumOf(patches, list.laidKg) };
  });

export const withOrder = (
  state: PatchesState,
  id: string,
  change: (order: ProductionOrder) => Partial<ProductionOrder>,
): PatchesState => {
  const order = state.orders[id];
  if (order === undefined) return state;
  const next = { ...order, ...change(order) };
  return { ...state, orders: { ...state.orders, [id]: { ...next, state: stateOf(next, state.lists) } } };
};

const numbered = (state: PatchesState, at: string, of: 'lists' | 'orders'): PatchesState['numbered'] => {
  const day = dayOf(at);
  const before = state.numbered.day === day ? state.numbered : { day, lists: 0, orders: 0 };
  return { ...before, [of]: before[of] + 1 };
};

const standing = (patch: ListedPatch): Patch => ({ ...patch, takenOut: null });

const changeRow = (state: PatchesState, list: string, row: number, change: (patch: Patch) => Patch) =>
  withPatches(state, list, (patches) => patches.map((patch) => (patch.row === row ? change(patch) : patch)));

type Told = HeardAt & { readonly by: { readonly person: string } };

const hearList = (state: PatchesState, fact: PatchesFact, { at, by }: Told): PatchesState | null => {
  switch (fact.is) {
    case 'listTaken': {
      const list: PatchList = {
        id: fact.list,
        name: fact.name,
        state: 'open',
        takenAt: at,
        by: by.person,
        source: fact.source,
        patches: [],
        sum: NO_SUM,
        laidKg: {},
      };
      return {
        ...state,
        lists: { ...state.lists, [fact.list]: list },
        numbered: numbered(state, at, 'lists'),
      };
    }
    case 'patchesListed':
      return withPatches(state, fact.list, (patches) => [...patches, ...fact.patches.map(standing)]);
    case 'patchChanged':
      return changeRow(state, fact.list, fact.now.row, () => standing(fact.now));
    case 'patchTakenOut':
      return changeRow(state, fact.list, fact.was.row, (patch) => ({ ...patch, takenOut: fact.reason }));
    case 'patchPutBack':
      return changeRow(state, fact.list, fact.row, (patch) => ({ ...patch, takenOut: null }));
    case 'listTakenBack':
      return withList(state, fact.list, () => ({ state: 'taken back', patches: [], laidKg: {} }));
    case 'listDone':
      return withList(state, fact.list, () => ({ state: 'done', patches: [], laidKg: {} }));
    default:
      return null;
  }
};

const hearOrder = (state: PatchesState, fact: PatchesFact, { at, by }: Told): PatchesState | null => {
  switch (fact.is) {
    case 'orderMade': {
      const { is: _is, order: id, ...size } = fact;
      const order: ProductionOrder = {
        ...size,
        id,
        madeGrams: 0,
        lots: [],
        deliveredKg: 0,
        settled: false,
        state: 'open',
        at,
        by: by.person,
      };
      const orders = { ...state.orders, [id]: order };
      return withOrder({ ...state, orders, numbered: numbered(state, at, 'orders') }, id, () => ({}));
    }
    case 'orderChanged':
      return withOrder(state, fact.order, () => fact.now);
    case 'orderWithdrawn':
      return withOrder(state, fact.order, () => ({ state: 'withdrawn' }));
    case 'orderPutBack':
      return withOrder(state, fact.order, () => ({ state: 'open' }));
    case 'orderDelivered':
      return withOrder(state, fact.order, () => ({ settled: true }));
    default:
      return null;
  }
};

/** A fact of this book; a name it does not know is an error, never ignored. */
export const hearOwn = (state: PatchesState, fact: PatchesFact, told: Told): PatchesState => {
  const heard = hearList(state, fact, told) ?? hearOrder(state, fact, told);
  if (heard !== null) return heard;
  switch (fact.is) {
    case 'basisChanged':
      return { ...state, basis: fact.now };
    case 'weekArranged':
      return { ...state, week: { ...state.week, arranged: fact.now, why: fact.reason } };
    case 'hoursSet':
      return { ...state, week: { ...state.week, days: { ...state.week.days, [fact.date]: fact.now } } };
    default:
      throw new Error(`the patches book knows no fact ${(fact as { is: string }).is}`);
  }
};
