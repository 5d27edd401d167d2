/** Names of lists and orders by the plant's day, and the patches an order or a route means. */
import type { Patch, PatchList, ProductionOrder } from './patch.types.ts';
import type { PatchesState } from './state.ts';

/** '2026-04-14T06:00:00' → '260414'. */
export const dayOf = (at: string): string => at.slice(2, 10).replaceAll('-', '');

const next = (state: PatchesState, at: string, of: 'lists' | 'orders'): number =>
  state.numbered.day === dayOf(at) ? state.numbered[of] + 1 : 1;

export const nextListId = (state: PatchesState, at: string): string =>
  `PL-${dayOf(at)}-${next(state, at, 'lists')}`;
export const nextOrderId = (state: PatchesState, at: string): string =>
  `PO-${dayOf(at)}-${next(state, at, 'orders')}`;

export const patchId = (list: string, row: number): string => `${list}/${row}`;

export const readPatchId = (id: string): { readonly list: string; readonly row: number } | null => {
  const found = /^(PL-\d{6}-\d+)\/(\d+)$/.exec(id);
  return found === null ? null : { list: found[1] ?? '', row: Number(found[2]) };
};

export const isLive = (order: ProductionOrder): boolean =>
  order.state !== 'delivered' && order.state !== 'withdrawn';

/** Whether that order is for this hole. */
export const orderCovers = (
  order: Pick<ProductionOrder, 'lists' | 'route'>,
  list: string,
  route: string,
): boolean => order.lists.includes(list) && (order.route === null || order.route === route);

/** Holes that stand in the lists of an order, or of its route alone. */
export const holesOf = (
  lists: Readonly<Record<string, PatchList>>,
  order: Pick<ProductionOrder, 'lists' | 'route'>,
): readonly { readonly list: string; readonly patch: Patch }[] =>
  order.lists.flatMap((list) =>
    (lists[list]?.patches ?? [])
      .filter((patch) => patch.takenOut === null && orderCovers(order, list, patch.route))
      .map((patch) => ({ list, patch })),
  );
