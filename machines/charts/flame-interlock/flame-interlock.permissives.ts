/** Permissives of the flame interlock as data: what must be so before binder may flow and before the burner may fire. */
import type { Condition } from './flame-interlock.regions.ts';

export type PermissiveFor = 'binder' | 'feed' | 'flame';

export type Permissive = {
  readonly id: `FI-${number}`;
  /** binder: bucket to pug mill. feed: cutback tank to bucket. flame: pilot and main of the dryer. */
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

const FLAME_MEETS_VAPOUR = 'Solvent vapour meets the dryer flame';
const VAPOUR_GATHERS = 'Solvent vapour gathers under the hood';
const FUEL_GATHERS = 'Unburnt fuel gathers in the drum and is lit';
const NEVER_BINDER = 'Binder valve open for solvent-bearing binder';
const NEVER_FLAME = 'Pilot or main fuel valve open';
const BINDER_SIDE = 'Binder valve, cutback feed';
const VALVE = 'Binder valve';
const FUEL = 'Pilot and main fuel valves';
const ITSELF = 'none: met again by itself';

export const PERMISSIVES = [
  {
    id: 'FI-01',
    for: ['binder', 'feed'],
    onlyToLight: false,
    hazard: FLAME_MEETS_VAPOUR,
    cause: 'The flame scanner sees a dryer flame',
    mustNever: NEVER_BINDER,
    elements: BINDER_SIDE,
    metWhen: [{ dryer: ['fuelOpen', 'fuelAsked', 'purgeDue', 'airing', 'purged'] }],
    clears: 'Scanner sees no flame',
    reset: ITSELF,
    words: {
      met: 'Dryer flame proven out',
      unmet: 'The dryer flame is not proven out',
      clear: 'Put the burner out.',
    },
  },
  {
    id: 'FI-02',
    for: ['binder', 'feed'],
    onlyToLight: false,
    hazard: FLAME_MEETS_VAPOUR,
    cause: 'The drum is not purged since its last flame or open fuel valve',
    mustNever: NEVER_BINDER,
    elements: BINDER_SIDE,
    metWhen: [{ dryer: ['purged'] }],
    clears: 'Purge volumes blown through with flame out and fuel proved shut',
    reset: ITSELF,
    words: {
      met: 'Dryer post-purge done',
      unmet: 'The dryer has not been purged since its last flame',
      clear: 'Let the dryer fan finish the post-purge.',
    },
  },
  {
    id: 'FI-03',
    for: ['binder'],
    onlyToLight: false,
    hazard: VAPOUR_GATHERS,
    cause: 'Hood flow below the proved flow',
    mustNever: NEVER_BINDER,
    elements: VALVE,
    metWhen: [{ extraction: ['proved'] }],
    clears: 'Hood flow proved',
    reset: ITSELF,
    words: {
      met: 'Hood extraction proven',
      unmet: 'Hood extraction is not proven',
      clear: 'Start the hood fan and look for a closed damper.',
    },
  },
  {
    id: 'FI-04',
    for: ['binder'],
    onlyToLight: false,
    hazard: VAPOUR_GATHERS,
    cause: 'Vapour at the hood at or above the warning level',
    mustNever: NEVER_BINDER,
    elements: VALVE,
    metWhen: [{ vapour: ['low'] }],
    clears: 'Vapour below the warning level',
    reset: ITSELF,
    words: {
      met: 'Vapour at the hood low',
      unmet: 'Vapour at the hood is not below the warning level',
      clear: 'Keep the hood fan running and wait.',
    },
  },
  {
    id: 'FI-05',
    for: ['binder'],
    onlyToLight: false,
    hazard: 'Hot aggregate flashes solvent off the binder',
    cause: 'Aggregate above the limit for solvent-bearing binder',
    mustNever: NEVER_BINDER,
    elements: VALVE,
    metWhen: [{ aggregate: ['withinLimit'] }],
    clears: 'Aggregate cooled to the limit',
    reset: ITSELF,
    words: {
      met: 'Aggregate not too hot',
      unmet: 'The aggregate is too hot for solvent-bearing binder',
      clear: 'Cool it in the holding bin.',
    },
  },
  {
    id: 'FI-06',
    for: ['binder'],
    onlyToLight: false,
    hazard: 'Binder too hot gives off solvent; too cold it does not coat',
    cause: 'Cutback outside its working window',
    mustNever: NEVER_BINDER,
    elements: VALVE,
    metWhen: [{ binder: ['inWindow'] }],
    clears: 'Cutback in its window',
    reset: ITSELF,
    words: {
      met: 'Cutback in its window',
      unmet: 'The cutback is outside its working window',
      clear: 'Heat it, or let it cool, in its tank.',
    },
  },
  {
    id: 'FI-07',
    for: ['binder'],
    onlyToLight: false,
    hazard: VAPOUR_GATHERS,
    cause: 'Vapour detector fault',
    mustNever: NEVER_BINDER,
    elements: VALVE,
    metWhen: [{ detector: ['healthy'] }],
    clears: 'Detector healthy',
    reset: ITSELF,
    words: {
      met: 'Vapour detector healthy',
      unmet: 'The vapour detector is not healthy',
      clear: 'Have the detector mended and checked.',
    },
  },
  {
    id: 'FI-08',
    for: ['binder', 'feed'],
    onlyToLight: false,
    hazard: FLAME_MEETS_VAPOUR,
    cause: 'Dryer fuel valve asked to open, or not proved shut',
    mustNever: NEVER_BINDER,
    elements: BINDER_SIDE,
    metWhen: [{ dryer: ['flameUnexplained', 'scannerFault', 'purgeDue', 'airing', 'purged'] }],
    clears: 'Fuel valve proved shut',
    reset: ITSELF,
    words: {
      met: 'Dryer fuel proved shut',
      unmet: 'The dryer fuel valve is not proved shut',
      clear: 'Put the burner out; if it is out, close the hand valve and call a fitter.',
    },
  },
  {
    id: 'FI-09',
    for: ['binder', 'feed'],
    onlyToLight: false,
    hazard: 'Work goes on before a trip was understood',
    cause: 'A trip is latched, or the interlock has not yet heard all its signals',
    mustNever: NEVER_BINDER,
    elements: BINDER_SIDE,
    metWhen: [{ trip: ['watching'] }],
    clears: 'Trip reset',
    reset: 'operator.resetTrip',
    words: {
      met: 'No trip latched',
      unmet: 'The flame interlock is tripped',
      clear: 'Clear its causes, then reset the trip.',
    },
  },
  {
    id: 'FI-10',
    for: ['feed'],
    onlyToLight: false,
    hazard: 'Cutback runs through the bucket into the pug mill unweighed',
    cause: 'Binder valve to the pug mill not proved shut',
    mustNever: 'Cutback feed open',
    elements: 'Cutback feed',
    metWhen: [{ valve: ['shut', 'opening'] }],
    clears: 'Binder valve proved shut',
    reset: ITSELF,
    words: {
      met: 'Binder valve proved shut for weighing',
      unmet: 'The binder valve is not proved shut, so cutback cannot be weighed',
      clear: 'Close the binder valve.',
    },
  },
  {
    id: 'FI-11',
    for: ['flame'],
    onlyToLight: false,
    hazard: FLAME_MEETS_VAPOUR,
    cause: 'Solvent-bearing binder in the pug mill',
    mustNever: NEVER_FLAME,
    elements: FUEL,
    metWhen: [{ mixer: ['noCutback'] }],
    clears: 'Pug mill empty of solvent-bearing binder',
    reset: ITSELF,
    words: {
      met: 'No solvent-bearing binder in the pug mill',
      unmet: 'The pug mill holds solvent-bearing binder',
      clear: 'Finish and discharge the batch first.',
    },
  },
  {
    id: 'FI-12',
    for: ['flame'],
    onlyToLight: false,
    hazard: FLAME_MEETS_VAPOUR,
    cause: 'Solvent-bearing binder in the weigh bucket',
    mustNever: NEVER_FLAME,
    elements: FUEL,
    metWhen: [{ bucket: ['noCutback'] }],
    clears: 'Weigh bucket empty of solvent-bearing binder',
    reset: ITSELF,
    words: {
      met: 'No solvent-bearing binder in the weigh bucket',
      unmet: 'The weigh bucket holds solvent-bearing binder',
      clear: 'Use or drain what is in the bucket first.',
    },
  },
  {
    id: 'FI-13',
    for: ['flame'],
    onlyToLight: true,
    hazard: FLAME_MEETS_VAPOUR,
    cause: 'Binder valve to the pug mill not proved shut',
    mustNever: 'Burner lit',
    elements: FUEL,
    metWhen: [{ valve: ['shut'] }],
    clears: 'Binder valve proved shut',
    reset: ITSELF,
    words: {
      met: 'Binder valve proved shut',
      unmet: 'The binder valve to the pug mill is not proved shut',
      clear: 'Close the binder valve.',
    },
  },
  {
    id: 'FI-14',
    for: ['flame'],
    onlyToLight: false,
    hazard: FLAME_MEETS_VAPOUR,
    cause: 'Vapour at the hood at or above the warning level',
    mustNever: NEVER_FLAME,
    elements: FUEL,
    metWhen: [{ vapour: ['low'] }],
    clears: 'Vapour below the warning level',
    reset: ITSELF,
    words: {
      met: 'Vapour at the hood low enough for a flame',
      unmet: 'Vapour at the hood is not below the warning level: no flame',
      clear: 'Keep the hood fan running and wait.',
    },
  },
  {
    id: 'FI-15',
    for: ['flame'],
    onlyToLight: false,
    hazard: FLAME_MEETS_VAPOUR,
    cause: 'Vapour detector fault',
    mustNever: NEVER_FLAME,
    elements: FUEL,
    metWhen: [{ detector: ['healthy'] }],
    clears: 'Detector healthy',
    reset: ITSELF,
    words: {
      met: 'Vapour detector healthy enough for a flame',
      unmet: 'The vapour detector is not healthy: no flame',
      clear: 'Have the detector mended and checked.',
    },
  },
  {
    id: 'FI-16',
    for: ['flame'],
    onlyToLight: false,
    hazard: FLAME_MEETS_VAPOUR,
    cause: 'Hood flow below the proved flow',
    mustNever: NEVER_FLAME,
    elements: FUEL,
    metWhen: [{ extraction: ['proved'] }],
    clears: 'Hood flow proved',
    reset: ITSELF,
    words: {
      met: 'Hood extraction proven for a flame',
      unmet: 'Hood extraction is not proven: no flame',
      clear: 'Start the hood fan and look for a closed damper.',
    },
  },
  {
    id: 'FI-17',
    for: ['flame'],
    onlyToLight: false,
    hazard: 'Work goes on before a trip was understood',
    cause: 'A trip is latched, or the interlock has not yet heard all its signals',
    mustNever: NEVER_FLAME,
    elements: FUEL,
    metWhen: [{ trip: ['watching'] }],
    clears: 'Trip reset',
    reset: 'operator.resetTrip',
    words: {
      met: 'No trip latched against a flame',
      unmet: 'The flame interlock is tripped: no flame',
      clear: 'Clear its causes, then reset the trip.',
    },
  },
  {
    id: 'FI-18',
    for: ['flame'],
    onlyToLight: true,
    hazard: FUEL_GATHERS,
    cause: 'Dryer fuel valve not proved shut, or a flame seen, before lighting',
    mustNever: 'Burner lit',
    elements: FUEL,
    metWhen: [{ dryer: ['purgeDue', 'airing', 'purged'] }],
    clears: 'Fuel valve proved shut and no flame seen',
    reset: ITSELF,
    words: {
      met: 'Dryer fuel proved shut and no flame seen',
      unmet: 'The dryer fuel valve is not proved shut, or a flame is seen',
      clear: 'Let the flame go out and the fuel valve prove shut.',
    },
  },
] as const satisfies readonly Permissive[];
