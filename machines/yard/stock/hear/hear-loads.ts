/** Loads as they leave, are laid in holes and come back. */
import type { Who } from '../../../line/facts.ts';
import type { StockFact } from '../facts.ts';
import { joinLots, lessLots } from '../lot-shares.ts';
import { layerNode } from '../nodes.ts';
import type { Load, LotShare } from '../state.types.ts';
import { drawLayers, layLots, noteMovement } from './movements.ts';
import { countLots, edge, setLoad, used, type Work } from './work.ts';

type Of<N extends StockFact['is']> = Extract<StockFact, { is: N }>;
const LOAD_FACTS = [
  'loadMadeOut',
  'loadCancelled',
  'loadWeighedOut',
  'patchLaid',
  'patchLaidReversed',
  'mixReturned',
] as const;
export type LoadFact = Of<(typeof LOAD_FACTS)[number]>;

export const isLoadFact = (fact: StockFact): fact is LoadFact =>
  (LOAD_FACTS as readonly string[]).includes(fact.is);

const withAboard = (work: Work, load: Load, aboard: readonly LotShare[], change: Partial<Load>): void =>
  setLoad(work, load.id, { ...change, aboard, state: aboard.length === 0 ? 'settled' : 'on the road' });

const hearReturned = (work: Work, load: Load, fact: Of<'mixReturned'>, by: Who): void => {
  const { movement, to, lots, grams, reason } = fact;
  used(work, movement);
  const aboard = lessLots(load.aboard, lots);
  const node = { kind: 'load' as const, id: load.id };
  if (to === 'waste') {
    work.s.wasteGrams += grams;
    countLots(work, lots, 'returnedGrams');
    countLots(work, lots, 'wastedGrams');
    edge(work, node, { kind: 'waste', id: load.id }, grams);
    withAboard(work, load, aboard, { wasted: joinLots(load.wasted, lots) });
    noteMovement(work, {
      id: movement,
      by,
      what: 'wasted from a load',
      from: load.id,
      to,
      lots,
      grams,
      reason,
    });
    return;
  }
  const named = (lot: string): string => `${movement}/${lot}`;
  for (const one of lots) edge(work, node, { kind: 'returned', id: named(one.lot) }, one.grams);
  layLots(work, to, lots, 'returned', load.id, named);
  countLots(work, lots, 'returnedGrams');
  withAboard(work, load, aboard, { returned: joinLots(load.returned, lots) });
  noteMovement(work, { id: movement, by, what: 'returned', from: load.id, to, lots, grams, reason });
};

export const hearLoad = (work: Work, fact: LoadFact, by: Who): void => {
  const { at } = work.heard;
  if (fact.is === 'loadMadeOut') {
    used(work, fact.load);
    const { load: id, mix, mixName, family, as, vehicle, crew, list, route, grams } = fact;
    const load: Load = {
      id,
      state: 'made out',
      mixId: mix,
      mixName,
      family,
      as,
      vehicle,
      crew,
      list,
      route,
      for: fact.for,
      wantedGrams: grams,
      madeOutAt: at,
      by,
      weighed: null,
      drawn: [],
      laid: [],
      returned: [],
      wasted: [],
      aboard: [],
      byConcession: [],
    };
    work.s.loads = { ...work.s.loads, [id]: load };
    return;
  }
  const load = work.s.loads[fact.load];
  if (load === undefined) return;
  const node = { kind: 'load' as const, id: load.id };
  switch (fact.is) {
    case 'loadCancelled':
      setLoad(work, load.id, { state: 'cancelled' });
      return;
    case 'loadWeighedOut': {
      drawLayers(work, fact.drawn);
      for (const one of fact.drawn) edge(work, layerNode(one), node, one.grams);
      countLots(work, fact.lots, 'loadedGrams');
      const { tareGrams, grossGrams, netGrams, bags } = fact;
      setLoad(work, load.id, {
        state: 'on the road',
        weighed: { at, by, tareGrams, grossGrams, netGrams, bags },
        drawn: fact.drawn,
        aboard: joinLots([], fact.lots),
        byConcession: fact.byConcession,
      });
      return;
    }
    case 'patchLaid': {
      const { n, patch, where, grams, lots, layers } = fact;
      edge(work, node, { kind: 'patch', id: patch }, grams);
      withAboard(work, load, lessLots(load.aboard, lots), {
        laid: [...load.laid, { n, patch, where, grams, lots, layers, at, by }],
      });
      return;
    }
    case 'patchLaidReversed':
      edge(work, { kind: 'patch', id: fact.patch }, node, fact.grams);
      withAboard(work, load, joinLots(load.aboard, fact.lots), {
        laid: load.laid.filter((one) => one.n !== fact.n),
      });
      return;
    case 'mixReturned':
      hearReturned(work, load, fact, by);
      return;
  }
};
