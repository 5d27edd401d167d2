/** The flame interlock alone, hearing any event at any time. */
import { holds } from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { TRIPS } from '../../machines/charts/flame-interlock/flame-interlock.trips.ts';
import type { Model } from './explorer.ts';
import {
  BASES,
  INTERLOCK_EVENTS,
  type InterlockSpace,
  interlockNext,
  RESET_TRIP,
  SAFEST_BASE,
  STARTING,
  stateValueOf,
  TRIP_STATES,
  TRIPPED,
  WATCHING,
} from './interlock-space.ts';
import { withTripRules } from './mutations/trip-rules.ts';
import { NEVER } from './never-rules.ts';

/** Bases in which some trip cause stands, by the data. */
const CAUSE_STANDS = Uint8Array.from({ length: BASES }, (_, base) => {
  const value = stateValueOf(base, STARTING);
  return TRIPS.some((trip) => holds(value, trip.tripsWhen)) ? 1 : 0;
});

const EMERGENCY = TRIPPED + TRIPS.findIndex((trip) => trip.id === 'FT-07');
const POWERLESS = TRIPPED + TRIPS.findIndex((trip) => trip.id === 'FT-11');
const POWER_LOST = INTERLOCK_EVENTS.indexOf('off.powerOk');
const PRESSED = INTERLOCK_EVENTS.indexOf('on.emergencyStop');

export const READY = SAFEST_BASE * TRIP_STATES + WATCHING;

/** Starts as the line starts, or, to find a breach sooner, from another state. */
export const interlockModel = (space: InterlockSpace, start = space.start): Model =>
  withTripRules(plainModel(space, start));

const plainModel = (space: InterlockSpace, start: number): Model => ({
  name: 'flame interlock',
  size: BASES * TRIP_STATES,
  start,
  events: INTERLOCK_EVENTS,
  next: (state, event) => interlockNext(space, state, event),
  describe: (state) => JSON.stringify(stateValueOf(Math.floor(state / TRIP_STATES), state % TRIP_STATES)),
  charts: (state) => ({ interlock: stateValueOf(Math.floor(state / TRIP_STATES), state % TRIP_STATES) }),
  rules: [
    {
      id: 'NR-08',
      says: NEVER['NR-08'],
      broken: (from, event, to) => {
        if (from % TRIP_STATES < TRIPPED || to % TRIP_STATES >= TRIPPED) return false;
        return event !== RESET_TRIP || CAUSE_STANDS[Math.floor(from / TRIP_STATES)] === 1;
      },
    },
    {
      id: 'NR-09',
      says: NEVER['NR-09'],
      ofState: true,
      broken: (_from, _event, to) =>
        to % TRIP_STATES === WATCHING && CAUSE_STANDS[Math.floor(to / TRIP_STATES)] === 1,
    },
    {
      id: 'NR-32',
      says: NEVER['NR-32'],
      broken: (from, event, to) => {
        if (from % TRIP_STATES < TRIPPED) return false;
        const stopped = to % TRIP_STATES === EMERGENCY || to % TRIP_STATES === POWERLESS;
        if (stopped) return false;
        if (event === POWER_LOST) return true;
        return from % TRIP_STATES === POWERLESS && event !== RESET_TRIP;
      },
    },
    {
      id: 'NR-18',
      says: NEVER['NR-18'],
      broken: (from, event, to) => {
        if (from % TRIP_STATES < TRIPPED || to % TRIP_STATES === EMERGENCY) return false;
        if (event === PRESSED) return true;
        return from % TRIP_STATES === EMERGENCY && event !== RESET_TRIP;
      },
    },
  ],
});
