/** Events the thermal-oil heater chart hears. */
import type { Signal, SignalEvent } from '../signals.ts';

/** Signals it hears, at either or both of their edges. */
export const OIL_HEATER_SIGNALS = [
  'heatWanted',
  'oilFlowing',
  'oilFlameSeen',
  'oilHot',
  'oilOverLimit',
  'tripped',
] as const satisfies readonly Signal[];

export type OilHeaterEvent = SignalEvent | { readonly type: 'operator.resetHeater' };
