/** What the console is shown of the patches book. */
import { forecast, type MixForecast } from './forecast.ts';
import { holesOf } from './naming.ts';
import { freeStockKg, mixesInForce, type PatchesOthers } from './others.ts';
import type { PatchList, ProductionOrder } from './patch.types.ts';
import { ordersWithoutMix, planInput } from './schedule/input.ts';
import { planWeek } from './schedule/plan.ts';
import type { Plan, PlanInput } from './schedule/plan.types.ts';
import type { PatchesState } from './state.ts';

export type MixChoice = {
  readonly id: string;
  readonly name: string;
  readonly version: number;
  readonly family: 'emulsion' | 'cutback';
  readonly batchKg: number;
  readonly lotKg: number;
  /** Released mix no order has a claim to. */
  readonly freeKg: number;
};

export type OrderShown = ProductionOrder & {
  /** What its holes take now: differs from needKg when the list was changed since. */
  readonly needNowKg: number;
  readonly holes: number;
  readonly filled: number;
};

export type PatchesView = {
  readonly at: string;
  /** Newest first. */
  readonly lists: readonly PatchList[];
  readonly orders: readonly OrderShown[];
  readonly basis: PatchesState['basis'];
  readonly mixes: readonly MixChoice[];
  readonly shift: PatchesState['shift'];
  readonly week: PatchesState['week'];
  readonly forecast: readonly MixForecast[];
  /** Null before any shift is opened. */
  readonly plan: Plan | null;
  /** What it is made from: a console lays other sequences on it before anybody decides. */
  readonly planFrom: PlanInput | null;
  readonly withoutMix: readonly string[];
};

/** A console is shown so many finished or taken back lists and orders; the record has them all. */
const OLD_SHOWN = 30;

const shown = <T extends { readonly id: string }>(
  all: Readonly<Record<string, T>>,
  isOld: (one: T) => boolean,
): readonly T[] => {
  let old = 0;
  return Object.values(all)
    .reverse()
    .filter((one) => {
      if (!isOld(one)) return true;
      old += 1;
      return old <= OLD_SHOWN;
    });
};

const orderShown = (state: PatchesState, order: ProductionOrder): OrderShown => {
  const holes = holesOf(state.lists, order);
  const kg = holes.reduce((sum, { patch }) => sum + patch.takeOff.mixKg, 0);
  return {
    ...order,
    needNowKg: holes.length === 0 ? order.needKg : Math.round(kg * 10) / 10,
    holes: holes.length,
    filled: holes.filter(({ list, patch }) => (state.lists[list]?.laidKg[patch.row] ?? 0) > 0).length,
  };
};

export const viewPatches = (state: PatchesState, at: string, others: PatchesOthers = {}): PatchesView => {
  const input = planInput(state, others);
  return {
    at,
    lists: shown(state.lists, ({ state: is }) => is !== 'open'),
    orders: shown(state.orders, ({ state: is }) => is === 'delivered' || is === 'withdrawn').map((order) =>
      orderShown(state, order),
    ),
    basis: state.basis,
    mixes: mixesInForce(state, others).map(({ id, name, version, family, batchKg, lotKg }) => ({
      id,
      name,
      version,
      family,
      batchKg,
      lotKg,
      freeKg: freeStockKg(state, others, id),
    })),
    shift: state.shift,
    week: state.week,
    forecast: forecast(state, others, at.slice(0, 10)),
    plan: input === null ? null : planWeek(input),
    planFrom: input,
    withoutMix: ordersWithoutMix(state, others),
  };
};
