/** Statechart transitions a second: XState's pure `transition`, and ours, which computes each pair once. */
import { type AnyMachineSnapshot, type AnyStateMachine, initialTransition, transition } from 'xstate';
import { emulsionBatchMachine } from '../../machines/charts/batch/emulsion-batch.machine.ts';
import { flameInterlockMachine } from '../../machines/charts/flame-interlock/flame-interlock.machine.ts';
import { begin, listensTo, send } from '../../machines/line/chart-kit.ts';
import { bestSeconds, type Figure } from './measure.ts';

/** A walk that every run repeats exactly: the next event is picked by a small congruential generator. */
function walk(
  machine: AnyStateMachine,
  steps: number,
  start: AnyMachineSnapshot,
  go: (snapshot: AnyMachineSnapshot, event: string) => AnyMachineSnapshot,
): void {
  let snapshot = start;
  let seed = 1;
  for (let i = 0; i < steps; i++) {
    const events = listensTo(machine, snapshot);
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    const event = events[seed % Math.max(1, events.length)];
    snapshot = event === undefined || snapshot.status !== 'active' ? start : go(snapshot, event);
  }
}

export async function benchTransitions(): Promise<Figure[]> {
  const figures: Figure[] = [];
  for (const [name, machine] of [
    ['batch', emulsionBatchMachine],
    ['flame interlock', flameInterlockMachine],
  ] as const) {
    const chart = machine as unknown as AnyStateMachine;
    const [start] = initialTransition(chart);
    const plain = await bestSeconds(3, () =>
      walk(chart, 20_000, start, (snapshot, event) => transition(chart, snapshot, { type: event })[0]),
    );
    const ours = await bestSeconds(3, () =>
      walk(chart, 500_000, begin(chart).snapshot, (snapshot, event) => send(chart, snapshot, event).snapshot),
    );
    const id = name.replace(' ', '-');
    figures.push(
      {
        id: `transitions.${id}.xstate`,
        what: `${name}, computed by XState`,
        value: 20_000 / plain,
        unit: 'transitions/s',
      },
      {
        id: `transitions.${id}.ours`,
        what: `${name}, as the line runs it (each pair computed once)`,
        value: 500_000 / ours,
        unit: 'transitions/s',
      },
    );
  }
  return figures;
}
