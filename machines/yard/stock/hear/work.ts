/** A state being changed while one thing is heard, and the small changes everything else is made of. */
import type { Heard } from '../../../record/book.types.ts';
import type { Edge, NodeRef } from '../../trace/edges.ts';
import { withUsed } from '../ids.ts';
import { sourceNode } from '../nodes.ts';
import { behind, bySource, type Parts, sumOf, takeMixed, takeOldest } from '../parts.ts';
import type { Layer, Load, LotShare, Period, StockState, Store, StoreId } from '../state.types.ts';

export type Work = {
  s: { -readonly [K in keyof StockState]: StockState[K] };
  readonly edges: Edge[];
  readonly heard: Heard;
};

export const edge = (work: Work, from: NodeRef, to: NodeRef, grams: number, material?: string): void => {
  if (grams <= 0) return;
  work.edges.push({ from, to, grams, seq: work.heard.seq, ...(material === undefined ? {} : { material }) });
};

/** Edges of parts that leave for one node. */
export const partsTo = (
  work: Work,
  parts: Parts,
  to: NodeRef | ((from: NodeRef) => NodeRef),
  material: string,
) => {
  for (const { source, grams } of bySource(parts)) {
    const from = sourceNode(source);
    edge(work, from, typeof to === 'function' ? to(from) : to, grams, material);
  }
};

export const dateOf = (work: Work): string => work.heard.at.slice(0, 10);

export const newPeriod = (fromAt: string, openGrams: number): Period => ({
  fromAt,
  openGrams,
  inGrams: 0,
  outGrams: 0,
  adjustedGrams: 0,
});

export const setStore = (work: Work, id: StoreId, change: Partial<Store>): void => {
  const store = work.s.stores[id];
  if (store === undefined) return;
  work.s.stores = { ...work.s.stores, [id]: { ...store, ...change } };
};

const withPeriod = (store: Store, change: Partial<Period>): Period => ({ ...store.period, ...change });

export const putIn = (work: Work, id: StoreId, source: string, grams: number, adjusted = false): void => {
  const store = work.s.stores[id];
  if (store === undefined || grams <= 0) return;
  const { period } = store;
  setStore(work, id, {
    parts: behind(store.parts, [{ source, grams }]),
    period: adjusted
      ? withPeriod(store, { adjustedGrams: period.adjustedGrams + grams })
      : withPeriod(store, { inGrams: period.inGrams + grams }),
  });
};

/** Takes from a store by its own rule: a tank is mixed, everything else is first in, first out. No more than there is. */
export const takeOut = (work: Work, id: StoreId, grams: number, adjusted = false): Parts => {
  const store = work.s.stores[id];
  if (store === undefined) return [];
  const take = id.startsWith('tank:') ? takeMixed : takeOldest;
  const { taken, left } = take(store.parts, grams);
  const out = sumOf(taken);
  const { period } = store;
  setStore(work, id, {
    parts: left,
    period: adjusted
      ? withPeriod(store, { adjustedGrams: period.adjustedGrams - out })
      : withPeriod(store, { outGrams: period.outGrams + out }),
  });
  return taken;
};

/** Takes off what of one source still lies in a store, up to so many grams: its paper was wrong. Grams taken off. */
export const takeSource = (work: Work, id: StoreId, source: string, grams: number): number => {
  const store = work.s.stores[id];
  if (store === undefined || grams <= 0) return 0;
  let left = grams;
  const parts = store.parts.map((part) => {
    if (part.source !== source) return part;
    const out = Math.min(part.grams, left);
    left -= out;
    return { ...part, grams: part.grams - out };
  });
  const off = grams - left;
  setStore(work, id, {
    parts: parts.filter((part) => part.grams > 0),
    period: withPeriod(store, { inGrams: store.period.inGrams - off }),
  });
  return off;
};

/** Days of use kept for the rate of use. */
const USE_DAYS = 28;

export const noteUse = (work: Work, id: StoreId, grams: number): void => {
  const store = work.s.stores[id];
  if (store === undefined || grams <= 0) return;
  const date = dateOf(work);
  const last = store.use.at(-1);
  const use =
    last?.date === date
      ? [...store.use.slice(0, -1), { date, grams: last.grams + grams }]
      : [...store.use, { date, grams }].slice(-USE_DAYS);
  setStore(work, id, { use });
};

export const addLayer = (work: Work, place: string, layer: Omit<Layer, 'n'>): void => {
  if (layer.grams <= 0) return;
  work.s.layers += 1;
  const there = work.s.places[place] ?? [];
  work.s.places = { ...work.s.places, [place]: [...there, { ...layer, n: work.s.layers }] };
};

export const setLayers = (work: Work, place: string, layers: readonly Layer[]): void => {
  work.s.places = { ...work.s.places, [place]: layers.filter((layer) => layer.grams > 0) };
};

/** Grams and bags out of one layer. */
export const fromLayer = (work: Work, place: string, n: number, grams: number, bags = 0): void => {
  const there = work.s.places[place] ?? [];
  setLayers(
    work,
    place,
    there.map((layer) =>
      layer.n === n ? { ...layer, grams: layer.grams - grams, bags: Math.max(0, layer.bags - bags) } : layer,
    ),
  );
};

export const setLoad = (work: Work, id: string, change: Partial<Load>): void => {
  const load = work.s.loads[id];
  if (load === undefined) return;
  work.s.loads = { ...work.s.loads, [id]: { ...load, ...change } };
};

type LotCounter = 'loadedGrams' | 'returnedGrams' | 'wastedGrams' | 'adjustedGrams';

/** Counts grams to each lot's account; lots that are no longer kept are passed over. */
export const countLots = (
  work: Work,
  lots: readonly LotShare[],
  counter: LotCounter,
  sign: 1 | -1 = 1,
): void => {
  for (const { lot, grams } of lots) {
    const known = work.s.lots[lot];
    if (known !== undefined)
      work.s.lots = { ...work.s.lots, [lot]: { ...known, [counter]: known[counter] + sign * grams } };
  }
};

export const used = (work: Work, id: string): void => {
  work.s.counted = withUsed(work.s.counted, id);
};
