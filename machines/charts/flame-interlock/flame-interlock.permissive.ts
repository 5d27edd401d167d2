/** The form of a permissive of the flame interlock, and words several of them share. */
import type { Condition } from './flame-interlock.regions.ts';

export type PermissiveFor = 'binder' | 'feed' | 'flame' | 'emulsion';

export type Permissive = {
  readonly id: `FI-${number}`;
  /** binder: bucket to pug mill. feed: cutback tank to bucket. flame: pilot and main of the dryer. emulsion: emulsion tank to bucket. */
  readonly for: readonly PermissiveFor[];
  /** Asked for only to light: firing itself, or an emulsion run beside it, may undo it. */
  readonly onlyToLight: boolean;
  readonly hazard: string;
  readonly cause: string;
  readonly mustNever: string;
  readonly elements: string;
  readonly metWhen: Condition;
  readonly clears: string;
  readonly reset: string;
  readonly words: { readonly met: string; readonly unmet: string; readonly clear: string };
};

export const FLAME_MEETS_VAPOUR = 'Solvent vapour meets the dryer flame';
export const VAPOUR_GATHERS = 'Solvent vapour gathers under the hood';
export const FUEL_GATHERS = 'Unburnt fuel gathers in the drum and is lit';
export const NEVER_BINDER = 'Binder valve open for solvent-bearing binder';
export const NEVER_FLAME = 'Pilot or main fuel valve open';
export const BINDER_SIDE = 'Binder valve, cutback feed';
export const VALVE = 'Binder valve';
export const FUEL = 'Pilot and main fuel valves';
export const ITSELF = 'none: met again by itself';
