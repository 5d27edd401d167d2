/** Rules of a batch beyond those it was first built to: what its named guards are there for. */
import type { BatchValue } from '../../../machines/charts/batch/batch.guards.ts';
import type { ChartTable } from '../chart-table.ts';
import type { Model } from '../explorer.ts';
import { NEVER_MORE } from '../never-more.ts';

/** Events that may change the step although the batch does not run: it begins, is dumped, or is booked. */
const MAY_MOVE = ['operator.start', 'operator.dump', 'line.booked'];
const MAY_BE_DUMPED = ['idle', 'held', 'stopped', 'aborted'];

export const withBatchRules = (model: Model, table: ChartTable): Model => {
  const value = (state: number): BatchValue => table.values[state] as unknown as BatchValue;
  return {
    ...model,
    rules: [
      ...model.rules,
      {
        id: 'NR-45',
        says: NEVER_MORE['NR-45'],
        broken: (from, event, to) =>
          value(from).step !== value(to).step &&
          value(from).procedure !== 'running' &&
          !MAY_MOVE.includes(model.events[event] as string),
      },
      {
        id: 'NR-46',
        says: NEVER_MORE['NR-46'],
        ofState: true,
        broken: (_from, _event, to) =>
          ['idle', 'complete'].includes(value(to).procedure) && value(to).step !== 'ready',
      },
      {
        id: 'NR-47',
        says: NEVER_MORE['NR-47'],
        broken: (from, _event, to) =>
          value(from).step !== 'dumping' &&
          value(to).step === 'dumping' &&
          value(from).step !== 'looking' &&
          !MAY_BE_DUMPED.includes(value(from).procedure),
      },
    ],
  };
};
