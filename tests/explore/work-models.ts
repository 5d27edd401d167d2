/** Models of the charts that lead the work: both batches, the drying campaign, weigher, lot and seat. */
import {
  type BatchKind,
  type BatchValue,
  batchDemands,
  isInProgress,
} from '../../machines/charts/batch/batch.guards.ts';
import { campaignDemands } from '../../machines/charts/campaign/campaign.guards.ts';
import type { CampaignState } from '../../machines/charts/campaign/campaign.machine.ts';
import { feedOpening } from '../../machines/charts/weigher/weigher.guards.ts';
import type { WeigherState } from '../../machines/charts/weigher/weigher.machine.ts';
import { AT_REST, type Outputs } from '../../machines/field/outputs.ts';
import type { StoryChart } from '../../machines/scenario/story.schema.ts';
import type { ChartTable } from './chart-table.ts';
import type { Model, Rule } from './explorer.ts';
import { withBatchRules } from './mutations/batch-rules.ts';
import { NEVER, type NeverId } from './never-rules.ts';

const plain = (name: string, chart: StoryChart, table: ChartTable, rules: readonly Rule[]): Model => ({
  name,
  size: table.names.length,
  start: 0,
  events: table.events,
  next: (state, event) => table.next[state * table.events.length + event] as number,
  describe: (state) => table.names[state] as string,
  charts: (state) => ({ [chart]: table.values[state] }),
  rules,
});

const ofState = (id: NeverId, broken: (state: number) => boolean): Rule => ({
  id,
  says: NEVER[id],
  ofState: true,
  broken: (_from, _event, to) => broken(to),
});

/** Everything a demand asks for that is not at rest, the turning pug mill left aside. */
const asksToMove = (demands: Partial<Outputs>): boolean =>
  Object.entries(demands).some(
    ([key, value]) => key !== 'pugMill' && key !== 'beltToBay' && value !== AT_REST[key as keyof Outputs],
  );

export type Demands = typeof batchDemands;

/** `demandsOf` is the chart's own, or in a canary a broken one. */
export const batchModel = (kind: BatchKind, table: ChartTable, demandsOf: Demands = batchDemands): Model => {
  const value = (state: number): BatchValue => table.values[state] as unknown as BatchValue;
  const demands = (state: number): Partial<Outputs> => demandsOf(value(state), kind, 1, false, false);
  const model = plain(`${kind} batch`, `${kind}Batch`, table, [
    ofState('NR-20', (state) => value(state).procedure !== 'running' && asksToMove(demands(state))),
    ofState(
      'NR-21',
      (state) =>
        demands(state).bucketValve === true && !['addingBinder', 'dumping'].includes(value(state).step),
    ),
    {
      id: 'NR-22',
      says: NEVER['NR-22'],
      broken: (from, event, to) =>
        value(from).step !== value(to).step &&
        value(to).step === 'discharging' &&
        table.events[event] !== 'operator.confirmLook',
    },
    {
      id: 'NR-23',
      says: NEVER['NR-23'],
      broken: (from, event, to) =>
        isInProgress(value(from)) && !isInProgress(value(to)) && table.events[event] !== 'line.booked',
    },
  ]);
  return withBatchRules(model, table);
};

export const campaignModel = (
  table: ChartTable,
  demandsOf: (state: CampaignState) => Partial<Outputs> = (state) => campaignDemands(state, true, true, true),
): Model => {
  const value = (state: number): CampaignState => table.values[state] as CampaignState;
  return plain('drying campaign', 'campaign', table, [
    {
      id: 'NR-24',
      says: NEVER['NR-24'],
      broken: (from, event, to) => {
        const [was, is, type] = [value(from), value(to), table.events[event]];
        if (was === is) return false;
        if (is === 'readyToLight') return was !== 'cautions' || type !== 'operator.acknowledgeCautions';
        if (is === 'lighting') return was !== 'readyToLight' || type !== 'operator.lightBurner';
        return false;
      },
    },
    ofState('NR-25', (state) => demandsOf(value(state)).hopperTo === 'dryer' && value(state) !== 'charging'),
  ]);
};

export const weigherModel = (
  table: ChartTable,
  heldFeed: (state: WeigherState) => Outputs['holdingGate'] = (state) => feedOpening(state, true),
): Model => {
  const value = (state: number): WeigherState => table.values[state] as WeigherState;
  return plain('weigher', 'weigher', table, [
    ofState('NR-26', (state) => heldFeed(value(state)) !== 'shut' && value(state) !== 'toppingUp'),
    {
      id: 'NR-27',
      says: NEVER['NR-27'],
      broken: (from, event, to) =>
        ['light', 'heavy'].includes(value(from)) &&
        value(to) === 'weighed' &&
        table.events[event] !== 'operator.acceptWeight',
    },
  ]);
};

export const lotModel = (table: ChartTable): Model =>
  plain('lot', 'lot', table, [
    {
      id: 'NR-28',
      says: NEVER['NR-28'],
      broken: (from, event, to) =>
        table.values[from] !== 'open' &&
        table.values[to] === 'open' &&
        table.events[event] !== 'line.lotOpened',
    },
  ]);

export const seatModel = (table: ChartTable): Model =>
  plain('seat', 'seat', table, [
    {
      id: 'NR-29',
      says: NEVER['NR-29'],
      broken: (from, event, to) =>
        table.values[from] !== 'free' &&
        table.values[to] === 'free' &&
        table.events[event] !== 'operator.releaseControls',
    },
  ]);
