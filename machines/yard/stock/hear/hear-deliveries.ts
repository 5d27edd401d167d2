/** Deliveries into tanks as the line tells them, tied to their papers by the ticket; and bins refilled from their heaps. */
import type { Fact } from '../../../line/facts.ts';
import { DELIVERY_KG_S } from '../../../line/tank-care.ts';
import { nextId } from '../ids.ts';
import { uncoveredSource } from '../nodes.ts';
import { gramsOf, sumOf } from '../parts.ts';
import type { Delivery, StoreId, TankName } from '../state.types.ts';
import { keepsUntilOf, secondsBetween } from '../time.ts';
import { noteUse, putIn, setStore, takeOut, takeSource, used, type Work } from './work.ts';

type Of<N extends Fact['is']> = Extract<Fact, { is: N }>;

const pumpedInto = (work: Work, tank: TankName): Delivery | undefined =>
  Object.values(work.s.deliveries).find(
    (one) => one.store === `tank:${tank}` && one.state === 'being pumped',
  );

const setDelivery = (work: Work, delivery: Delivery): void => {
  work.s.deliveries = { ...work.s.deliveries, [delivery.id]: delivery };
};

/**
 * A delivery counts as in the tank from its beginning, so that a batch made meanwhile is traced to it too; what was
 * not pumped in the end is taken off again.
 */
export const hearBegun = (work: Work, { tank, product, kg, ticket, by }: Of<'deliveryBegun'>): void => {
  const { at } = work.heard;
  const store: StoreId = `tank:${tank}`;
  const announced = Object.values(work.s.deliveries).find(
    (one) => one.state === 'announced' && one.store === store && one.ticket === ticket,
  );
  const grams = gramsOf(kg);
  const id = announced?.id ?? nextId(work.s, 'D', at);
  used(work, id);
  const rule = work.s.rules[store];
  setDelivery(work, {
    id,
    material: product,
    store,
    ticket,
    supplier: announced?.supplier ?? '',
    ticketGrams: announced?.ticketGrams ?? grams,
    receivedGrams: grams,
    state: 'being pumped',
    at: announced?.at ?? at,
    by: announced?.by ?? by,
    confirmed: null,
    beganAt: at,
    keepsUntil: announced?.keepsUntil ?? keepsUntilOf(at, rule?.keepsDays ?? null),
    note: announced?.note ?? '',
  });
  putIn(work, store, id, grams);
};

export const hearDelivered = (work: Work, tank: TankName): void => {
  const delivery = pumpedInto(work, tank);
  if (delivery === undefined) return;
  const seconds = secondsBetween(delivery.beganAt ?? work.heard.at, work.heard.at);
  const pumped = Math.min(delivery.receivedGrams, gramsOf(seconds * DELIVERY_KG_S));
  const off = takeSource(work, delivery.store, delivery.id, delivery.receivedGrams - pumped);
  setDelivery(work, { ...delivery, state: 'received', receivedGrams: delivery.receivedGrams - off });
};

export const hearRefill = (work: Work, bin: number): void => {
  const shape = work.s.yard?.bins.find((one) => one.bin === bin);
  const store = work.s.stores[`bin:${bin}`];
  if (shape === undefined || store === undefined) return;
  const room = gramsOf(shape.capacityKg) - sumOf(store.parts);
  if (room <= 0) return;
  const pile: StoreId = `pile:${bin}`;
  const taken = takeOut(work, pile, room);
  noteUse(work, pile, room);
  for (const { source, grams } of taken) putIn(work, `bin:${bin}`, source, grams);
  const short = room - sumOf(taken);
  if (short <= 0) return;
  putIn(work, `bin:${bin}`, uncoveredSource(shape.name), short);
  setStore(work, pile, { uncoveredGrams: (work.s.stores[pile]?.uncoveredGrams ?? 0) + short });
};

/** Somebody has looked at ticket and sample at the tank and says what it is. */
export const hearConfirmed = (work: Work, { tank, product, by }: Of<'deliveryConfirmed'>): void => {
  const delivery = pumpedInto(work, tank);
  if (delivery !== undefined)
    setDelivery(work, { ...delivery, confirmed: { product, by, at: work.heard.at } });
};
