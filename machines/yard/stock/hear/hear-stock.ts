/** What people did to the stock: each fact of this book as a change of its state. */
import type { Who } from '../../../line/facts.ts';
import type { StockFact } from '../facts.ts';
import { nextId } from '../ids.ts';
import { joinLots } from '../lot-shares.ts';
import { layerNode, sourceNode } from '../nodes.ts';
import { sumOf } from '../parts.ts';
import type { Delivery, Measured, StoreId } from '../state.types.ts';
import { hearLoad, isLoadFact } from './hear-loads.ts';
import { drawLayers, growLots, hearReversed, noteMovement } from './movements.ts';
import {
  addLayer,
  countLots,
  edge,
  newPeriod,
  partsTo,
  putIn,
  setStore,
  takeOut,
  takeSource,
  used,
  type Work,
} from './work.ts';

type Of<N extends StockFact['is']> = Extract<StockFact, { is: N }>;

const hearRegistered = (work: Work, fact: Of<'deliveryRegistered'>, by: Who): void => {
  const { at } = work.heard;
  const straightIn = fact.material === 'aggregate' || fact.material === 'anti-strip';
  // A truck that began to pump between asking and writing may have taken the number: this one then takes the next.
  const taken = work.s.deliveries[fact.delivery] !== undefined;
  const id = taken ? nextId(work.s, 'D', at) : fact.delivery;
  used(work, id);
  const delivery: Delivery = {
    id,
    material: fact.material,
    store: fact.store,
    ticket: fact.ticket,
    supplier: fact.supplier,
    ticketGrams: fact.grams,
    receivedGrams: straightIn ? fact.grams : 0,
    state: straightIn ? 'received' : 'announced',
    at,
    by,
    confirmed: null,
    beganAt: null,
    keepsUntil: fact.keepsUntil,
    note: fact.note,
  };
  work.s.deliveries = { ...work.s.deliveries, [id]: delivery };
  if (straightIn) putIn(work, fact.store, id, fact.grams);
};

/** What a received delivery brought is corrected in its own store, as far as it still lies there. */
const hearCorrected = (work: Work, { delivery: id, now }: Of<'deliveryCorrected'>): void => {
  const delivery = work.s.deliveries[id];
  if (delivery === undefined) return;
  const more = delivery.state === 'received' ? now.grams - delivery.receivedGrams : 0;
  if (more > 0) putIn(work, delivery.store, id, more);
  if (more < 0) takeSource(work, delivery.store, id, -more);
  work.s.deliveries = {
    ...work.s.deliveries,
    [id]: {
      ...delivery,
      ticket: now.ticket,
      keepsUntil: now.keepsUntil,
      ticketGrams: now.grams,
      receivedGrams: delivery.state === 'received' ? delivery.receivedGrams + more : delivery.receivedGrams,
    },
  };
};

const hearMeasured = (
  work: Work,
  id: StoreId,
  measured: Omit<Measured, 'period' | 'at' | 'booked'>,
): void => {
  const store = work.s.stores[id];
  if (store === undefined) return;
  const entry: Measured = { ...measured, at: work.heard.at, period: store.period, booked: false };
  setStore(work, id, { measured: entry });
  work.s.measurements = [...work.s.measurements, { ...entry, store: id }];
};

/** The books of a store are brought to another level, and a new period begins there. */
const hearAdjusted = (work: Work, fact: Of<'storeAdjusted'>, by: Who): void => {
  const store = work.s.stores[fact.store];
  if (store === undefined) return;
  used(work, fact.movement);
  const more = fact.now - sumOf(store.parts);
  if (more > 0) putIn(work, fact.store, fact.movement, more, true);
  if (more < 0) {
    const taken = takeOut(work, fact.store, -more, true);
    partsTo(work, taken, sourceNode(fact.movement), store.material);
  }
  const measured = work.s.stores[fact.store]?.measured ?? null;
  setStore(work, fact.store, {
    period: newPeriod(work.heard.at, fact.now),
    uncoveredGrams: 0,
    ...(measured === null ? {} : { measured: { ...measured, booked: true } }),
  });
  noteMovement(work, {
    id: fact.movement,
    by,
    what: 'adjusted',
    from: more < 0 ? fact.store : 'adjustment',
    to: more < 0 ? 'adjustment' : fact.store,
    lots: [],
    grams: Math.abs(more),
    reason: fact.reason,
  });
};

