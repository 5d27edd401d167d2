/**
 * Runs charts as plain values: a transition is a lookup after the first time.
 *
 * Our charts carry no context, so a snapshot is decided by its state value alone and
 * (snapshot, event type) always gives the same result. XState computes each such pair
 * once (25-50 µs); after that it is read from a table. Results are never mutated.
 */
import { type AnyMachineSnapshot, type AnyStateMachine, initialTransition, transition } from 'xstate';

/** A delayed event asked for (`start`) or withdrawn (`cancel`) by a transition. */
export type TimerOrder =
  | {
      readonly order: 'start';
      readonly id: string;
      readonly eventType: string;
      /** Name of the delay, and the length the chart itself gives it (ms; 0 when it leaves that to the line). */
      readonly delay: string;
      readonly ms: number;
    }
  | { readonly order: 'cancel'; readonly id: string };

export type Moved = { readonly snapshot: AnyMachineSnapshot; readonly timers: readonly TimerOrder[] };

type Table = {
  readonly byValue: Map<string, AnyMachineSnapshot>;
  readonly moves: WeakMap<AnyMachineSnapshot, Map<string, Moved>>;
  readonly listens: WeakMap<AnyMachineSnapshot, readonly string[]>;
};

const tables = new WeakMap<AnyStateMachine, Table>();

const tableOf = (machine: AnyStateMachine): Table => {
  let table = tables.get(machine);
  if (table === undefined) {
    table = { byValue: new Map(), moves: new WeakMap(), listens: new WeakMap() };
    tables.set(machine, table);
  }
  return table;
};

/** One snapshot object per state value, so that tables keyed by identity hit. */
const intern = (machine: AnyStateMachine, snapshot: AnyMachineSnapshot): AnyMachineSnapshot => {
  const table = tableOf(machine);
  const key = JSON.stringify(snapshot.value);
  const known = table.byValue.get(key);
  if (known !== undefined) return known;
  table.byValue.set(key, snapshot);
  return snapshot;
};

/** `xstate.after.<delay>.<state id>` names the delay the chart asked for; its length is the line's to say. */
const delayName = (eventType: string): string => eventType.split('.')[2] ?? '';

const ordersFrom = (actions: readonly { type: string; params?: unknown }[]): TimerOrder[] => {
  const orders: TimerOrder[] = [];
  for (const action of actions) {
    const params = action.params as
      | { id?: string; sendId?: string; delay?: number; event?: { type: string } }
      | undefined;
    if (action.type === 'xstate.raise' && params?.event !== undefined && params.id !== undefined)
      orders.push({
        order: 'start',
        id: params.id,
        eventType: params.event.type,
        delay: delayName(params.event.type),
        ms: params.delay ?? 0,
      });
    else if (action.type === 'xstate.cancel' && params?.sendId !== undefined)
      orders.push({ order: 'cancel', id: params.sendId });
  }
  return orders;
};

/** The chart's first snapshot and the timers it starts with. */
export const begin = (machine: AnyStateMachine): Moved => {
  const [snapshot, actions] = initialTransition(machine);
  return { snapshot: intern(machine, snapshot), timers: ordersFrom(actions) };
};

/** The snapshot of a saved state value. Throws when the value names a state the chart does not have. */
export const restore = (machine: AnyStateMachine, value: unknown): AnyMachineSnapshot =>
  intern(machine, machine.resolveState({ value: value as never, context: {} }) as AnyMachineSnapshot);

/** One event sent to a chart. The same snapshot comes back when nothing listens or a guard forbids. */
export const send = (machine: AnyStateMachine, snapshot: AnyMachineSnapshot, eventType: string): Moved => {
  const table = tableOf(machine);
  let row = table.moves.get(snapshot);
  if (row === undefined) {
    row = new Map();
    table.moves.set(snapshot, row);
  }
  const known = row.get(eventType);
  if (known !== undefined) return known;
  const [next, actions] = transition(machine, snapshot, { type: eventType });
  const moved: Moved =
    next === snapshot && actions.length === 0
      ? { snapshot, timers: [] }
      : { snapshot: intern(machine, next), timers: ordersFrom(actions) };
  row.set(eventType, moved);
  return moved;
};

/** Event types some active state listens to (guards not asked). */
export const listensTo = (machine: AnyStateMachine, snapshot: AnyMachineSnapshot): readonly string[] => {
  const table = tableOf(machine);
  const known = table.listens.get(snapshot);
  if (known !== undefined) return known;
  const types = [...new Set(snapshot._nodes.flatMap((node) => node.ownEvents as string[]))];
  table.listens.set(snapshot, types);
  return types;
};

/** Node ids of the active states, leaves last. */
export const activeNodes = (snapshot: AnyMachineSnapshot): readonly string[] =>
  snapshot._nodes.map((node) => node.id);
