/** The dryer burner: purge, pilot, main flame, post-purge, and a lockout that only a person resets. */
import { setup } from 'xstate';
import type { StateMeta } from '../signals.ts';
import type { BurnerEvent } from './burner.events.ts';

/** Ways to leave a state in which fuel may be open: whatever speaks against a flame shuts it. */
const PUT_OUT = {
  'operator.putOutBurner': '#burner.postPurging',
  'line.putOutBurner': '#burner.postPurging',
  'off.flamePermitted': '#burner.postPurging',
  'on.tripped': '#burner.postPurging',
  'on.drumTooHot': '#burner.postPurging',
  'off.drumFanProved': '#burner.lockedOut.airLost',
} as const;

export const burnerMachine = setup({
  types: {} as { events: BurnerEvent; meta: StateMeta },
  delays: {
    /** Fan asked to run until its flow is proved (common practice, no source). */
    fanStarts: 20_000,
    /** Pilot valve open until its flame is seen; the plant file sets it. */
    trialForIgnition: 5000,
    /** Main flame beside the pilot before the pilot closes (common practice, no source). */
    mainTrial: 4000,
    /** Flame gone until the fuel closes, at most 4 s; the plant file sets it. */
    flameFailure: 2000,
    /** Fuel asked shut until it is proved shut (common practice, no source). */
    fuelCloses: 5000,
    /** Fuel proved shut until the flame is gone (common practice, no source). */
    flameDies: 5000,
  },
}).createMachine({
  id: 'burner',
  initial: 'off',
  states: {
    off: {
      meta: { title: 'Burner off', instruction: 'Light it when a drying campaign is to begin.' },
      on: {
        'operator.lightBurner': 'purging',
        'operator.purgeDrum': 'postPurging',
        'line.purgeDrum': 'postPurging',
        'on.flameSeen': 'lockedOut.flameUnexpected',
        'off.fuelShut': 'lockedOut.fuelNotShut',
      },
    },
    purging: {
      meta: { title: 'Purging the drum before lighting' },
      initial: 'startingFan',
      on: {
        'operator.putOutBurner': 'off',
        'line.putOutBurner': 'off',
        'off.flamePermitted': 'off',
        'on.tripped': 'off',
        // Lighting needs the binder valve proved shut (FI-13); the gate asks for it again while the pilot is open.
        'off.binderValveShut': 'off',
        'on.flameSeen': 'lockedOut.flameUnexpected',
        'off.fuelShut': 'lockedOut.fuelNotShut',
      },
      states: {
        startingFan: {
          meta: { title: 'Waiting for the dryer fan to be proved' },
          on: { 'on.drumFanProved': 'restartingCount' },
          after: { fanStarts: '#burner.lockedOut.airLost' },
        },
        restartingCount: {
          meta: { title: 'Starting the count of purge volumes' },
          on: { 'off.purged': 'airing', 'off.drumFanProved': 'startingFan' },
        },
        airing: {
          meta: { title: 'Blowing air through the drum' },
          on: { 'on.purged': '#burner.pilotTrial', 'off.drumFanProved': 'startingFan' },
        },
      },
    },
    pilotTrial: {
      meta: { title: 'Pilot lit? Waiting for the scanner to see it' },
      on: { ...PUT_OUT, 'on.flameSeen': 'mainTrial' },
      after: { trialForIgnition: 'lockedOut.noPilotFlame' },
    },
    mainTrial: {
      meta: { title: 'Main flame lighting from the pilot' },
      on: { ...PUT_OUT, 'off.flameSeen': 'lockedOut.noMainFlame' },
      after: { mainTrial: 'running' },
    },
    running: {
      meta: { title: 'Burner on main flame' },
      type: 'parallel',
      on: PUT_OUT,
      states: {
        fire: {
          initial: 'low',
          states: {
            low: { meta: { title: 'Low fire' }, on: { 'line.fireHigh': 'high' } },
            high: { meta: { title: 'High fire' }, on: { 'line.fireLow': 'low' } },
          },
        },
        flame: {
          initial: 'seen',
          states: {
            seen: { meta: { title: 'Flame seen' }, on: { 'off.flameSeen': 'lost' } },
            lost: {
              meta: { title: 'Flame not seen: fuel about to close' },
              on: { 'on.flameSeen': 'seen' },
              after: { flameFailure: '#burner.lockedOut.flameFailed' },
            },
          },
        },
      },
    },
    postPurging: {
      meta: { title: 'Burner going out' },
      initial: 'closingFuel',
      states: {
        closingFuel: {
          meta: { title: 'Waiting for the fuel valve to be proved shut' },
          on: { 'on.fuelShut': 'flameDying' },
          after: { fuelCloses: '#burner.lockedOut.fuelNotShut' },
        },
        flameDying: {
          meta: { title: 'Waiting for the flame to be gone' },
          on: { 'off.flameSeen': 'restartingCount', 'off.fuelShut': 'closingFuel' },
          after: { flameDies: '#burner.lockedOut.flameUnexpected' },
        },
        restartingCount: {
          meta: { title: 'Starting the count of purge volumes' },
          on: {
            'off.purged': 'airing',
            'off.fuelShut': 'closingFuel',
            'on.flameSeen': '#burner.lockedOut.flameUnexpected',
          },
        },
        airing: {
          meta: { title: 'Purging the drum after the flame' },
          on: {
            'on.purged': '#burner.off',
            'off.fuelShut': 'closingFuel',
            'on.flameSeen': '#burner.lockedOut.flameUnexpected',
          },
        },
      },
    },
    lockedOut: {
      meta: {
        title: 'Burner locked out',
        instruction: 'Find and mend the cause, then reset the burner; it purges before anything else.',
      },
      initial: 'flameFailed',
      on: { 'operator.resetBurner': 'postPurging' },
      states: {
        airLost: { meta: { title: 'Dryer fan flow not proved, or lost' } },
        noPilotFlame: { meta: { title: 'No pilot flame within the trial' } },
        noMainFlame: { meta: { title: 'Flame lost while the main flame was lighting' } },
        flameFailed: { meta: { title: 'Main flame failed' } },
        flameUnexpected: { meta: { title: 'A flame was seen where there should be none' } },
        fuelNotShut: { meta: { title: 'Fuel valve not proved shut' } },
      },
    },
  },
});
