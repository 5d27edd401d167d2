/** What each step of a batch asks of the plant: outputs belong to states. */
import type { Outputs } from '../../field/outputs.ts';

export type Procedure =
  | 'idle'
  | 'running'
  | 'holding'
  | 'held'
  | 'restarting'
  | 'stopping'
  | 'stopped'
  | 'aborting'
  | 'aborted'
  | 'complete';

export type EmulsionStep =
  | 'ready'
  | 'charging'
  | 'dropping'
  | 'preWetting'
  | 'preWetMixing'
  | 'waitingForBinder'
  | 'addingBinder'
  | 'mixing'
  | 'looking'
  | 'extraMixing'
  | 'discharging'
  | 'clearing'
  | 'discharged'
  | 'dumping'
  | 'dumpClearing'
  | 'dumped';
export type CutbackStep =
  | Exclude<EmulsionStep, 'dropping' | 'preWetting' | 'preWetMixing'>
  | 'waitingForAggregate'
  | 'antiStripping';
export type Step = EmulsionStep | CutbackStep;

/** Which of the batch charts runs. */
export type BatchKind = 'emulsion' | 'warmEmulsion' | 'cutback';
export type BatchValue = { readonly procedure: Procedure; readonly step: Step };

/** Steps in the order an operator sees them; the clearing and booked states belong to their step. */
export const STEP_ORDER = {
  emulsion: [
    'charging',
    'dropping',
    'preWetting',
    'preWetMixing',
    'waitingForBinder',
    'addingBinder',
    'mixing',
    'looking',
    'discharging',
  ],
  warmEmulsion: [
    'waitingForAggregate',
    'charging',
    'preWetting',
    'preWetMixing',
    'waitingForBinder',
    'addingBinder',
    'mixing',
    'looking',
    'discharging',
  ],
  cutback: [
    'waitingForAggregate',
    'charging',
    'antiStripping',
    'waitingForBinder',
    'addingBinder',
    'mixing',
    'looking',
    'discharging',
  ],
} as const satisfies Record<BatchKind, readonly Step[]>;

const TURNING: ReadonlySet<Step> = new Set<Step>([
  'dropping',
  'preWetting',
  'preWetMixing',
  'antiStripping',
  'waitingForBinder',
  'addingBinder',
  'mixing',
  'looking',
  'extraMixing',
  'discharging',
  'clearing',
  'dumping',
  'dumpClearing',
]);

/** Steps in which the batch only waits: no mixing time is counted as work on the mix. */
export const isMixingStep = (step: Step): boolean =>
  step === 'addingBinder' || step === 'mixing' || step === 'looking' || step === 'extraMixing';

export const isInProgress = (value: BatchValue): boolean => value.step !== 'ready';

const moves = (procedure: Procedure): boolean => procedure === 'running';

/** A charged pug mill keeps turning while held (a loaded mill cannot be started); after stop or abort it stands. */
const millTurns = (value: BatchValue, kind: BatchKind): boolean => {
  const { procedure, step } = value;
  if (procedure === 'stopped' || procedure === 'aborting' || procedure === 'aborted') return false;
  if (step === 'charging') return kind !== 'emulsion';
  return TURNING.has(step);
};

/**
 * Demands of the batch alone; weighers add their feeds, the gate has the last word.
 * `bay` is where the batch is laid. A dump empties hopper and bucket through the mill, each until it is empty.
 */
export const batchDemands = (
  value: BatchValue,
  kind: BatchKind,
  bay: number,
  hopperEmpty: boolean,
  bucketEmpty: boolean,
): Partial<Outputs> => {
  const { step } = value;
  const pugMill = millTurns(value, kind);
  if (!moves(value.procedure)) return { pugMill };
  switch (step) {
    case 'dropping':
      return { pugMill, hopperTo: 'mixer' };
    case 'preWetting':
      return { pugMill, waterValve: true };
    case 'antiStripping':
      return { pugMill, antiStripPump: true };
    case 'addingBinder':
      return { pugMill, bucketValve: true };
    case 'discharging':
      return { pugMill, mixerGate: true, belt: true, beltToBay: bay };
    case 'clearing':
      return { pugMill, mixerGate: true, belt: true, beltToBay: bay };
    case 'dumping':
      return {
        pugMill,
        mixerGate: true,
        belt: true,
        beltToBay: 0,
        hopperTo: hopperEmpty ? 'shut' : 'mixer',
        bucketValve: !bucketEmpty,
      };
    case 'dumpClearing':
      return { pugMill, mixerGate: true, belt: true, beltToBay: 0 };
    default:
      return { pugMill };
  }
};
