/**
 * The whole state space of the flame interlock as numbers. Each region follows its signals alone (a test
 * holds that), so its table is worked out by itself; what the trip does is asked of XState once for every
 * combination of the other regions. The result is checked against XState itself, transition by transition.
 */
import { type AnyMachineSnapshot, type AnyStateMachine, transition } from 'xstate';
import { INTERLOCK_SIGNALS } from '../../machines/charts/flame-interlock/flame-interlock.events.ts';
import type { ChartValue } from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { REGIONS, type Region } from '../../machines/charts/flame-interlock/flame-interlock.regions.ts';
import { TRIPS } from '../../machines/charts/flame-interlock/flame-interlock.trips.ts';
import type { Signal } from '../../machines/charts/signals.ts';

/**
 * Regions no trip looks at: what the trip does cannot depend on them, nor they on anything but their own signal (tests
 * hold both). They are explored by themselves (free-regions.ts), and the gate is judged in every combination of
 * them with every state there could be of the others (gate-space.ts): so no state is left out.
 */
export const FREE = [
  'binder',
  'binderLimit',
  'calibration',
  'hotWork',
  'cutbackTank',
  'emulsionTank',
] as const;
export type FreeRegion = (typeof FREE)[number];

/** Regions that follow signals and matter to the trip, most significant last in a state's number. */
type Follower = Exclude<Region, 'trip' | FreeRegion>;
const FOLLOWERS = (Object.keys(REGIONS) as Region[]).filter(
  (region): region is Follower => region !== 'trip' && !(FREE as readonly Region[]).includes(region),
);
const SIZES = FOLLOWERS.map((region) => REGIONS[region].length);
/** Combinations of all followers. */
export const BASES = SIZES.reduce((product, size) => product * size, 1);

export const STARTING = 0;
export const WATCHING = 1;
/** Trip states from here on are tripped, one a cause. */
export const TRIPPED = 2;
export const TRIP_STATES = TRIPPED + TRIPS.length;

/** The signal each free region follows, and whether it is safe while on. */
export const FREE_SIGNALS: {
  readonly [R in FreeRegion]: { readonly signal: Signal; readonly safeOn: boolean };
} = {
  binder: { signal: 'cutbackInWindow', safeOn: true },
  binderLimit: { signal: 'cutbackOverLimit', safeOn: false },
  calibration: { signal: 'detectorCalibrated', safeOn: true },
  hotWork: { signal: 'hotWorkOpen', safeOn: false },
  cutbackTank: { signal: 'cutbackKnown', safeOn: true },
  emulsionTank: { signal: 'emulsionKnown', safeOn: true },
};
const OF_FREE = FREE.map((region) => FREE_SIGNALS[region].signal);
const EDGES = INTERLOCK_SIGNALS.filter((signal) => !OF_FREE.includes(signal)).flatMap((signal) => [
  `on.${signal}`,
  `off.${signal}`,
]);
const TIMERS = [
  'xstate.after.flameMissing.flameInterlock.dryer.fuelOpen',
  'xstate.after.flameDies.flameInterlock.dryer.flameUnexplained',
  'xstate.after.valveCloses.flameInterlock.valve.closing',
];
export const INTERLOCK_EVENTS: readonly string[] = [
  ...EDGES,
  ...TIMERS,
  'line.signalsKnown',
  'operator.resetTrip',
];
export const SIGNALS_KNOWN = INTERLOCK_EVENTS.indexOf('line.signalsKnown');
export const RESET_TRIP = INTERLOCK_EVENTS.indexOf('operator.resetTrip');

const STRIDES: readonly number[] = SIZES.map((_, index) =>
  SIZES.slice(0, index).reduce((product, size) => product * size, 1),
);
const digit = (base: number, index: number): number =>
  Math.floor(base / (STRIDES[index] as number)) % (SIZES[index] as number);

/** Every follower at its last, safest state. */
export const SAFEST_BASE = BASES - 1;

/** State of one region in a base, by its place in REGIONS. */
export const regionDigit = (base: number, region: Follower): number => digit(base, FOLLOWERS.indexOf(region));

/** A base with one region put to its safest state. */
export const withSafest = (base: number, region: Follower): number => {
  const index = FOLLOWERS.indexOf(region);
  return base + (STRIDES[index] as number) * ((SIZES[index] as number) - 1 - digit(base, index));
};

/** Every base in which only these regions stray from their safest state. */
export const baseWith = (varying: readonly Follower[]): readonly number[] =>
  Array.from({ length: BASES }, (_, base) => base).filter((base) =>
    FOLLOWERS.every(
      (region, index) => varying.includes(region) || digit(base, index) === (SIZES[index] as number) - 1,
    ),
  );

/** Every free region at its safe side. */
export const FREE_SAFE = Object.fromEntries(FREE.map((region) => [region, REGIONS[region][1]])) as {
  readonly [R in FreeRegion]: string;
};

/** State value of a base and a trip state, the free regions at their safe side unless said. */
export const stateValueOf = (
  base: number,
  trip: number,
  free: { readonly [R in FreeRegion]: string } = FREE_SAFE,
): ChartValue => ({
  ...free,
  ...Object.fromEntries(
    FOLLOWERS.map((region, index) => [region, REGIONS[region][digit(base, index)] as string]),
  ),
  trip:
    trip === STARTING
      ? 'starting'
      : trip === WATCHING
        ? 'watching'
        : { tripped: (TRIPS[trip - TRIPPED] as (typeof TRIPS)[number]).id },
});

