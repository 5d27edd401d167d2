/** What the patches book reads of the other books: mixes in force, mix lying in the bays, room and materials. */
import { lotIn } from '../../lab/lots.ts';
import type { Mix } from '../../scenario/mix.schema.ts';
import type { PatchesState } from './state.ts';

type LayerLike = { readonly lot: string; readonly grams: number };
type StockLike = {
  readonly places?: { readonly [place: string]: readonly LayerLike[] };
  readonly lots?: { readonly [lot: string]: { readonly mixId: string } };
  readonly stores?: {
    readonly [store: string]: { readonly parts: readonly { readonly grams: number }[] };
  };
};
type VersionLike = { readonly state: string; readonly content: Mix };
type MixesLike = { readonly mixes?: { readonly [mix: string]: readonly VersionLike[] } };
type LotLike = { readonly state: string } | undefined;
type LabLike = {
  readonly lots?: { readonly [lot: string]: LotLike };
  readonly past?: { readonly [month: string]: { readonly [lot: string]: LotLike } };
};

/** States of the other books; each may be missing, and is then read as empty. */
export type PatchesOthers = {
  readonly lab?: LabLike | undefined;
  readonly mixes?: MixesLike | undefined;
  readonly stock?: StockLike | undefined;
};

/** The version of each mix that may be made: approved in the book of mixes, else as the shift's files have it. */
export const mixesInForce = (state: Pick<PatchesState, 'mixes'>, others: PatchesOthers): readonly Mix[] => {
  const booked = others.mixes?.mixes ?? {};
  const fromFiles = state.mixes.filter((mix) => booked[mix.id] === undefined);
  const approved = Object.keys(booked)
    .sort()
    .flatMap((id) => booked[id]?.find((one) => one.state === 'approved')?.content ?? []);
  return [...approved, ...fromFiles];
};

export type MixInStock = {
  readonly releasedKg: number;
  readonly waitingKg: number;
  readonly barredKg: number;
};
const NONE: MixInStock = { releasedKg: 0, waitingKg: 0, barredKg: 0 };

const RELEASED = ['accepted', 'released by concession'];
const BARRED = ['rejected', 'on hold', 'sent to waste'];

/** Mix lying in bays and bags by mix id: released, waiting for the lab, and barred; kg. */
export const stockByMix = (others: PatchesOthers): Readonly<Record<string, MixInStock>> => {
  const sums: Record<string, { releasedKg: number; waitingKg: number; barredKg: number }> = {};
  for (const layers of Object.values(others.stock?.places ?? {}))
    for (const { lot, grams } of layers) {
      const mix = others.stock?.lots?.[lot]?.mixId;
      if (mix === undefined) continue;
      const state = lotIn({ lots: others.lab?.lots ?? {}, past: others.lab?.past ?? {} }, lot)?.state ?? '';
      const sum = { ...(sums[mix] ?? NONE) };
      if (RELEASED.includes(state)) sum.releasedKg += grams / 1000;
      else if (BARRED.includes(state)) sum.barredKg += grams / 1000;
      else sum.waitingKg += grams / 1000;
      sums[mix] = sum;
    }
  return sums;
};

/** Kilograms lying in each bay, by its number, and of which mixes. */
export const bayContents = (
  others: PatchesOthers,
): Readonly<Record<string, { readonly kg: number; readonly mixes: readonly string[] }>> => {
  const bays: Record<string, { kg: number; mixes: string[] }> = {};
  for (const [place, layers] of Object.entries(others.stock?.places ?? {})) {
    if (!place.startsWith('bay:')) continue;
    const mixes = layers.flatMap(({ lot }) => others.stock?.lots?.[lot]?.mixId ?? []);
    bays[place.slice(4)] = {
      kg: layers.reduce((sum, { grams }) => sum + grams, 0) / 1000,
      mixes: [...new Set(mixes)],
    };
  }
  return bays;
};

/** Kilograms in a store of materials, such as 'tank:emulsion' or 'bin:1'; null when the book does not know it. */
export const storeKg = (others: PatchesOthers, store: string): number | null => {
  const found = others.stock?.stores?.[store];
  return found === undefined ? null : found.parts.reduce((sum, { grams }) => sum + grams, 0) / 1000;
};

const isLive = ({ state }: { readonly state: string }): boolean =>
  state === 'open' || state === 'part made' || state === 'made';

/** Mix orders still have a claim to and have not laid, kg: promised from released stock, and made for them. */
const claims = (
  state: Pick<PatchesState, 'orders'>,
  mix: string,
): { readonly stockKg: number; readonly madeKg: number } => {
  const sum = { stockKg: 0, madeKg: 0 };
  for (const order of Object.values(state.orders)) {
    if (order.mix !== mix || !isLive(order)) continue;
    const stockKg = Math.max(0, order.fromStockKg - order.deliveredKg);
    const bothKg = Math.max(0, order.fromStockKg + order.madeGrams / 1000 - order.deliveredKg);
    sum.stockKg += stockKg;
    sum.madeKg += bothKg - stockKg;
  }
  return sum;
};

export const promisedKg = (state: Pick<PatchesState, 'orders'>, mix: string): number => {
  const { stockKg, madeKg } = claims(state, mix);
  return stockKg + madeKg;
};

/**
 * Released mix nobody has a claim to, kg, rounded down. What was promised from stock is taken off it; what was made for
 * an order lies among the mix that waits first, and among the released only for what is more than that.
 */
export const freeStockKg = (
  state: Pick<PatchesState, 'orders'>,
  others: PatchesOthers,
  mix: string,
): number => {
  const { releasedKg, waitingKg } = stockByMix(others)[mix] ?? NONE;
  const { stockKg, madeKg } = claims(state, mix);
  return Math.max(0, Math.floor(releasedKg - stockKg - Math.max(0, madeKg - waitingKg)));
};
