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
  'drumTooHot',
] as const satisfies readonly Signal[];

export type BurnerEvent =
  | SignalEvent
  | { readonly type: 'operator.lightBurner' }
  | { readonly type: 'operator.putOutBurner' }
  | { readonly type: 'operator.resetBurner' }
  /** Air through the drum without lighting: it was left unpurged. */
  | { readonly type: 'operator.purgeDrum' }
  | { readonly type: 'line.purgeDrum' }
  /** The campaign has dried enough. */
  | { readonly type: 'line.putOutBurner' }
  | { readonly type: 'line.fireHigh' }
  | { readonly type: 'line.fireLow' };