const tripCode = (value: ChartValue): number => {
  const trip = typeof value === 'string' ? undefined : value.trip;
  if (trip === 'starting') return STARTING;
  if (trip === 'watching') return WATCHING;
  const cause = typeof trip === 'object' ? trip.tripped : undefined;
  return TRIPPED + TRIPS.findIndex((one) => one.id === cause);
};

const baseCode = (value: ChartValue): number =>
  FOLLOWERS.reduce((sum, region, index) => {
    const state = typeof value === 'string' ? undefined : value[region];
    return sum + (STRIDES[index] as number) * (REGIONS[region] as readonly unknown[]).indexOf(state);
  }, 0);

export const codeOf = (value: ChartValue): number => baseCode(value) * TRIP_STATES + tripCode(value);

export type InterlockSpace = {
  /** Base after an event, whatever the trip does: follow[event * BASES + base]. */
  readonly follow: Int32Array;
  /** Trip state a watching interlock goes to in this base (WATCHING: none). Asked of XState once a base. */
  readonly tripsTo: (base: number) => number;
  /** Trip state after a reset in this base, started from tripped (TRIPPED: refused). Asked once a base. */
  readonly resetsTo: (base: number) => number;
  /** Trip state after any other event in the safest base, from each tripped state: leavesTo[(trip - TRIPPED) * events + event]. */
  readonly leavesTo: Uint8Array;
  readonly start: number;
  readonly machine: AnyStateMachine;
};

const snapshotOf = (machine: AnyStateMachine, base: number, trip: number): AnyMachineSnapshot =>
  machine.resolveState({ value: stateValueOf(base, trip), context: {} } as never) as AnyMachineSnapshot;

/** What XState does with an event in a state given by its numbers. */
export const askXState = (machine: AnyStateMachine, base: number, trip: number, event: number): number => {
  const type = INTERLOCK_EVENTS[event] as string;
  const [to] = transition(machine, snapshotOf(machine, base, trip), { type });
  return codeOf(to.value as ChartValue);
};

/** For each region the first of its states that every trip names, or leaves out, together with this one. */
const ALIKE: readonly (readonly number[])[] = FOLLOWERS.map((region) => {
  const named = (state: string): string =>
    TRIPS.flatMap((trip) =>
      (trip.tripsWhen as readonly { readonly [R in Region]?: readonly string[] }[]).map((situation) =>
        situation[region] === undefined ? '-' : String(situation[region].includes(state)),
      ),
    ).join();
  const states = REGIONS[region] as readonly string[];
  return states.map((state) => states.findIndex((other) => named(other) === named(state)));
});

/** A base no trip tells from this one, the same for all such: XState is asked once for them together. */
const alikeToTrips = (base: number): number =>
  FOLLOWERS.reduce(
    (sum, _region, index) =>
      sum + (STRIDES[index] as number) * (ALIKE[index]?.[digit(base, index)] as number),
    0,
  );

export const spaceOf = (machine: AnyStateMachine): InterlockSpace => {
  const follow = new Int32Array(INTERLOCK_EVENTS.length * BASES);
  INTERLOCK_EVENTS.forEach((_, event) => {
    // The step of each region's own states, the other regions at their start.
    const steps = FOLLOWERS.map((_region, index) =>
      Array.from({ length: SIZES[index] as number }, (_unused, state) => {
        const base = state * (STRIDES[index] as number);
        const to = Math.floor(askXState(machine, base, STARTING, event) / TRIP_STATES);
        return digit(to, index) - state;
      }),
    );
    for (let base = 0; base < BASES; base++) {
      let to = base;
      for (let index = 0; index < FOLLOWERS.length; index++)
        to += (STRIDES[index] as number) * (steps[index]?.[digit(base, index)] as number);
      follow[event * BASES + base] = to;
    }
  });
  const once = (trip: number, event: number): ((base: number) => number) => {
    const known = new Int8Array(BASES).fill(-1);
    return (base) => {
      const twin = alikeToTrips(base);
      if (known[twin] === -1) known[twin] = askXState(machine, twin, trip, event) % TRIP_STATES;
      return known[twin] as number;
    };
  };
  const tripsTo = once(STARTING, SIGNALS_KNOWN);
  const resetsTo = once(TRIPPED, RESET_TRIP);
  const leavesTo = Uint8Array.from(
    TRIPS.flatMap((_trip, index) =>
      INTERLOCK_EVENTS.map((_, event) =>
        event === RESET_TRIP
          ? TRIPPED + index
          : askXState(machine, SAFEST_BASE, TRIPPED + index, event) % TRIP_STATES,
      ),
    ),
  );
  const first = machine.getInitialSnapshot({} as never) as AnyMachineSnapshot;
  return { follow, tripsTo, resetsTo, leavesTo, start: codeOf(first.value as ChartValue), machine };
};

/** The trip state after an event that led to base `to`. */
export const tripAfter = (
  space: InterlockSpace,
  base: number,
  trip: number,
  event: number,
  to: number,
): number => {
  if (trip === STARTING) return event === SIGNALS_KNOWN ? space.tripsTo(to) : STARTING;
  if (trip === WATCHING) return space.tripsTo(to);
  if (event !== RESET_TRIP) {
    const left = space.leavesTo[(trip - TRIPPED) * INTERLOCK_EVENTS.length + event] as number;
    return left === WATCHING ? space.tripsTo(to) : left;
  }
  const after = space.resetsTo(base);
  return after === TRIPPED ? trip : after;
};

export const interlockNext = (space: InterlockSpace, code: number, event: number): number => {
  const base = Math.floor(code / TRIP_STATES);
  const trip = code % TRIP_STATES;
  const to = space.follow[event * BASES + base] as number;
  return to * TRIP_STATES + tripAfter(space, base, trip, event, to);
};
