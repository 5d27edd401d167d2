/** The flame interlock: regions that follow the signals, and a trip that latches on their dangerous combinations. */
import { and, not, or, setup, stateIn } from 'xstate';
import type { StateMeta } from '../signals.ts';
import { CAUSES, TRIPS, type TripId } from './flame-interlock.causes.ts';
import type { InterlockEvent } from './flame-interlock.events.ts';
import type { Condition } from './flame-interlock.regions.ts';

/** A condition of the data as a guard over the states of the regions. */
const inCondition = (condition: Condition) =>
  or(
    condition.map((situation) =>
      and(
        Object.entries(situation).map(([region, states]) =>
          or(states.map((state) => stateIn({ [region]: state }))),
        ),
      ),
    ),
  );

/** A latched cause as a state: what happened, and what to do about it. */
const latched = (id: TripId) => {
  const { unmet, clear } = CAUSES[id].words;
  return { meta: { title: unmet, instruction: clear } };
};

const conditionOf = (id: TripId) => inCondition(TRIPS.find((trip) => trip.id === id)?.tripsWhen ?? []);

export const flameInterlockMachine = setup({
  types: {} as { events: InterlockEvent; meta: StateMeta },
  delays: {
    /** A dying flame may still be seen this long after the fuel valve is proved shut (common practice, no source). */
    flameDies: 3000,
    /** The binder valve has this long to be proved shut once asked (common practice, no source). */
    valveCloses: 5000,
    /** Fuel open and no flame seen: beyond the burner's own flame-failure time; the plant file sets it. */
    flameMissing: 5000,
  },
  guards: {
    'FT-01': conditionOf('FT-01'),
    'FT-02': conditionOf('FT-02'),
    'FT-03': conditionOf('FT-03'),
    'FT-04': conditionOf('FT-04'),
    'FT-05': conditionOf('FT-05'),
    'FT-06': conditionOf('FT-06'),
    'FT-07': conditionOf('FT-07'),
    'FT-08': conditionOf('FT-08'),
    'FT-09': conditionOf('FT-09'),
    'FT-10': conditionOf('FT-10'),
    'FT-11': conditionOf('FT-11'),
    'no cause stands': not(or(TRIPS.map((trip) => inCondition(trip.tripsWhen)))),
  },
}).createMachine({
  id: 'flameInterlock',
  type: 'parallel',
  states: {
    dryer: {
      initial: 'firing',
      states: {
        firing: {
          meta: { title: 'Flame seen, fuel open' },
          on: { 'off.flameSeen': 'fuelOpen', 'on.fuelShut': 'flameUnexplained' },
        },
        fuelOpen: {
          meta: { title: 'Fuel not proved shut, no flame seen' },
          on: { 'on.flameSeen': 'firing', 'on.fuelShut': 'purgeDue' },
          after: { flameMissing: 'fuelUnlit' },
        },
        fuelUnlit: {
          meta: {
            title: 'Fuel open and no flame seen, longer than a flame may fail',
            instruction: 'Close the fuel hand valve; keep the dryer fan on.',
          },
          on: { 'on.flameSeen': 'firing', 'on.fuelShut': 'purgeDue' },
        },
        fuelAsked: {
          meta: { title: 'Fuel asked to open, still proved shut' },
          on: {
            'on.flameSeen': 'flameUnexplained',
            'off.fuelShut': 'fuelOpen',
            'off.fuelAskedOpen': 'purgeDue',
          },
        },
        flameUnexplained: {
          meta: { title: 'Flame still seen with the fuel proved shut' },
          on: { 'off.flameSeen': 'purgeDue', 'off.fuelShut': 'firing' },
          after: { flameDies: 'scannerFault' },
        },
        scannerFault: {
          meta: {
            title: 'Flame seen that no fuel explains',
            instruction: 'Look for a fire in the drum; if there is none, have the scanner mended.',
          },
          on: { 'off.flameSeen': 'purgeDue', 'off.fuelShut': 'firing' },
        },
        // A purge counts only from zero: first the count must be heard to have gone, then to be complete.
        purgeDue: {
          meta: { title: 'Flame out and fuel shut; the purge count is still to begin' },
          on: {
            'on.flameSeen': 'flameUnexplained',
            'off.fuelShut': 'fuelOpen',
            'on.fuelAskedOpen': 'fuelAsked',
            'off.purged': 'airing',
          },
        },
        airing: {
          meta: { title: 'Flame out and fuel shut; the drum is still to be purged' },
          on: {
            'on.flameSeen': 'flameUnexplained',
            'off.fuelShut': 'fuelOpen',
            'on.fuelAskedOpen': 'fuelAsked',
            'on.purged': 'purged',
          },
        },
        purged: {
          meta: { title: 'Flame out, fuel shut, drum purged' },
          on: {
            'on.flameSeen': 'flameUnexplained',
            'off.fuelShut': 'fuelOpen',
            'on.fuelAskedOpen': 'fuelAsked',
            'off.purged': 'airing',
          },
        },
      },
    },
    extraction: {
      initial: 'lost',
      states: {
        lost: { meta: { title: 'Extraction not proved' }, on: { 'on.extractionProved': 'proved' } },
        proved: { meta: { title: 'Extraction proved' }, on: { 'off.extractionProved': 'lost' } },
      },
    },
    vapour: {
      initial: 'high',
      states: {
        high: { meta: { title: 'Vapour at the trip level' }, on: { 'off.vapourHigh': 'raised' } },
        raised: {
          meta: { title: 'Vapour above the warning level' },
          on: { 'on.vapourHigh': 'high', 'on.vapourLow': 'low' },
        },
        low: {
          meta: { title: 'Vapour low' },
          on: { 'on.vapourHigh': 'high', 'off.vapourLow': 'raised' },
        },
      },
    },
    detector: {
      initial: 'fault',
      states: {
        fault: { meta: { title: 'Vapour detector not healthy' }, on: { 'on.detectorOk': 'healthy' } },
        healthy: { meta: { title: 'Vapour detector healthy' }, on: { 'off.detectorOk': 'fault' } },
      },
    },
    aggregate: {
      initial: 'overLimit',
      states: {
        overLimit: { meta: { title: 'Aggregate too hot' }, on: { 'off.aggregateOverLimit': 'withinLimit' } },
        withinLimit: {
          meta: { title: 'Aggregate within its limit' },
          on: { 'on.aggregateOverLimit': 'overLimit' },
        },
      },
    },
    binder: {
      initial: 'outOfWindow',
      states: {
        outOfWindow: {
          meta: { title: 'Cutback outside its window' },
          on: { 'on.cutbackInWindow': 'inWindow' },
        },
        inWindow: { meta: { title: 'Cutback in its window' }, on: { 'off.cutbackInWindow': 'outOfWindow' } },
      },
    },
    bucket: {
      initial: 'cutback',
      states: {
        cutback: {
          meta: { title: 'Bucket may hold solvent-bearing binder' },
          on: { 'off.cutbackInBucket': 'noCutback' },
        },
        noCutback: {
          meta: { title: 'No solvent-bearing binder in the bucket' },
          on: { 'on.cutbackInBucket': 'cutback' },
        },
      },
    },
    mixer: {
      initial: 'cutback',
      states: {
        cutback: {
          meta: { title: 'Pug mill may hold solvent-bearing binder' },
          on: { 'off.cutbackInMixer': 'noCutback' },
        },
        noCutback: {
          meta: { title: 'No solvent-bearing binder in the pug mill' },
          on: { 'on.cutbackInMixer': 'cutback' },
        },
      },
    },
    valve: {
      initial: 'notShut',
      states: {
        notShut: {
          meta: { title: 'Binder valve not proved shut' },
          on: { 'on.binderValveShut': 'shut', 'on.binderValveAskedOpen': 'open' },
        },
        closing: {
          meta: { title: 'Binder valve closing' },
          on: { 'on.binderValveShut': 'shut', 'on.binderValveAskedOpen': 'open' },
          after: { valveCloses: 'notShut' },
        },
        open: {
          meta: { title: 'Binder valve open' },
          on: { 'on.binderValveShut': 'opening', 'off.binderValveAskedOpen': 'closing' },
        },
        opening: {
          meta: { title: 'Binder valve asked to open, still proved shut' },
          on: { 'off.binderValveShut': 'open', 'off.binderValveAskedOpen': 'shut' },
        },
        shut: {
          meta: { title: 'Binder valve proved shut' },
          on: { 'off.binderValveShut': 'closing', 'on.binderValveAskedOpen': 'opening' },
        },
      },
    },
    emergencyStop: {
      initial: 'pressed',
      states: {
        pressed: { meta: { title: 'Emergency stop pressed' }, on: { 'off.emergencyStop': 'released' } },
        released: { meta: { title: 'Emergency stop released' }, on: { 'on.emergencyStop': 'pressed' } },
      },
    },
    power: {
      initial: 'lost',
      states: {
        lost: { meta: { title: 'Supply lost' }, on: { 'on.powerOk': 'healthy' } },
        healthy: { meta: { title: 'Supply healthy' }, on: { 'off.powerOk': 'lost' } },
      },
    },
    binderLimit: {
      initial: 'over',
      states: {
        over: { meta: { title: 'Cutback above its limit' }, on: { 'off.cutbackOverLimit': 'below' } },
        below: { meta: { title: 'Cutback below its limit' }, on: { 'on.cutbackOverLimit': 'over' } },
      },
    },
    calibration: {
      initial: 'out',
      states: {
        out: { meta: { title: 'Vapour detector out of calibration' }, on: { 'on.detectorCalibrated': 'in' } },
        in: { meta: { title: 'Vapour detector in calibration' }, on: { 'off.detectorCalibrated': 'out' } },
      },
    },
    hotWork: {
      initial: 'open',
      states: {
        open: { meta: { title: 'Hot work permit open' }, on: { 'off.hotWorkOpen': 'closed' } },
        closed: { meta: { title: 'No hot work permit open' }, on: { 'on.hotWorkOpen': 'open' } },
      },
    },
    cutbackTank: {
      initial: 'unconfirmed',
      states: {
        unconfirmed: {
          meta: { title: 'Contents of the cutback tank not confirmed' },
          on: { 'on.cutbackKnown': 'confirmed' },
        },
        confirmed: {
          meta: { title: 'Contents of the cutback tank confirmed' },
          on: { 'off.cutbackKnown': 'unconfirmed' },
        },
      },
    },
    emulsionTank: {
      initial: 'unconfirmed',
      states: {
        unconfirmed: {
          meta: { title: 'Contents of the emulsion tank not confirmed' },
          on: { 'on.emulsionKnown': 'confirmed' },
        },
        confirmed: {
          meta: { title: 'Contents of the emulsion tank confirmed' },
          on: { 'off.emulsionKnown': 'unconfirmed' },
        },
      },
    },
    trip: {
      initial: 'starting',
      states: {
        starting: {
          meta: { title: 'Interlock waits until every signal has been heard' },
          on: { 'line.signalsKnown': 'watching' },
        },
        watching: {
          meta: { title: 'Interlock watching' },
          always: [
            { guard: 'FT-01', target: 'tripped.FT-01' },
            { guard: 'FT-02', target: 'tripped.FT-02' },
            { guard: 'FT-03', target: 'tripped.FT-03' },
            { guard: 'FT-04', target: 'tripped.FT-04' },
            { guard: 'FT-05', target: 'tripped.FT-05' },
            { guard: 'FT-06', target: 'tripped.FT-06' },
            { guard: 'FT-07', target: 'tripped.FT-07' },
            { guard: 'FT-08', target: 'tripped.FT-08' },
            { guard: 'FT-09', target: 'tripped.FT-09' },
            { guard: 'FT-10', target: 'tripped.FT-10' },
            { guard: 'FT-11', target: 'tripped.FT-11' },
          ],
        },
        tripped: {
          meta: {
            title: 'Flame interlock tripped',
            instruction: 'Clear every cause that still stands, then reset the trip.',
          },
          initial: 'FT-07',
          on: {
            'operator.resetTrip': { guard: 'no cause stands', target: 'watching' },
            // What the emergency stop stopped stays stopped when the button is let go, whatever tripped before it.
            'on.emergencyStop': '.FT-07',
            // Nothing that a lost supply stopped starts by itself when it comes back.
            'off.powerOk': '.FT-11',
          },
          states: {
            'FT-01': latched('FT-01'),
            'FT-02': latched('FT-02'),
            'FT-03': latched('FT-03'),
            'FT-04': latched('FT-04'),
            'FT-05': latched('FT-05'),
            'FT-06': latched('FT-06'),
            // The emergency stop stops as much as a lost supply does and outranks it.
            'FT-07': { ...latched('FT-07'), on: { 'off.powerOk': {} } },
            'FT-08': latched('FT-08'),
            'FT-09': latched('FT-09'),
            'FT-10': latched('FT-10'),
            'FT-11': latched('FT-11'),
          },
        },
      },
    },
  },
});
