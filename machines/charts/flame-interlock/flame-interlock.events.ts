/** Events the flame interlock hears. */
import type { Signal, SignalEvent } from '../signals.ts';

/** Signals it follows; it hears both edges of each. */
export const INTERLOCK_SIGNALS = [
  'flameSeen',
  'fuelShut',
  'fuelAskedOpen',
  'purged',
  'extractionProved',
  'vapourLow',
  'vapourHigh',
  'detectorOk',
  'aggregateOverLimit',
  'cutbackInWindow',
  'cutbackInBucket',
  'cutbackInMixer',
  'binderValveShut',
  'binderValveAskedOpen',
  'emergencyStop',
  'powerOk',
  'cutbackOverLimit',
  'detectorCalibrated',
  'hotWorkOpen',
  'cutbackKnown',
  'emulsionKnown',
] as const satisfies readonly Signal[];

export type InterlockEvent =
  | SignalEvent
  /** Every signal has been offered once since the start: from here on causes may trip. */
  | { readonly type: 'line.signalsKnown' }
  | { readonly type: 'operator.resetTrip' };
