/** Drives a chart by events in a test and says where they lead. */
import { type AnyStateMachine, initialTransition, transition } from 'xstate';
import type { ChartValue } from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';

/** State value after these events from the start, or from another value. */
export const drive = (machine: unknown, events: readonly string[], from?: ChartValue): ChartValue => {
  const chart = machine as AnyStateMachine;
  let snapshot =
    from === undefined
      ? initialTransition(chart)[0]
      : chart.resolveState({ value: from, context: {} } as never);
  for (const type of events) [snapshot] = transition(chart, snapshot, { type });
  return snapshot.value as ChartValue;
};
