/** Trips of the flame interlock as data: what latches it, and what clears the cause. */
import type { Condition } from './flame-interlock.regions.ts';

export type Trip = {
  readonly id: `FT-${number}`;
  readonly hazard: string;
  readonly cause: string;
  readonly mustNever: string;
  readonly elements: string;
  readonly tripsWhen: Condition;
  readonly clears: string;
  readonly reset: string;
  readonly words: { readonly met: string; readonly unmet: string; readonly clear: string };
};

const FLAME = ['firing', 'flameUnexplained', 'scannerFault'] as const;
/** Solvent-bearing binder with a way open to the pug mill. */
const OPEN_WAY = { bucket: ['cutback'], valve: ['open', 'closing', 'notShut'] } as const;

const EVERYTHING = 'Fuel, pilot, binder valve and all feeds shut; hood fan kept running';
const NEVER_AFTER = 'Fuel, binder or feeds open while this trip is latched';
const RESET = 'operator.resetTrip';

/** In order of gravity: when two come at once, the first is the one latched. */
export const TRIPS = [
  {
    id: 'FT-01',
    hazard: 'Solvent vapour meets the dryer flame',
    cause: 'Flame seen with solvent-bearing binder in the pug mill or the bucket',
    mustNever: NEVER_AFTER,
    elements: EVERYTHING,
    tripsWhen: [
      { dryer: FLAME, mixer: ['cutback'] },
      { dryer: FLAME, bucket: ['cutback'] },
    ],
    clears: 'Flame out, or no solvent-bearing binder in pug mill and bucket',
    reset: RESET,
    words: {
      met: 'Flame and solvent-bearing binder apart',
      unmet: 'A dryer flame was seen with solvent-bearing binder in the pug mill or bucket',
      clear: 'Keep away, leave the hood fan on, wait until no flame is seen.',
    },
  },
  {
    id: 'FT-02',
    hazard: 'Solvent vapour gathers under the hood',
    cause: 'Vapour at the hood at or above the trip level',
    mustNever: NEVER_AFTER,
    elements: EVERYTHING,
    tripsWhen: [{ vapour: ['high'] }],
    clears: 'Vapour below the trip level',
    reset: RESET,
    words: {
      met: 'Vapour below the trip level',
      unmet: 'Vapour at the hood reached the trip level',
      clear: 'Keep away from the mixer and let the hood fan clear the vapour.',
    },
  },
  {
    id: 'FT-03',
    hazard: 'Solvent vapour gathers under the hood',
    cause: 'Extraction lost with solvent-bearing binder in, or open to, the pug mill',
    mustNever: NEVER_AFTER,
    elements: EVERYTHING,
    tripsWhen: [
      { extraction: ['lost'], mixer: ['cutback'] },
      { extraction: ['lost'], ...OPEN_WAY },
    ],
    clears: 'Extraction proved again',
    reset: RESET,
    words: {
      met: 'Extraction held while solvent-bearing binder was about',
      unmet: 'Hood extraction was lost with solvent-bearing binder in, or open to, the pug mill',
      clear: 'Get the hood fan running and its flow proved.',
    },
  },
  {
    id: 'FT-04',
    hazard: 'Solvent vapour gathers unseen under the hood',
    cause: 'Vapour detector fault with solvent-bearing binder in, or open to, the pug mill',
    mustNever: NEVER_AFTER,
    elements: EVERYTHING,
    tripsWhen: [
      { detector: ['fault'], mixer: ['cutback'] },
      { detector: ['fault'], ...OPEN_WAY },
    ],
    clears: 'Detector healthy again',
    reset: RESET,
    words: {
      met: 'Detector healthy while solvent-bearing binder was about',
      unmet: 'The vapour detector failed with solvent-bearing binder in, or open to, the pug mill',
      clear: 'Have the detector mended and checked; keep the hood fan on.',
    },
  },
  {
    id: 'FT-05',
    hazard: 'A flame nobody feeds, or a scanner that sees one that is not there',
    cause: 'Flame seen with the fuel valve proved shut, for longer than a dying flame lasts',
    mustNever: NEVER_AFTER,
    elements: EVERYTHING,
    tripsWhen: [{ dryer: ['scannerFault'] }],
    clears: 'Scanner sees no flame',
    reset: RESET,
    words: {
      met: 'Scanner and fuel valve agree',
      unmet: 'The scanner sees a flame although the fuel valve is proved shut',
      clear: 'Look for a fire in the drum; if there is none, have the scanner mended.',
    },
  },
  {
    id: 'FT-06',
    hazard: 'Binder runs into the pug mill unasked',
    cause: 'Binder valve not proved shut when asked to, with solvent-bearing binder in the bucket',
    mustNever: NEVER_AFTER,
    elements: EVERYTHING,
    tripsWhen: [{ valve: ['notShut'], bucket: ['cutback'] }],
    clears: 'Binder valve proved shut, or bucket empty of solvent-bearing binder',
    reset: RESET,
    words: {
      met: 'Binder valve closes when asked',
      unmet: 'The binder valve was not proved shut with solvent-bearing binder in the bucket',
      clear: 'Close the hand valve and have the binder valve mended.',
    },
  },
  {
    id: 'FT-07',
    hazard: 'Someone saw a danger the instruments do not',
    cause: 'Emergency stop pressed',
    mustNever: NEVER_AFTER,
    elements: `${EVERYTHING}; drum, pug mill, gate and belt stopped`,
    tripsWhen: [{ emergencyStop: ['pressed'] }],
    clears: 'Emergency stop released',
    reset: RESET,
    words: {
      met: 'Emergency stop not pressed',
      unmet: 'The emergency stop was pressed',
      clear: 'Find out why, make it safe, then release the button.',
    },
  },
  {
    id: 'FT-08',
    hazard: 'Hot aggregate flashes solvent off the binder',
    cause: 'Aggregate over its limit with solvent-bearing binder open to the pug mill',
    mustNever: NEVER_AFTER,
    elements: EVERYTHING,
    tripsWhen: [{ aggregate: ['overLimit'], ...OPEN_WAY }],
    clears: 'Aggregate within its limit, or binder valve proved shut',
    reset: RESET,
    words: {
      met: 'Aggregate within its limit while binder was open',
      unmet: 'The aggregate was over its limit with the binder valve open for solvent-bearing binder',
      clear: 'Leave the hood fan on; dump the batch once the vapour is low.',
    },
  },
  {
    id: 'FT-09',
    hazard: 'Fuel reaches the drum while solvent vapour is about',
    cause: 'Dryer fuel valve not proved shut with solvent-bearing binder in the pug mill or the bucket',
    mustNever: NEVER_AFTER,
    elements: EVERYTHING,
    tripsWhen: [
      { dryer: ['fuelOpen'], mixer: ['cutback'] },
      { dryer: ['fuelOpen'], bucket: ['cutback'] },
    ],
    clears: 'Fuel valve proved shut, or no solvent-bearing binder in pug mill and bucket',
    reset: RESET,
    words: {
      met: 'Fuel shut while solvent-bearing binder was about',
      unmet: 'The dryer fuel valve was not proved shut with solvent-bearing binder in the pug mill or bucket',
      clear: 'Close the fuel hand valve and have the fuel valve mended.',
    },
  },
  {
    id: 'FT-10',
    hazard: 'Unburnt fuel gathers in the drum and is lit',
    cause: 'Fuel valve not proved shut and no flame seen for longer than the flame-failure time',
    mustNever: NEVER_AFTER,
    elements: EVERYTHING,
    tripsWhen: [{ dryer: ['fuelUnlit'] }],
    clears: 'Fuel valve proved shut',
    reset: RESET,
    words: {
      met: 'Fuel burns or is shut',
      unmet: 'The fuel valve stands open and the scanner sees no flame',
      clear: 'Close the fuel hand valve, keep the dryer fan on, have valve and scanner looked at.',
    },
  },
  {
    id: 'FT-11',
    hazard: 'Valves and motors start by themselves when the supply comes back',
    cause: 'Supply to the plant lost, if only for a moment',
    mustNever: NEVER_AFTER,
    elements: `${EVERYTHING}; drum, pug mill, gate and belt stopped`,
    tripsWhen: [{ power: ['lost'] }],
    clears: 'Supply healthy again',
    reset: RESET,
    words: {
      met: 'Supply healthy',
      unmet: 'The supply to the plant was lost',
      clear: 'Wait for the supply, walk the plant and see that all is shut, then reset.',
    },
  },
] as const satisfies readonly Trip[];
