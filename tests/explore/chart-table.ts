/** Every state a chart can reach as a table, worked out once with XState's pure transition; timers are events too. */
import { type AnyMachineSnapshot, type AnyStateMachine, initialTransition, transition } from 'xstate';
import type { ChartValue } from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';

export type ChartTable = {
  readonly values: readonly ChartValue[];
  readonly names: readonly string[];
  readonly events: readonly string[];
  /** next[state * events.length + event]; a state that does not move stays. */
  readonly next: Int16Array;
};

/** Event types some active state listens to, timers (`xstate.after…`) among them. */
export const listensTo = (snapshot: AnyMachineSnapshot): readonly string[] => [
  ...new Set(snapshot._nodes.flatMap((node) => node.ownEvents as string[])),
];

const isTimer = (type: string): boolean => type.startsWith('xstate.after.');

/** Explores one chart. Throws beyond `limit` states, since our charts are meant to be small. */
export const tableOf = (machine: AnyStateMachine, limit = 500): ChartTable => {
  const [first] = initialTransition(machine);
  const snapshots: AnyMachineSnapshot[] = [first];
  const names = [JSON.stringify(first.value)];
  const moves: Map<string, number>[] = [];
  const types = new Set<string>();
  for (let at = 0; at < snapshots.length; at++) {
    const snapshot = snapshots[at] as AnyMachineSnapshot;
    const row = new Map<string, number>();
    for (const type of listensTo(snapshot)) {
      types.add(type);
      const [to] = transition(machine, snapshot, { type });
      const name = JSON.stringify(to.value);
      let index = names.indexOf(name);
      if (index < 0) {
        index = names.length;
        if (index >= limit) throw new Error(`${machine.id} has more than ${limit} states`);
        names.push(name);
        snapshots.push(to);
      }
      row.set(type, index);
    }
    moves.push(row);
  }
  const events = [...types].sort((a, b) => Number(isTimer(a)) - Number(isTimer(b)) || (a < b ? -1 : 1));
  const next = new Int16Array(names.length * events.length);
  moves.forEach((row, state) => {
    events.forEach((type, event) => {
      next[state * events.length + event] = row.get(type) ?? state;
    });
  });
  return { values: snapshots.map((one) => one.value as ChartValue), names, events, next };
};
