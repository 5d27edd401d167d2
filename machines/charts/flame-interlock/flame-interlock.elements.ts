/** The final elements of the interlocks as data: what each kind of cause acts on. Gate and matrix both read this. */
import type { Outputs } from '../../field/outputs.ts';
import type { PermissiveFor } from './flame-interlock.permissives.ts';

export type ElementKey = keyof Outputs;

/** What a permissive keeps shut while it is not met. */
export const HELD_BY_PERMISSIVE: { readonly [P in PermissiveFor]: readonly ElementKey[] } = {
  binder: ['bucketValve'],
  feed: ['cutbackFeed'],
  flame: ['burnerPilot', 'burnerMain'],
  emulsion: ['emulsionFeed'],
};

/** Shut by any trip. */
export const CLOSED_BY_A_TRIP: readonly ElementKey[] = [
  'burnerPilot',
  'burnerMain',
  'cutbackFeed',
  'bucketValve',
  'emulsionFeed',
  'bin1Gate',
  'bin2Gate',
  'bin3Gate',
  'bin4Gate',
  'hopperTo',
  'holdingGate',
  'waterValve',
  'antiStripPump',
  'oilBurner',
];

/** Stopped as well by the emergency stop and a lost supply, until the trip is reset. */
export const STOPPED_BY_EMERGENCY: readonly ElementKey[] = [
  'drumTurn',
  'drumDischarge',
  'pugMill',
  'mixerGate',
  'belt',
];

/** Kept running by any trip, and by FI-11: while the pug mill may hold solvent-bearing binder. */
export const KEPT_RUNNING: readonly ElementKey[] = ['hoodFan'];

/** The causes that stop what moves, too. */
export const STOPS_ALL = ['FT-07', 'FT-11'] as const;

export const FUEL: readonly ElementKey[] = ['burnerPilot', 'burnerMain'];
