/** Which machine each chart of the line runs. */
import type { AnyStateMachine } from 'xstate';
import { alarmMachine } from '../charts/alarm/alarm.machine.ts';
import type { BatchKind } from '../charts/batch/batch.guards.ts';
import { cutbackBatchMachine } from '../charts/batch/cutback-batch.machine.ts';
import { emulsionBatchMachine } from '../charts/batch/emulsion-batch.machine.ts';
import { warmEmulsionBatchMachine } from '../charts/batch/warm-emulsion-batch.machine.ts';
import { burnerMachine } from '../charts/burner/burner.machine.ts';
import { campaignMachine } from '../charts/campaign/campaign.machine.ts';
import { flameInterlockMachine } from '../charts/flame-interlock/flame-interlock.machine.ts';
import { lotMachine } from '../charts/lot/lot.machine.ts';
import { oilHeaterMachine } from '../charts/oil-heater/oil-heater.machine.ts';
import { seatMachine } from '../charts/seat/seat.machine.ts';
import { tankHeaterMachines } from '../charts/tank-heater/tank-heater.machine.ts';
import { tankInterlockMachines } from '../charts/tank-interlock/tank-interlock.machine.ts';
import { weigherMachine } from '../charts/weigher/weigher.machine.ts';
import { ALARMS } from './alarms.ts';
import type { ChartId, Line } from './line.types.ts';
import { batchKind, presentMix } from './lookup.ts';

const FIXED = {
  interlock: flameInterlockMachine,
  burner: burnerMachine,
  oilHeater: oilHeaterMachine,
  emulsionTankInterlock: tankInterlockMachines.emulsion,
  cutbackTankInterlock: tankInterlockMachines.cutback,
  emulsionTank: tankHeaterMachines.emulsion,
  cutbackTank: tankHeaterMachines.cutback,
  aggregateWeigher: weigherMachine,
  dryWeigher: weigherMachine,
  binderWeigher: weigherMachine,
  campaign: campaignMachine,
  lot: lotMachine,
  seat: seatMachine,
} as const satisfies Record<string, AnyStateMachine>;

const BATCHES = {
  emulsion: emulsionBatchMachine,
  warmEmulsion: warmEmulsionBatchMachine,
  cutback: cutbackBatchMachine,
} as const satisfies Record<BatchKind, AnyStateMachine>;

/** Charts that hear signals, in the order they are offered them: safety first. */
export const HEARERS: readonly ChartId[] = [
  'interlock',
  'burner',
  'emulsionTankInterlock',
  'cutbackTankInterlock',
  'oilHeater',
  'emulsionTank',
  'cutbackTank',
  'aggregateWeigher',
  'dryWeigher',
  'binderWeigher',
  'campaign',
  'batch',
];

export const ALARM_CHARTS = ALARMS.map((alarm) => ({ alarm, chart: `alarm:${alarm.id}` as ChartId }));

export const CHART_IDS: readonly ChartId[] = [
  ...HEARERS,
  'lot',
  'seat',
  ...ALARM_CHARTS.map((one) => one.chart),
];

/** The batch chart follows the family of the mix in hand; it changes only between batches. */
export const machineOf = (line: Line, chart: ChartId): AnyStateMachine => {
  if (chart === 'batch') return BATCHES[batchKind(presentMix(line))];
  if (chart.startsWith('alarm:')) return alarmMachine;
  return FIXED[chart as keyof typeof FIXED];
};
