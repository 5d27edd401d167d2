/** Events a tank heater chart hears: those of its own tank. */
import type { Signal, SignalEvent } from '../signals.ts';

export type TankId = 'emulsion' | 'cutback';

/** Signals the heater of a tank hears, at either or both of their edges. */
export const tankHeaterSignals = (tank: TankId): readonly Signal[] => [
  `${tank}Covered`,
  `${tank}Warm`,
  `${tank}OverLimit`,
  `${tank}MayHeat`,
  'oilFlowing',
];

export type TankHeaterEvent =
  | SignalEvent
  | { readonly type: 'operator.heatOn' }
  | { readonly type: 'operator.heatOff' };
