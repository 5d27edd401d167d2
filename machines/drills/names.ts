/** The names a condition may use, read off the charts and held complete by the types: a slip in a file is found, not waited for. */
import type { Procedure } from '../charts/batch/batch.guards.ts';
import { cutbackBatchMachine } from '../charts/batch/cutback-batch.machine.ts';
import { emulsionBatchMachine } from '../charts/batch/emulsion-batch.machine.ts';
import { warmEmulsionBatchMachine } from '../charts/batch/warm-emulsion-batch.machine.ts';
import { campaignMachine } from '../charts/campaign/campaign.machine.ts';
import type { Fact } from '../line/facts.ts';

type Names = [string, ...string[]];

/** Steps of all batch charts. */
export const STEP_NAMES = [
  ...new Set(
    [cutbackBatchMachine, emulsionBatchMachine, warmEmulsionBatchMachine].flatMap(({ states }) =>
      Object.keys(states.step?.states ?? {}),
    ),
  ),
] as Names;

export const STAGE_NAMES = Object.keys(campaignMachine.states) as Names;

const PROCEDURES: { readonly [P in Procedure]: true } = {
  idle: true,
  running: true,
  holding: true,
  held: true,
  restarting: true,
  stopping: true,
  stopped: true,
  aborting: true,
  aborted: true,
  complete: true,
};
export const PROCEDURE_NAMES = Object.keys(PROCEDURES) as Names;

const FACTS: { readonly [F in Fact['is']]: true } = {
  shiftOpened: true,
  shiftEnded: true,
  commandRefused: true,
  commandDone: true,
  controlsTaken: true,
  controlsAskedFor: true,
  controlsReleased: true,
  standInSwitched: true,
  orderChosen: true,
  batchStarted: true,
  stepEntered: true,
  procedureEntered: true,
  partWeighed: true,
  weightOut: true,
  emptyConfirmed: true,
  scaleZeroed: true,
  lookConfirmed: true,
  mixExtended: true,
  batchDischarged: true,
  batchDumped: true,
  massMoved: true,
  lotOpened: true,
  lotClosed: true,
  samplesPlanned: true,
  sampleDue: true,
  sampleMissed: true,
  samplePlanOpened: true,
  sampleTaken: true,
  cautionsAcknowledged: true,
  campaignStep: true,
  chargeDried: true,
  burnerEntered: true,
  heaterEntered: true,
  tripLatched: true,
  tripReset: true,
  elementHeld: true,
  alarmChanged: true,
  moistureSet: true,
  binRefillAsked: true,
  faultInjected: true,
  faultCleared: true,
  emergencyStopPressed: true,
  emergencyStopReleased: true,
  causeProved: true,
  inhibitAsked: true,
  causeInhibited: true,
  inhibitEnded: true,
  hotWorkOpened: true,
  hotWorkClosed: true,
  deliveryBegun: true,
  deliveryConfirmed: true,
  deliveryEnded: true,
  tankIdentified: true,
  tankDoubted: true,
  calibrationLost: true,
};
export const FACT_NAMES = Object.keys(FACTS) as Names;
