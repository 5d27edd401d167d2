/** Events a tank interlock hears: both edges of the signals of its own tank, nothing else. */
import type { Signal, SignalEvent } from '../signals.ts';
import type { TankId } from '../tank-heater/tank-heater.events.ts';
import type { TankRegion } from './tank-interlock.causes.ts';

/** The signal each region follows, and whether it is safe while on. */
export const tankInterlockSignals = (
  tank: TankId,
): { readonly [R in TankRegion]: { readonly signal: Signal; readonly safeOn: boolean } } => ({
  cover: { signal: `${tank}Covered`, safeOn: true },
  limit: { signal: `${tank}OverLimit`, safeOn: false },
  flow: { signal: 'oilFlowing', safeOn: true },
  delivery: { signal: `${tank}Delivery`, safeOn: false },
  dispensing: { signal: `${tank}Drawn`, safeOn: false },
  vent: { signal: `${tank}VentHigh`, safeOn: false },
  contents: { signal: `${tank}Known`, safeOn: true },
  water: { signal: `${tank}Dry`, safeOn: true },
  hotWork: { signal: 'hotWorkOpen', safeOn: false },
});

export type TankInterlockEvent = SignalEvent;
