/** Events the burner chart hears. */
import type { Signal, SignalEvent } from '../signals.ts';

/** Signals it hears, at either or both of their edges. */
export const BURNER_SIGNALS = [
  'drumFanProved',
  'purged',
  'flameSeen',
  'fuelShut',
  'flamePermitted',
  'tripped',
  'binderValveShut',
] as const satisfies readonly Signal[];

export type BurnerEvent =
  | SignalEvent
  | { readonly type: 'operator.lightBurner' }
  | { readonly type: 'operator.putOutBurner' }
  | { readonly type: 'operator.resetBurner' }
  /** The campaign has dried enough. */
  | { readonly type: 'line.putOutBurner' }
  | { readonly type: 'line.fireHigh' }
  | { readonly type: 'line.fireLow' };
