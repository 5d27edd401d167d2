/** Deliveries, dips, counts and rules: what follows from what is asked, or why not. */
import type { StockCommand } from '../commands.ts';
import { workOutDip } from '../dip.ts';
import type { StockFact } from '../facts.ts';
import { nextId } from '../ids.ts';
import { gramsOf, sumOf } from '../parts.ts';
import type { Delivery, StoreId } from '../state.types.ts';
import { daysBetween, keepsUntilOf } from '../time.ts';
import { type Answer, type Asking, inWords, NOT_OPENED, no, storeName, yes } from './asking.ts';

type Do<N extends StockCommand['do']> = Extract<StockCommand, { do: N }>;

/** Heaps cannot be measured closer than this share of what lies there, %. Common practice, no source. */
const HEAP_PCT = 2;

const storeOfDelivery = ({ material, bin }: Do<'registerDelivery'>): StoreId | null => {
  if (material === 'aggregate') return bin === undefined ? null : `pile:${bin}`;
  return material === 'anti-strip' ? 'additive:anti-strip' : `tank:${material}`;
};

const sameTicket = (s: Asking['s'], store: StoreId, ticket: string): Delivery | undefined =>
  Object.values(s.deliveries).find(
    (one) =>
      one.ticket.toLowerCase() === ticket.toLowerCase() && one.store === store && one.state !== 'cancelled',
  );

export const registerDelivery = (asking: Asking, command: Do<'registerDelivery'>): Answer => {
  const { s, at } = asking;
  if (s.yard === null) return no(NOT_OPENED);
  const store = storeOfDelivery(command);
  if (store === null) return no('Say which heap the aggregate is tipped on: choose its bin.');
  if (s.stores[store] === undefined) return no(`This plant has no bin ${command.bin}: choose one it has.`);
  const because: string[] = [];
  const same = sameTicket(s, store, command.ticket);
  if (same !== undefined)
    because.push(
      `Ticket ${command.ticket} is entered already as ${same.id} (${inWords(same.ticketGrams)}): correct that one if it is wrong.`,
    );
  if (command.keepsUntil !== undefined && command.keepsUntil < at.slice(0, 10))
    because.push(
      `It would have expired on ${command.keepsUntil} already: look at the date on the papers, or send it back.`,
    );
  if (because.length > 0) return no(...because);
  return yes({
    is: 'deliveryRegistered',
    delivery: nextId(s, 'D', at),
    material: command.material,
    store,
    ticket: command.ticket,
    supplier: command.supplier,
    grams: gramsOf(command.kg),
    keepsUntil: command.keepsUntil ?? keepsUntilOf(at, s.rules[store]?.keepsDays ?? null),
    note: command.note,
  });
};

const noDelivery = (id: string): Answer => no(`There is no delivery ${id} in the books.`);

const stillThere = (asking: Asking, { id, store }: Delivery): number =>
  sumOf((asking.s.stores[store]?.parts ?? []).filter((part) => part.source === id));

export const correctDelivery = (asking: Asking, command: Do<'correctDelivery'>): Answer => {
  const delivery = asking.s.deliveries[command.delivery];
  if (delivery === undefined) return noDelivery(command.delivery);
  if (delivery.state === 'cancelled') return no(`${delivery.id} was cancelled: enter it again.`);
  if (delivery.state === 'being pumped')
    return no(`${delivery.id} is being pumped: correct it once the delivery has ended.`);
  const grams =
    command.kg === undefined
      ? delivery.state === 'received'
        ? delivery.receivedGrams
        : delivery.ticketGrams
      : gramsOf(command.kg);
  const less = delivery.state === 'received' ? delivery.receivedGrams - grams : 0;
  const there = stillThere(asking, delivery);
  if (less > there)
    return no(
      `Only ${inWords(there)} of ${delivery.id} still lies in ${storeName(asking.s, delivery.store)}, the rest has been used: it cannot be made ${inWords(less)} less. Dip or count the store and adjust that instead.`,
    );
  const was = {
    grams: delivery.state === 'received' ? delivery.receivedGrams : delivery.ticketGrams,
    ticket: delivery.ticket,
    keepsUntil: delivery.keepsUntil,
  };
  const now = {
    grams,
    ticket: command.ticket ?? delivery.ticket,
    keepsUntil: command.keepsUntil === undefined ? delivery.keepsUntil : command.keepsUntil,
  };
  if (was.grams === now.grams && was.ticket === now.ticket && was.keepsUntil === now.keepsUntil)
    return no('Nothing would change: give what is to be corrected.');
  return yes({ is: 'deliveryCorrected', delivery: delivery.id, was, now, reason: command.reason });
};

