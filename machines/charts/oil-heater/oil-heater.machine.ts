/** The thermal-oil heater: no fire without flow, none above the limit, and a lockout that only a person resets. */
import { setup } from 'xstate';
import type { StateMeta } from '../signals.ts';
import type { OilHeaterEvent } from './oil-heater.events.ts';

export const oilHeaterMachine = setup({
  types: {} as { events: OilHeaterEvent; meta: StateMeta },
  delays: {
    /** Pump asked to run until its flow is proved (common practice, no source). */
    flowStarts: 15_000,
    /** Burner asked to light until its flame is seen (common practice, no source). */
    oilTrial: 5000,
    /** Pump runs on after firing so that no oil cokes in the hot coil (common practice, no source). */
    pumpRunsOn: 120_000,
  },
}).createMachine({
  id: 'oilHeater',
  initial: 'off',
  states: {
    off: {
      meta: { title: 'Oil heater off' },
      on: { 'on.heatWanted': 'waitingForTrip', 'on.oilOverLimit': 'lockedOut.overLimit' },
    },
    // On the way to the fire each condition is heard in turn; nothing is taken as given.
    waitingForTrip: {
      meta: { title: 'Oil burner waits until no trip is latched' },
      on: {
        'off.heatWanted': 'runningOn',
        'on.oilOverLimit': 'lockedOut.overLimit',
        'off.tripped': 'waitingForLimit',
      },
    },
    waitingForLimit: {
      meta: { title: 'Oil burner waits until the oil is known to be below its limit' },
      on: {
        'off.heatWanted': 'runningOn',
        'on.oilOverLimit': 'lockedOut.overLimit',
        'on.tripped': 'waitingForTrip',
        'off.oilOverLimit': 'startingFlow',
      },
    },
    startingFlow: {
      meta: { title: 'Oil pump starting; waiting for its flow' },
      on: {
        'off.heatWanted': 'runningOn',
        'on.oilOverLimit': 'lockedOut.overLimit',
        'on.tripped': 'waitingForTrip',
        'on.oilFlowing': 'hot',
      },
      after: { flowStarts: 'lockedOut.noFlow' },
    },
    hot: {
      meta: { title: 'Oil moving; no fire needed' },
      on: {
        'off.heatWanted': 'runningOn',
        'on.oilOverLimit': 'lockedOut.overLimit',
        'off.oilFlowing': 'lockedOut.flowLost',
        'on.tripped': 'waitingForTrip',
        'off.oilHot': 'firing',
      },
    },
    firing: {
      meta: { title: 'Heating the oil' },
      initial: 'lighting',
      on: {
        'off.heatWanted': 'runningOn',
        'on.oilOverLimit': 'lockedOut.overLimit',
        'off.oilFlowing': 'lockedOut.flowLost',
        'on.tripped': 'waitingForTrip',
        'on.oilHot': 'hot',
      },
      states: {
        lighting: {
          meta: { title: 'Oil burner lighting' },
          on: { 'on.oilFlameSeen': 'burning' },
          after: { oilTrial: '#oilHeater.lockedOut.noFlame' },
        },
        burning: {
          meta: { title: 'Oil burner burning' },
          on: { 'off.oilFlameSeen': '#oilHeater.lockedOut.flameLost' },
        },
      },
    },
    runningOn: {
      meta: { title: 'Oil pump running on after firing' },
      on: {
        'on.heatWanted': 'waitingForTrip',
        'on.oilOverLimit': 'lockedOut.overLimit',
      },
      after: { pumpRunsOn: 'off' },
    },
    lockedOut: {
      meta: {
        title: 'Oil heater locked out',
        instruction: 'Find and mend the cause, then reset the heater.',
      },
      initial: 'overLimit',
      on: { 'operator.resetHeater': 'off' },
      states: {
        noFlow: { meta: { title: 'Oil flow not proved in time' } },
        flowLost: { meta: { title: 'Oil flow lost while heating' } },
        overLimit: { meta: { title: 'Oil above its limit' } },
        noFlame: { meta: { title: 'Oil burner did not light' } },
        flameLost: { meta: { title: 'Oil burner flame lost' } },
      },
    },
  },
});
