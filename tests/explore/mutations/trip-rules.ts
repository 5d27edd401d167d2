/** Rules of the trip beyond those it was first built to: the right cause is latched, and a latch is not handed on to be rid of it. */
import { holds } from '../../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { TRIPS } from '../../../machines/charts/flame-interlock/flame-interlock.trips.ts';
import type { Model } from '../explorer.ts';
import { BASES, STARTING, stateValueOf, TRIP_STATES, TRIPPED } from '../interlock-space.ts';
import { NEVER_MORE } from '../never-more.ts';

/** The gravest cause that stands in each base, by the data as it is shipped; -1 when none does. */
const GRAVEST = Int8Array.from({ length: BASES }, (_, base) => {
  const value = stateValueOf(base, STARTING);
  return TRIPS.findIndex((trip) => holds(value, trip.tripsWhen));
});

const baseOf = (state: number): number => Math.floor(state / TRIP_STATES);
const tripOf = (state: number): number => state % TRIP_STATES;
/** Places in TRIPS of the causes that stop what moves, too. */
export const STOPPED: readonly number[] = [
  TRIPS.findIndex((one) => one.id === 'FT-07'),
  TRIPS.findIndex((one) => one.id === 'FT-11'),
];
export const EMERGENCY_LATCHED = TRIPPED + (STOPPED[0] as number);

export const withTripRules = (model: Model): Model => ({
  ...model,
  rules: [
    ...model.rules,
    {
      id: 'NR-43',
      says: NEVER_MORE['NR-43'],
      broken: (from, _event, to) =>
        tripOf(from) < TRIPPED && tripOf(to) >= TRIPPED && tripOf(to) - TRIPPED !== GRAVEST[baseOf(to)],
    },
    {
      id: 'NR-44',
      says: NEVER_MORE['NR-44'],
      broken: (from, event, to) =>
        STOPPED.includes(tripOf(from) - TRIPPED) &&
        !STOPPED.includes(tripOf(to) - TRIPPED) &&
        (model.events[event] !== 'operator.resetTrip' || GRAVEST[baseOf(from)] !== -1),
    },
  ],
});
