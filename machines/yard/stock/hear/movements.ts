/** Movements of mix: layers drawn from and laid, kept so that each can be taken back. */
import type { Who } from '../../../line/facts.ts';
import { apportion } from '../../trace/apportion.ts';
import type { StockFact } from '../facts.ts';
import { joinLots, lessLots } from '../lot-shares.ts';
import { layerNode, sourceNode } from '../nodes.ts';
import { sumOf } from '../parts.ts';
import type { Drawn, Layer, LotShare, Movement } from '../state.types.ts';
import {
  addLayer,
  countLots,
  edge,
  fromLayer,
  newPeriod,
  partsTo,
  putIn,
  setLayers,
  setLoad,
  setStore,
  takeOut,
  type Work,
} from './work.ts';

/** Movements kept between openings; more are cut then (prune.ts), and never beyond this. */
const MOST = 600;

export const noteMovement = (work: Work, movement: Omit<Movement, 'at' | 'reversedBy'>): void => {
  work.s.movements = [...work.s.movements, { ...movement, at: work.heard.at, reversedBy: null }].slice(-MOST);
};

export const drawLayers = (work: Work, drawn: readonly Drawn[]): void => {
  for (const { place, layer, grams, bags } of drawn) fromLayer(work, place, layer, grams, bags);
};

/** Lots laid as layers of their own; mix that came back hangs on nodes named by `returned`. */
export const layLots = (
  work: Work,
  place: string,
  lots: readonly LotShare[],
  origin: Layer['origin'],
  from: string,
  returned: (lot: string) => string | null = () => null,
): void => {
  for (const { lot, grams } of lots)
    addLayer(work, place, {
      lot,
      grams,
      origin,
      from,
      laidFrom: work.heard.at,
      laidTo: work.heard.at,
      laidC: null,
      bags: 0,
      returned: returned(lot),
    });
};

/** More was found of lots than the books had: their layers grow in proportion, each from the adjustment. */
export const growLots = (work: Work, place: string, lots: readonly LotShare[], movement: string): void => {
  const layers = work.s.places[place] ?? [];
  const more = new Map<number, number>();
  for (const { lot, grams } of lots) {
    const its = layers.filter((layer) => layer.lot === lot);
    // Scaled up, as more may be found than there was.
    const times = Math.ceil(grams / Math.max(1, sumOf(its)));
    const shares = apportion(
      its.map((layer) => layer.grams * times),
      grams,
    );
    its.forEach((layer, i) => {
      more.set(layer.n, shares[i] ?? 0);
      edge(work, sourceNode(movement), layerNode(layer), shares[i] ?? 0);
    });
  }
  setLayers(
    work,
    place,
    layers.map((layer) => ({ ...layer, grams: layer.grams + (more.get(layer.n) ?? 0) })),
  );
};

const isPlace = (name: string): boolean => name === 'bags' || name.startsWith('bay:');
const isStore = (name: string): boolean => /^(tank|bin|pile|additive):/.test(name);

/** What was said to have come back from a load had not: it is aboard again. */
const backAboard = (
  work: Work,
  id: string,
  from: string,
  drawn: readonly Drawn[],
  lots: readonly LotShare[],
): void => {
  const load = work.s.loads[id];
  if (load === undefined) return;
  const node = { kind: 'load' as const, id };
  const wasted = from === 'waste';
  if (wasted) edge(work, { kind: 'waste', id }, node, sumOf(lots));
  for (const one of drawn) edge(work, layerNode(one), node, one.grams);
  countLots(work, lots, 'returnedGrams', -1);
  setLoad(work, id, {
    state: 'on the road',
    aboard: joinLots(load.aboard, lots),
    ...(wasted ? { wasted: lessLots(load.wasted, lots) } : { returned: lessLots(load.returned, lots) }),
  });
};

/**
 * The same grams the other way. `drawn` is what is taken out of places now, as the answer chose it; what comes from
 * waste or an adjustment comes back to its lot.
 */
export const hearReversed = (
  work: Work,
  fact: Extract<StockFact, { is: 'movementReversed' }>,
  by: Who,
): void => {
  const { movement, from, to, drawn, lots, grams } = fact;
  const bags = work.s.movements.find((one) => one.id === fact.reverses)?.bags ?? 0;
  work.s.movements = work.s.movements.map((one) =>
    one.id === fact.reverses ? { ...one, reversedBy: movement } : one,
  );
  noteMovement(work, {
    id: movement,
    by,
    what: `reversed ${fact.reverses}`,
    from,
    to,
    lots,
    grams,
    reason: fact.reason,
  });
  if (isStore(from)) {
    const taken = takeOut(work, from as never, grams, true);
    partsTo(work, taken, sourceNode(movement), work.s.stores[from]?.material ?? '');
    setStore(work, from as never, {
      period: newPeriod(work.heard.at, sumOf(work.s.stores[from]?.parts ?? [])),
    });
    return;
  }
  if (isStore(to)) {
    putIn(work, to as never, movement, grams, true);
    setStore(work, to as never, { period: newPeriod(work.heard.at, sumOf(work.s.stores[to]?.parts ?? [])) });
    return;
  }
  drawLayers(work, drawn);
  if (from === 'waste') {
    work.s.wasteGrams -= sumOf(lots);
    countLots(work, lots, 'wastedGrams', -1);
  }
  if (from === 'adjustment') countLots(work, lots, 'adjustedGrams');
  if (to === 'adjustment') {
    countLots(work, drawn, 'adjustedGrams', -1);
    for (const one of drawn) edge(work, layerNode(one), sourceNode(movement), one.grams);
    return;
  }
  if (work.s.loads[to] !== undefined) {
    backAboard(work, to, from, drawn, lots);
    return;
  }
  if (!isPlace(to)) return;
  for (const { lot, grams: back } of drawn.length === 0 ? lots : []) {
    const source = from === 'waste' ? ({ kind: 'waste', id: lot } as const) : sourceNode(movement);
    edge(work, source, { kind: 'lot', id: lot }, back);
  }
  // Bags that come back are one filling: which of them holds which lot, nobody knows any more.
  if (drawn.length === 0)
    lots.forEach(({ lot, grams: back }, i) => {
      addLayer(work, to, {
        lot,
        grams: back,
        origin: 'reversed',
        from: movement,
        laidFrom: work.heard.at,
        laidTo: work.heard.at,
        laidC: null,
        bags: to === 'bags' && i === 0 ? bags : 0,
        ...(to === 'bags' ? { filling: movement } : {}),
        returned: null,
      });
    });
  for (const one of drawn)
    addLayer(work, to, {
      lot: one.lot,
      grams: one.grams,
      origin: 'reversed',
      from: movement,
      laidFrom: work.heard.at,
      laidTo: work.heard.at,
      laidC: null,
      bags: 0,
      returned: one.returned,
    });
};
