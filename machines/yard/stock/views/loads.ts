/** Loads as a console shows them, and what of each mix may leave. */
import { type Candidate, candidates } from '../draw.ts';
import { labStateOf, mayLeave, type StockOthers } from '../others.types.ts';
import { sumOf } from '../parts.ts';
import type { Load, PlaceId, StockState } from '../state.types.ts';

export type MixReady = {
  readonly mixId: string;
  readonly mixName: string;
  readonly family: 'emulsion' | 'cutback';
  readonly as: 'bulk' | 'bags';
  /** May leave and is not promised to a load already. */
  readonly freeKg: number;
  readonly promisedKg: number;
  readonly bags: number;
  /** In the order they will be drawn. */
  readonly lots: readonly { readonly lot: string; readonly place: PlaceId; readonly kg: number }[];
  readonly held: readonly {
    readonly lot: string;
    readonly place: PlaceId;
    readonly kg: number;
    readonly lab: string;
  }[];
};

/** A load with, while it is made out, the lots the rule would draw for it now. */
export type LoadView = Load & { readonly aboardKg: number; readonly wouldDraw: readonly string[] };

const promised = (s: StockState, mixId: string, as: 'bulk' | 'bags'): number =>
  Object.values(s.loads)
    .filter((load) => load.state === 'made out' && load.mixId === mixId && load.as === as)
    .reduce((sum, load) => sum + load.wantedGrams, 0);

/** Each lot once a place, in the order first met. */
const rowsOf = (found: readonly Candidate[]): { lot: string; place: PlaceId; kg: number }[] => {
  const rows = new Map<string, { lot: string; place: PlaceId; kg: number }>();
  for (const { place, layer } of found) {
    const key = `${layer.lot} ${place}`;
    const kg = (rows.get(key)?.kg ?? 0) + layer.grams / 1000;
    rows.set(key, { lot: layer.lot, place, kg });
  }
  return [...rows.values()];
};

export const viewReady = (s: StockState, others: StockOthers): readonly MixReady[] => {
  const mixes = new Map(Object.values(s.lots).map((lot) => [lot.mixId, lot]));
  for (const mix of s.yard?.mixes ?? [])
    if (!mixes.has(mix.id)) mixes.set(mix.id, { mixName: mix.name, family: mix.family } as never);
  const bays = (s.yard?.bays ?? []).map((bay) => `bay:${bay.id}` as const);
  const out: MixReady[] = [];
  for (const [mixId, { mixName, family }] of mixes)
    for (const as of ['bulk', 'bags'] as const) {
      const from: readonly PlaceId[] = as === 'bags' ? ['bags'] : bays;
      const all = candidates(s, from, (layer) => s.lots[layer.lot]?.mixId === mixId);
      if (all.length === 0) continue;
      const free = all.filter((one) => mayLeave(others, one.layer.lot));
      const promisedGrams = promised(s, mixId, as);
      out.push({
        mixId,
        mixName,
        family,
        as,
        freeKg: Math.max(0, sumOf(free.map((one) => one.layer)) - promisedGrams) / 1000,
        promisedKg: promisedGrams / 1000,
        bags: free.reduce((sum, one) => sum + one.layer.bags, 0),
        lots: rowsOf(free),
        held: rowsOf(all.filter((one) => !mayLeave(others, one.layer.lot))).map((one) => ({
          ...one,
          lab: labStateOf(others, one.lot),
        })),
      });
    }
  return out;
};

const wouldDraw = (s: StockState, others: StockOthers, load: Load): readonly string[] => {
  if (load.state !== 'made out') return [];
  const from: readonly PlaceId[] =
    load.as === 'bags' ? ['bags'] : (s.yard?.bays ?? []).map((bay) => `bay:${bay.id}` as const);
  const found = candidates(
    s,
    from,
    (layer) => s.lots[layer.lot]?.mixId === load.mixId && mayLeave(others, layer.lot),
  );
  let want = load.wantedGrams;
  const lots: string[] = [];
  for (const { layer, place } of found) {
    if (want <= 0) break;
    lots.push(`${layer.lot} in ${place === 'bags' ? 'bags' : place.replace('bay:', 'bay ')}`);
    want -= layer.grams;
  }
  return lots;
};

const FIRST = ['on the road', 'made out', 'settled', 'cancelled'];

/** Loads that are over are shown so many; the book keeps more, the record all. */
const OVER_SHOWN = 40;

export const viewLoads = (s: StockState, others: StockOthers): readonly LoadView[] => {
  const newest = Object.values(s.loads).reverse();
  const isOpen = (load: Load): boolean => load.state === 'made out' || load.state === 'on the road';
  const shown = [...newest.filter(isOpen), ...newest.filter((load) => !isOpen(load)).slice(0, OVER_SHOWN)];
  return shown
    .sort((a, b) => FIRST.indexOf(a.state) - FIRST.indexOf(b.state))
    .map((load) => ({
      ...load,
      aboardKg: sumOf(load.aboard) / 1000,
      wouldDraw: wouldDraw(s, others, load),
    }));
};
