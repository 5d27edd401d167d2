/** What the charts ask of the plant together: each chart's states have their outputs, and this lays them side by side. */
import { batchDemands } from '../charts/batch/batch.guards.ts';
import { burnerDemands } from '../charts/burner/burner.guards.ts';
import { campaignDemands, mayWeighCharge } from '../charts/campaign/campaign.guards.ts';
import { oilHeaterDemands } from '../charts/oil-heater/oil-heater.guards.ts';
import { tankHeaterDemands } from '../charts/tank-heater/tank-heater.guards.ts';
import { feedOpening } from '../charts/weigher/weigher.guards.ts';
import { AT_REST, type Opening, type Outputs } from '../field/outputs.ts';
import type { Line, WeigherId } from './line.types.ts';
import {
  accountGrams,
  batchKind,
  batchValue,
  campaignState,
  chartValue,
  presentMix,
  weigherState,
} from './lookup.ts';
import { allWeighed, currentTask } from './weighing.ts';

const feedOf = (line: Line, id: WeigherId): Opening => {
  const weigher = line.weighers[id];
  const waits =
    weigher.purpose === 'dryer'
      ? !mayWeighCharge(campaignState(line))
      : batchValue(line).procedure !== 'running';
  const { procedure } = batchValue(line);
  // A top-up belongs to a held batch; one that is broken off feeds nothing.
  if (
    weigher.purpose === 'batch' &&
    procedure !== 'running' &&
    procedure !== 'holding' &&
    procedure !== 'held' &&
    procedure !== 'restarting'
  )
    return 'shut';
  return feedOpening(weigherState(line, id), waits);
};

const feeds = (line: Line): Partial<Outputs> => {
  const wanted: { -readonly [K in keyof Outputs]?: Outputs[K] } = {};
  const aggregate = feedOf(line, 'aggregateWeigher');
  const bin = currentTask(line.weighers.aggregateWeigher)?.bin;
  if (aggregate !== 'shut' && bin !== undefined) wanted[`bin${bin}Gate` as 'bin1Gate'] = aggregate;
  const dry = feedOf(line, 'dryWeigher');
  if (dry !== 'shut') wanted.holdingGate = dry;
  const binder = feedOf(line, 'binderWeigher');
  if (binder !== 'shut')
    wanted[presentMix(line).family === 'cutback' ? 'cutbackFeed' : 'emulsionFeed'] = binder;
  return wanted;
};

/** The cooling fan runs until the aggregate is inside its window, and no longer: it must not cool out of it. */
const coolingWanted = (line: Line): boolean => !line.signals.holdingBinCool;

/** All outputs asked for now, before the gate. The same object comes back when nothing changed. */
export const demandsOf = (line: Line): Outputs => {
  const { signals } = line;
  const hopperReady =
    line.weighers.aggregateWeigher.purpose === 'dryer' &&
    allWeighed(line.weighers.aggregateWeigher, weigherState(line, 'aggregateWeigher'));
  const next: Outputs = {
    ...AT_REST,
    ...burnerDemands(chartValue(line, 'burner') as never),
    ...campaignDemands(
      campaignState(line),
      hopperReady,
      accountGrams(line, 'dryer') > 0,
      coolingWanted(line),
    ),
    ...batchDemands(
      batchValue(line),
      batchKind(presentMix(line)),
      line.batch?.bay ?? 0,
      signals.hopperEmpty,
      signals.bucketEmpty,
    ),
    ...feeds(line),
    ...oilHeaterDemands(chartValue(line, 'oilHeater') as never),
    ...tankHeaterDemands('emulsion', chartValue(line, 'emulsionTank') as never),
    ...tankHeaterDemands('cutback', chartValue(line, 'cutbackTank') as never),
  };
  const before = line.wanted;
  for (const key in next) if (next[key as keyof Outputs] !== before[key as keyof Outputs]) return next;
  return before;
};
