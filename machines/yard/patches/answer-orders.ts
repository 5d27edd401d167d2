/** Answers about production orders: making one from lists, changing and withdrawing it. */
import { type Answer, no, orderOfHole, yes } from './answer-lists.ts';
import type { PatchesCommand } from './commands.ts';
import { holesOf, isLive, nextOrderId } from './naming.ts';
import { orderSize } from './orders.ts';
import { freeStockKg, mixesInForce, type PatchesOthers } from './others.ts';
import type { ProductionOrder } from './patch.types.ts';
import type { PatchesState } from './state.ts';

type Of<D extends PatchesCommand['do']> = Extract<PatchesCommand, { do: D }>;

const tenths = (kg: number): number => Math.round(kg * 10) / 10;

const listTroubles = (state: PatchesState, lists: readonly string[]): readonly string[] =>
  lists.flatMap((id) => {
    const list = state.lists[id];
    if (list === undefined) return [`There is no patch list ${id}.`];
    return list.state === 'open' ? [] : [`List ${id} is ${list.state}: choose an open list.`];
  });

export const makeOrder = (
  state: PatchesState,
  command: Of<'makeOrder'>,
  at: string,
  others: PatchesOthers,
): Answer => {
  const lists = [...new Set(command.lists)];
  const troubles = listTroubles(state, lists);
  if (troubles.length > 0) return no(...troubles);
  const mixes = mixesInForce(state, others);
  const mix = mixes.find(({ id }) => id === command.mix);
  if (mix === undefined)
    return no(
      `There is no approved mix ${command.mix}: choose one of ${mixes.map(({ id }) => id).join(', ') || 'none; approve a version under Mixes'}.`,
    );
  if (command.neededBy < at.slice(0, 10))
    return no(`${command.neededBy} is past: give a day from ${at.slice(0, 10)} on.`);
  const holes = holesOf(state.lists, { lists, route: command.route });
  if (holes.length === 0)
    return no(
      command.route === null
        ? 'No hole stands in these lists: nothing to make mix for.'
        : `No hole of these lists is on route ${command.route || '(none)'}.`,
    );
  const already = new Set(holes.flatMap(({ list, patch }) => orderOfHole(state, list, patch.route) ?? []));
  if (already.size > 0)
    return no(
      `Some of these holes are ordered already (${[...already].join(', ')}): withdraw that order, or choose another list or route.`,
    );
  const needKg = tenths(holes.reduce((sum, { patch }) => sum + patch.takeOff.mixKg, 0));
  const free = command.useStock ? freeStockKg(state, others, mix.id) : 0;
  const size = orderSize(needKg, free, command.rounding, mix);
  return yes({
    is: 'orderMade',
    order: nextOrderId(state, at),
    lists,
    route: command.route,
    mix: mix.id,
    family: mix.family,
    neededBy: command.neededBy,
    needKg: size.needKg,
    fromStockKg: size.fromStockKg,
    rounding: command.rounding,
    batches: size.batches,
    makeKg: size.makeKg,
  });
};

const liveOrder = (state: PatchesState, id: string): ProductionOrder | string => {
  const order = state.orders[id];
  if (order === undefined) return `There is no order ${id}.`;
  return isLive(order) ? order : `Order ${id} is ${order.state}: it is not changed any more.`;
};

/** Mix of a shift that runs is being made for it: what the line works on is not taken away under it. */
const isWorkedOn = (state: PatchesState, id: string): boolean =>
  state.shift !== null && !state.shift.ended && state.shift.orders.some((order) => order.for === id);

export const changeOrder = (state: PatchesState, command: Of<'changeOrder'>, at: string): Answer => {
  const order = liveOrder(state, command.order);
  if (typeof order === 'string') return no(order);
  if (command.neededBy < at.slice(0, 10))
    return no(`${command.neededBy} is past: give a day from ${at.slice(0, 10)} on.`);
  if (order.batches === 0) return no(`Order ${order.id} is met from stock: withdraw it and make another.`);
  const batchKg = order.makeKg / order.batches;
  const was = { neededBy: order.neededBy, batches: order.batches, makeKg: order.makeKg };
  const now = { neededBy: command.neededBy, batches: command.batches, makeKg: command.batches * batchKg };
  if (was.neededBy === now.neededBy && was.batches === now.batches)
    return no('Nothing is different: change the day or the batches, or leave it.');
  if (now.makeKg * 1000 < order.madeGrams)
    return no(`More has been made already (${(order.madeGrams / 1e6).toFixed(2)} t): give more batches.`);
  return yes({ is: 'orderChanged', order: order.id, was, now, reason: command.reason });
};

export const withdrawOrder = (state: PatchesState, command: Of<'withdrawOrder'>): Answer => {
  const order = liveOrder(state, command.order);
  if (typeof order === 'string') return no(order);
  if (isWorkedOn(state, order.id))
    return no(`The shift that runs makes mix for ${order.id}: end the shift first.`);
  return yes({ is: 'orderWithdrawn', order: order.id, reason: command.reason });
};

export const putBackOrder = (state: PatchesState, command: Of<'putBackOrder'>): Answer => {
  const order = state.orders[command.order];
  if (order === undefined) return no(`There is no order ${command.order}.`);
  if (order.state !== 'withdrawn') return no(`Order ${order.id} stands: it was not withdrawn.`);
  const troubles = listTroubles(state, order.lists);
  if (troubles.length > 0) return no(...troubles);
  const taken = new Set(
    holesOf(state.lists, order).flatMap(({ list, patch }) => orderOfHole(state, list, patch.route) ?? []),
  );
  if (taken.size > 0)
    return no(`Its holes are ordered again (${[...taken].join(', ')}): withdraw that first.`);
  return yes({ is: 'orderPutBack', order: order.id, reason: command.reason });
};

export const deliverOrder = (state: PatchesState, command: Of<'deliverOrder'>): Answer => {
  const order = liveOrder(state, command.order);
  if (typeof order === 'string') return no(order);
  if (isWorkedOn(state, order.id))
    return no(`The shift that runs makes mix for ${order.id}: end the shift first.`);
  return yes({ is: 'orderDelivered', order: order.id, kg: order.deliveredKg });
};