export const cancelDelivery = (asking: Asking, { delivery: id, reason }: Do<'cancelDelivery'>): Answer => {
  const delivery = asking.s.deliveries[id];
  if (delivery === undefined) return noDelivery(id);
  if (delivery.state === 'cancelled') return no(`${id} has been cancelled already.`);
  if (delivery.state === 'being pumped')
    return no(`${id} is being pumped: end the delivery at the tank first.`);
  if (delivery.state === 'received') {
    if (delivery.store.startsWith('tank:'))
      return no(`${id} is in the tank and mixed with what was there: it cannot be taken out again.`);
    if (stillThere(asking, delivery) < delivery.receivedGrams)
      return no(`Part of ${id} has been used already: correct its weight instead.`);
  }
  return yes({ is: 'deliveryCancelled', delivery: id, reason });
};

const adjustment = (asking: Asking, store: StoreId, grams: number, reason: string): StockFact => ({
  is: 'storeAdjusted',
  movement: nextId(asking.s, 'A', asking.at),
  store,
  was: sumOf(asking.s.stores[store]?.parts ?? []),
  now: grams,
  reason,
});

/** Loss allowed since the last measurement: a share of what was weighed out, and how closely the store can be read. */
const limitOf = (asking: Asking, store: StoreId, readGrams: number): number => {
  const { period } = asking.s.stores[store] ?? { period: null };
  const pct = asking.s.rules[store]?.lossPct ?? 0;
  return Math.round(((period?.outGrams ?? 0) * pct) / 100 + readGrams);
};

export const dipTank = (asking: Asking, command: Do<'dipTank'>): Answer => {
  const { s } = asking;
  const shape = s.yard?.tanks[command.tank];
  if (shape === undefined) return no(NOT_OPENED);
  if (command.dipMm > shape.diameterM * 1000)
    return no(
      `The tank is ${Math.round(shape.diameterM * 1000)} mm high: a dip of ${command.dipMm} mm cannot be. Dip again.`,
    );
  const store: StoreId = `tank:${command.tank}`;
  const pumping = Object.values(s.deliveries).some(
    (one) => one.store === store && one.state === 'being pumped',
  );
  if (pumping) return no('A delivery is being pumped into this tank: dip it when the delivery has ended.');
  const worked = workOutDip(command.tank, shape, command.dipMm, command.tempC);
  const grams = gramsOf(worked.kg);
  const dipped: StockFact = {
    is: 'tankDipped',
    tank: command.tank,
    dipMm: command.dipMm,
    tempC: command.tempC,
    litres: worked.litres,
    factor: worked.factor,
    litresAt15: worked.litresAt15,
    densityAt15KgM3: shape.densityAt15KgM3,
    grams,
    bookGrams: sumOf(s.stores[store]?.parts ?? []),
    limitGrams: limitOf(asking, store, gramsOf(worked.readKg)),
  };
  return command.adjustReason === undefined
    ? yes(dipped)
    : yes(dipped, adjustment(asking, store, grams, command.adjustReason));
};

export const countStore = (asking: Asking, command: Do<'countStore'>): Answer => {
  const { s } = asking;
  const { store } = command;
  const kept = s.stores[store];
  if (kept === undefined) return no(s.yard === null ? NOT_OPENED : `This yard keeps nothing under ${store}.`);
  if (store.startsWith('tank:')) return no('A tank is dipped, not counted: enter dip and temperature.');
  const grams = gramsOf(command.kg);
  const bin = store.startsWith('bin:') ? s.yard?.bins.find((one) => `bin:${one.bin}` === store) : undefined;
  if (bin !== undefined && command.kg > bin.capacityKg)
    return no(`The bin of ${bin.name} holds ${bin.capacityKg} kg at most: measure it again.`);
  const bookGrams = sumOf(kept.parts);
  const counted: StockFact = {
    is: 'storeCounted',
    store,
    grams,
    bookGrams,
    limitGrams: limitOf(asking, store, Math.round((bookGrams * HEAP_PCT) / 100)),
    how: command.how,
  };
  return command.adjustReason === undefined
    ? yes(counted)
    : yes(counted, adjustment(asking, store, grams, command.adjustReason));
};

export const setRule = (asking: Asking, command: Do<'setRule'>): Answer => {
  const was = asking.s.rules[command.store];
  if (was === undefined) return no(`This yard keeps nothing under ${command.store}.`);
  const { leadDays, reserveDays, orderKg, lossPct, keepsDays } = command;
  const now = { leadDays, reserveDays, orderKg, lossPct, keepsDays };
  return yes({ is: 'ruleSet', store: command.store, was, now, reason: command.reason });
};

/** Binder a delivery names and what was told at the tank: days until it expires, negative when it has. */
export const daysLeft = (delivery: Delivery, at: string): number | null =>
  delivery.keepsUntil === null ? null : Math.ceil(daysBetween(at, `${delivery.keepsUntil}T23:59:59`));
