/** What is drawn when mix is taken: the oldest released lot first, layer by layer as they were laid. */
import { apportion } from '../trace/apportion.ts';
import { sumOf } from './parts.ts';
import type { Drawn, Layer, PlaceId, StockState } from './state.types.ts';

export type Candidate = { readonly place: PlaceId; readonly layer: Layer };

/** Layers of a place or of all bays, oldest lot first; within a lot the layer laid first. */
export const candidates = (
  s: StockState,
  places: readonly PlaceId[],
  wanted: (layer: Layer) => boolean,
): readonly Candidate[] => {
  const found = places.flatMap((place) =>
    (s.places[place] ?? []).filter(wanted).map((layer) => ({ place, layer })),
  );
  const age = ({ layer }: Candidate): string => s.lots[layer.lot]?.openedAt ?? layer.laidFrom;
  const order = (a: Candidate, b: Candidate): number => {
    const [x, y] = [age(a), age(b)];
    if (x !== y) return x < y ? -1 : 1;
    if (a.layer.lot !== b.layer.lot) return a.layer.lot < b.layer.lot ? -1 : 1;
    return a.layer.n - b.layer.n;
  };
  return [...found].sort(order);
};

export const bayIds = (s: StockState): readonly PlaceId[] =>
  (s.yard?.bays ?? []).map((bay) => `bay:${bay.id}` as const);

const drawnOf = ({ place, layer }: Candidate, grams: number, bags: number): Drawn => ({
  place,
  layer: layer.n,
  lot: layer.lot,
  grams,
  bags,
  returned: layer.returned,
});

/** Bags that so many grams of a layer come in; the last gram takes the last bag. */
const bagsIn = ({ bags, grams }: Layer, out: number): number =>
  out === grams ? bags : Math.min(Math.max(0, bags - 1), Math.round((bags * out) / grams));

/** So many grams from candidates in their order; less when there is less. */
export const drawGrams = (from: readonly Candidate[], grams: number): readonly Drawn[] => {
  let want = grams;
  const drawn: Drawn[] = [];
  for (const one of from) {
    const out = Math.min(want, one.layer.grams);
    if (out <= 0) continue;
    drawn.push(drawnOf(one, out, bagsIn(one.layer, out)));
    want -= out;
  }
  return drawn;
};

/** Layers of each filling together, in the order first met. */
const byFilling = (from: readonly Candidate[]): readonly (readonly Candidate[])[] => {
  const fillings = new Map<string, Candidate[]>();
  for (const one of from) {
    const key = one.layer.filling ?? `layer ${one.layer.n}`;
    fillings.set(key, [...(fillings.get(key) ?? []), one]);
  }
  return [...fillings.values()];
};

/** So many bags of one filling: each weighs what all its bags weigh on average, whatever layers they hold. */
const bagsOfFilling = (filling: readonly Candidate[], bags: number): readonly Drawn[] => {
  const layers = filling.map(({ layer }) => layer);
  const there = layers.reduce((sum, layer) => sum + layer.bags, 0);
  const grams = bags === there ? sumOf(layers) : Math.round((sumOf(layers) * bags) / there);
  let want = bags;
  return drawGrams(filling, grams).map((one) => {
    const its = Math.min(want, layers.find((layer) => layer.n === one.layer)?.bags ?? 0);
    want -= its;
    return { ...one, bags: its };
  });
};

/** So many filled bags from candidates in their order, filling by filling. */
export const drawBags = (from: readonly Candidate[], bags: number): readonly Drawn[] => {
  let want = bags;
  const drawn: Drawn[] = [];
  for (const filling of byFilling(from)) {
    const there = filling.reduce((sum, { layer }) => sum + layer.bags, 0);
    const out = Math.min(want, there);
    if (out <= 0) continue;
    drawn.push(...bagsOfFilling(filling, out));
    want -= out;
  }
  return drawn;
};

/** Grams taken off all layers of a place in proportion to what each holds: a count says nothing of which lot is short. */
export const drawEvenly = (s: StockState, place: PlaceId, grams: number): readonly Drawn[] => {
  const layers = s.places[place] ?? [];
  const shares = apportion(
    layers.map((layer) => layer.grams),
    Math.min(grams, sumOf(layers)),
  );
  return layers
    .map((layer, i) => drawnOf({ place, layer }, shares[i] ?? 0, bagsIn(layer, shares[i] ?? 0)))
    .filter((one) => one.grams > 0);
};