const hearMoved = (work: Work, fact: Of<'mixMoved'>, by: Who): void => {
  const { movement, from, to, drawn, lots } = fact;
  used(work, movement);
  drawLayers(work, drawn);
  for (const one of drawn) {
    if (to === 'waste') edge(work, layerNode(one), { kind: 'waste', id: one.lot }, one.grams);
    else if (to === 'adjustment') edge(work, layerNode(one), sourceNode(movement), one.grams);
  }
  if (to === 'adjustment') countLots(work, drawn, 'adjustedGrams', -1);
  if (to === 'waste') {
    work.s.wasteGrams += sumOf(drawn);
    countLots(work, drawn, 'wastedGrams');
  }
  if (to !== 'waste' && to !== 'adjustment' && from !== 'adjustment')
    for (const one of drawn)
      addLayer(work, to, {
        lot: one.lot,
        grams: one.grams,
        origin: 'moved',
        from,
        laidFrom: work.heard.at,
        laidTo: work.heard.at,
        laidC: null,
        bags: one.bags,
        returned: one.returned,
      });
  if (from === 'adjustment' && to !== 'adjustment' && to !== 'waste') {
    growLots(work, to, lots, movement);
    countLots(work, lots, 'adjustedGrams');
  }
  const grams = sumOf(lots);
  const bags = drawn.reduce((sum, one) => sum + one.bags, 0);
  noteMovement(work, {
    id: movement,
    by,
    what: fact.what,
    from,
    to,
    lots,
    grams,
    ...(bags > 0 ? { bags } : {}),
    reason: fact.reason,
  });
};

const hearBags = (work: Work, fact: Of<'bagsFilled'>, by: Who): void => {
  used(work, fact.movement);
  drawLayers(work, fact.drawn);
  for (const one of fact.drawn)
    addLayer(work, 'bags', {
      lot: one.lot,
      grams: one.grams,
      origin: 'bagged',
      from: fact.from,
      laidFrom: work.heard.at,
      laidTo: work.heard.at,
      laidC: null,
      bags: one.bags,
      filling: fact.movement,
      returned: one.returned,
    });
  const lots = joinLots([], fact.drawn);
  noteMovement(work, {
    id: fact.movement,
    by,
    what: 'bagged',
    from: fact.from,
    to: 'bags',
    lots,
    grams: fact.grams,
    reason: `${fact.bags} bags of ${fact.nominalKg} kg`,
  });
};

export const hearStockFact = (work: Work, fact: StockFact, by: Who): void => {
  if (isLoadFact(fact)) {
    hearLoad(work, fact, by);
    return;
  }
  switch (fact.is) {
    case 'deliveryRegistered':
      hearRegistered(work, fact, by);
      return;
    case 'deliveryCorrected':
      hearCorrected(work, fact);
      return;
    case 'deliveryCancelled': {
      const delivery = work.s.deliveries[fact.delivery];
      if (delivery === undefined) return;
      if (delivery.state === 'received')
        takeSource(work, delivery.store, delivery.id, delivery.receivedGrams);
      work.s.deliveries = {
        ...work.s.deliveries,
        [fact.delivery]: { ...delivery, state: 'cancelled', receivedGrams: 0, note: fact.reason },
      };
      return;
    }
    case 'tankDipped':
    case 'storeCounted':
      hearMeasured(work, fact.is === 'tankDipped' ? `tank:${fact.tank}` : fact.store, {
        by,
        how: fact.is === 'tankDipped' ? `dip ${fact.dipMm} mm at ${fact.tempC} °C` : fact.how,
        measuredGrams: fact.grams,
        bookGrams: fact.bookGrams,
        differenceGrams: fact.grams - fact.bookGrams,
        limitGrams: fact.limitGrams,
      });
      return;
    case 'storeAdjusted':
      hearAdjusted(work, fact, by);
      return;
    case 'ruleSet':
      work.s.rules = { ...work.s.rules, [fact.store]: fact.now };
      return;
    case 'mixMoved':
      hearMoved(work, fact, by);
      return;
    case 'lotReworked': {
      const lot = work.s.lots[fact.lot];
      if (lot !== undefined)
        work.s.lots = { ...work.s.lots, [fact.lot]: { ...lot, reworked: lot.reworked + 1 } };
      return;
    }
    case 'bagsFilled':
      hearBags(work, fact, by);
      return;
    case 'movementReversed':
      used(work, fact.movement);
      hearReversed(work, fact, by);
      return;
    default: {
      const unknown: never = fact;
      throw new Error(`the stock does not know the fact ${(unknown as { is: string }).is}`);
    }
  }
};
