/** Safeguards of the dryer burner as data: its purges, its trial for ignition, its response to a failed flame. */
import type { ChartValue } from '../flame-interlock/flame-interlock.guards.ts';

export type Safeguard = {
  readonly id: `FB-${number}`;
  readonly hazard: string;
  readonly cause: string;
  readonly mustNever: string;
  readonly elements: string;
  /** State of the burner chart in which it holds; the second part for a lockout. */
  readonly holdsIn: readonly [top: string, leaf?: string];
  readonly clears: string;
  readonly reset: string;
  readonly words: { readonly met: string; readonly unmet: string; readonly clear: string };
};

const FUEL_GATHERS = 'Unburnt fuel gathers in the drum and is lit';
const NEVER = 'Pilot or main fuel valve open';
const VALVES = 'Pilot and main fuel valves';
const RESET = 'operator.resetBurner, into a purge';

export const SAFEGUARDS = [
  {
    id: 'FB-01',
    hazard: 'Vapour left in the drum is lit by the pilot',
    cause: 'Purge before lighting incomplete: too few volumes of air changed, by measured fan flow',
    mustNever: NEVER,
    elements: VALVES,
    holdsIn: ['purging'],
    clears: 'Volumes changed since the flow was proved, counted afresh from zero',
    reset: 'none: the burner goes on to its pilot by itself',
    words: {
      met: 'Drum purged before lighting',
      unmet: 'The drum is still being purged before lighting',
      clear: 'Wait until the purge volumes have been blown through.',
    },
  },
  {
    id: 'FB-02',
    hazard: FUEL_GATHERS,
    cause: 'No pilot flame within the trial for ignition',
    mustNever: NEVER,
    elements: VALVES,
    holdsIn: ['lockedOut', 'noPilotFlame'],
    clears: 'Burner reset after its cause was found',
    reset: RESET,
    words: {
      met: 'Pilot lit within its trial',
      unmet: 'The pilot did not light within the trial for ignition',
      clear: 'Look at pilot gas, spark and scanner, then reset the burner.',
    },
  },
  {
    id: 'FB-03',
    hazard: FUEL_GATHERS,
    cause: 'Flame lost while the main flame was lighting',
    mustNever: NEVER,
    elements: VALVES,
    holdsIn: ['lockedOut', 'noMainFlame'],
    clears: 'Burner reset after its cause was found',
    reset: RESET,
    words: {
      met: 'Main flame lit from the pilot',
      unmet: 'The flame was lost while the main flame was lighting',
      clear: 'Look at fuel pressure, air and nozzle, then reset the burner.',
    },
  },
  {
    id: 'FB-04',
    hazard: FUEL_GATHERS,
    cause: 'Main flame not seen for the flame-failure time',
    mustNever: NEVER,
    elements: VALVES,
    holdsIn: ['lockedOut', 'flameFailed'],
    clears: 'Burner reset after its cause was found',
    reset: RESET,
    words: {
      met: 'Main flame seen',
      unmet: 'The main flame failed',
      clear: 'Find out why before resetting; never reset twice in a row.',
    },
  },
  {
    id: 'FB-05',
    hazard: FUEL_GATHERS,
    cause: 'Dryer fan flow not proved in time, or lost while fuel may flow',
    mustNever: NEVER,
    elements: VALVES,
    holdsIn: ['lockedOut', 'airLost'],
    clears: 'Burner reset after its cause was found',
    reset: RESET,
    words: {
      met: 'Dryer fan flow proved',
      unmet: 'The dryer fan flow was not proved, or was lost',
      clear: 'Look at fan, belt and damper, then reset the burner.',
    },
  },
  {
    id: 'FB-06',
    hazard: 'A flame nobody asked for, or a scanner that lies',
    cause:
      'Flame seen where there should be none: burner off, purging, or past the time a flame takes to die',
    mustNever: NEVER,
    elements: VALVES,
    holdsIn: ['lockedOut', 'flameUnexpected'],
    clears: 'Burner reset after its cause was found',
    reset: RESET,
    words: {
      met: 'No flame seen where there should be none',
      unmet: 'A flame was seen where there should be none',
      clear: 'Look for a fire in the drum; if there is none, have the scanner mended, then reset the burner.',
    },
  },
  {
    id: 'FB-07',
    hazard: FUEL_GATHERS,
    cause: 'Dryer fuel valve not proved shut when it should be',
    mustNever: NEVER,
    elements: VALVES,
    holdsIn: ['lockedOut', 'fuelNotShut'],
    clears: 'Burner reset after its cause was found',
    reset: RESET,
    words: {
      met: 'Fuel valve proved shut when asked',
      unmet: 'The fuel valve was not proved shut when it should be',
      clear: 'Close the hand valve and have the fuel valve mended, then reset the burner.',
    },
  },
  {
    id: 'FB-08',
    hazard: 'Vapour and unburnt fuel stay in the drum after the flame',
    cause: 'Purge after the flame incomplete: too few volumes of air changed, by measured fan flow',
    mustNever: NEVER,
    elements: VALVES,
    holdsIn: ['postPurging'],
    clears: 'Volumes changed with the flame out and the fuel proved shut',
    reset: 'none: the burner goes off by itself',
    words: {
      met: 'Drum purged after the flame',
      unmet: 'The drum is still being purged after its flame',
      clear: 'Let the dryer fan finish the purge.',
    },
  },
] as const satisfies readonly Safeguard[];

export type SafeguardId = (typeof SAFEGUARDS)[number]['id'];

/** Safeguards that stand against fuel in this state of the burner; none while it may fire, or rests. */
export const standingSafeguards = (value: ChartValue): readonly SafeguardId[] => {
  for (const { id, holdsIn } of SAFEGUARDS) {
    const [top, leaf] = holdsIn as readonly [string, string?];
    if (typeof value === 'string' ? value === top && leaf === undefined : value[top] !== undefined)
      if (leaf === undefined || (typeof value !== 'string' && value[top] === leaf)) return [id];
  }
  return [];
};

/** Lockouts stay until a person resets the burner; the purges pass by themselves. */
export const isLockout = (one: Safeguard): boolean => one.holdsIn[0] === 'lockedOut';
