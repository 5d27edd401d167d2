/** Each trip of the flame interlock never latching, always latching, and blind to each single situation or state that makes it trip. */
import { type AnyStateMachine, and, not, or, stateIn } from 'xstate';
import {
  allIsStopped,
  holds,
  isTripped,
  standingCauses,
} from '../../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import type { Region, Situation } from '../../../machines/charts/flame-interlock/flame-interlock.regions.ts';
import { TRIPS, type Trip } from '../../../machines/charts/flame-interlock/flame-interlock.trips.ts';
import { interlockSpace, MACHINES } from '../charts.ts';
import { asStory, cannotReach, explore, type Model } from '../explorer.ts';
import { interlockModel, READY } from '../interlock-model.ts';
import {
  askXState,
  BASES,
  baseWith,
  INTERLOCK_EVENTS,
  type InterlockSpace,
  RESET_TRIP,
  regionDigit,
  SAFEST_BASE,
  SIGNALS_KNOWN,
  STARTING,
  stateValueOf,
  TRIP_STATES,
  TRIPPED,
} from '../interlock-space.ts';
import { type Kill, killOf, type Mutation } from './mutation.ts';
import { EMERGENCY_LATCHED, STOPPED } from './trip-rules.ts';

type Guards = { readonly [name: string]: unknown };

/** A condition of the data as the chart asks it, written anew so that a broken one can be handed in. */
const inCondition = (situations: readonly Situation[]) =>
  or(
    situations.map((situation) =>
      and(
        Object.entries(situation).map(([region, states]) =>
          or((states as readonly string[]).map((state) => stateIn({ [region]: state }))),
        ),
      ),
    ),
  );

const lazily = (ask: (base: number) => number): ((base: number) => number) => {
  const known = new Int8Array(BASES).fill(-1);
  return (base) => {
    if (known[base] === -1) known[base] = ask(base);
    return known[base] as number;
  };
};

/** The true space with other guards: the regions follow their signals as before, only what the trip does is asked anew. */
export const spaceWith = (guards: Guards): InterlockSpace => {
  const machine = MACHINES.interlock.provide({ guards } as never) as AnyStateMachine;
  return {
    ...interlockSpace(),
    machine,
    tripsTo: lazily((base) => askXState(machine, base, STARTING, SIGNALS_KNOWN) % TRIP_STATES),
    resetsTo: lazily((base) => askXState(machine, base, TRIPPED, RESET_TRIP) % TRIP_STATES),
  };
};

/** Emergency stop, vapour and reset alone: small, and enough to see a trip that cannot be left. */
const few = (model: Model): Model => {
  const kept = model.events.flatMap((type, at) => (/emergencyStop|vapour|reset/.test(type) ? [at] : []));
  return {
    ...model,
    events: kept.map((at) => model.events[at] as string),
    next: (state, event) => model.next(state, kept[event] as number),
    rules: [],
  };
};

/** No state there is without a way back to where work can go on, with few events: true charts hold it. */
export const deadTrip = (space: InterlockSpace): string | null => {
  const model = few(interlockModel(space, READY));
  const [stuck] = cannotReach(model, explore(model), (state) => state === READY);
  return stuck === undefined ? null : `NR-11 no way on from ${model.describe(stuck)}`;
};

type Follower = Parameters<typeof regionDigit>[1];

/** Events that move one of these regions, and those that start, trip and reset. */
const eventsOf = (space: InterlockSpace, regions: readonly Follower[]): readonly number[] =>
  INTERLOCK_EVENTS.flatMap((_, event) => {
    if (event === SIGNALS_KNOWN || event === RESET_TRIP) return [event];
    const moves = regions.some((region) =>
      baseWith([region]).some(
        (base) =>
          regionDigit(space.follow[event * BASES + base] as number, region) !== regionDigit(base, region),
      ),
    );
    return moves ? [event] : [];
  });

const onlyWith = (model: Model, kept: readonly number[]): Model => ({
  ...model,
  events: kept.map((event) => model.events[event] as string),
  next: (state, event) => model.next(state, kept[event] as number),
});

/** The first breach of any rule of the trip while nothing but these regions moves. */
export const huntTrip = (
  space: InterlockSpace,
  regions: readonly Follower[],
  start = SAFEST_BASE * TRIP_STATES + STARTING,
): Kill | null => {
  // Soon seen, so looked at first.
  const dead = deadTrip(space);
  if (dead !== null) return killOf(dead);
  const kept = eventsOf(space, regions);
  const inner = interlockModel(space, start);
  // The rules know events by their names and places in the whole list.
  const model = onlyWith(inner, kept);
  const rules = inner.rules.map((rule) => ({
    ...rule,
    broken: (from: number, event: number, to: number) =>
      rule.broken(from, event < 0 ? -1 : (kept[event] as number), to),
  }));
  const [found] = explore({ ...model, rules }, 'NR-').violations;
  return found === undefined ? null : killOf(asStory(found));
};

/** The gravest cause by the changed data is that by the true data in every combination of the regions. */
const latchesOtherwise = (id: string, changed: readonly Situation[]): string | null => {
  for (let base = 0; base < BASES; base++) {
    const value = stateValueOf(base, STARTING);
    const first = TRIPS.find((trip) => holds(value, trip.tripsWhen))?.id;
    const now = TRIPS.find((trip) => holds(value, trip.id === id ? changed : trip.tripsWhen))?.id;
    if (first !== now) return `${now} instead of ${first} is latched in ${JSON.stringify(value)}`;
  }
  return null;
};

const regionsOf = (trip: Trip): readonly Follower[] =>
  [...new Set(trip.tripsWhen.flatMap((situation) => Object.keys(situation)))] as Follower[];

const withGuard = (trip: Trip, of: string, broken: string, guard: unknown): Mutation => ({
  of,
  broken,
  hunt: () => huntTrip(spaceWith({ [trip.id]: guard }), regionsOf(trip)),
});

const blindTo = (trip: Trip, of: string, broken: string, changed: readonly Situation[]): Mutation => ({
  ...withGuard(trip, of, broken, inCondition(changed)),
  differs: () => latchesOtherwise(trip.id, changed),
});

/** Where the emergency stop was pressed and let go again: the trip waits for its reset, and any cause may come. */
const PULLED_OUT = SAFEST_BASE * TRIP_STATES + EMERGENCY_LATCHED;

/** NR-44: whatever stands, a reset leaves what the emergency stop or a lost supply latched. Asked of XState itself. */
const huntReset = (machine: AnyStateMachine): Kill | null => {
  for (let base = BASES - 1; base >= 0; base--) {
    if (standingCauses(stateValueOf(base, STARTING)).length === 0) continue;
    const to = askXState(machine, base, EMERGENCY_LATCHED, RESET_TRIP) % TRIP_STATES;
    if (!STOPPED.includes(to - TRIPPED))
      return {
        rule: 'NR-44',
        story: `NR-44: reset accepted from FT-07 in ${JSON.stringify(stateValueOf(base, EMERGENCY_LATCHED))}`,
      };
  }
  return null;
};

/** What a reset comes to where this cause alone stands, from every latch that differs; the true chart refuses it (NR-08, NR-44). */
const resetsOtherwise = (id: string, machine: AnyStateMachine): string | null => {
  const told = (code: number): string => {
    const value = stateValueOf(Math.floor(code / TRIP_STATES), code % TRIP_STATES);
    return `${isTripped(value) ? 'tripped' : 'watching'}${allIsStopped(value) ? ', all stopped' : ''}`;
  };
  for (let base = 0; base < BASES; base++) {
    const standing = standingCauses(stateValueOf(base, STARTING));
    if (standing.length !== 1 || standing[0] !== id) continue;
    for (const trip of [TRIPPED + 1, ...STOPPED.map((index) => TRIPPED + index)]) {
      const [was, is] = [told(base * TRIP_STATES + trip), told(askXState(machine, base, trip, RESET_TRIP))];
      if (was !== is) return `after a reset ${is} instead of ${was}`;
    }
  }
  return null;
};

const withReset = (of: string, broken: string, guard: unknown, id: string | null): Mutation => {
  const { machine } = spaceWith({ 'no cause stands': guard });
  return {
    of,
    broken,
    hunt: () =>
      huntTrip(spaceWith({ 'no cause stands': guard }), ['vapour', 'emergencyStop'], PULLED_OUT) ??
      huntReset(machine),
    ...(id === null ? {} : { differs: () => resetsOtherwise(id, machine) }),
  };
};

const conditionOf = (trip: Trip): readonly Situation[] => trip.tripsWhen;

/** Each situation left out where there are several, and each single state of each. */
const blinded = (trip: Trip): readonly Mutation[] => {
  const situations = conditionOf(trip);
  return situations.flatMap((situation, at): Mutation[] => {
    const others = situations.filter((_, index) => index !== at);
    const whole =
      others.length === 0
        ? []
        : [
            blindTo(
              trip,
              `trip ${trip.id} situation ${at + 1}`,
              `${trip.id} is blind to ${JSON.stringify(situation)}`,
              others,
            ),
          ];
    const states = (Object.entries(situation) as [Region, readonly string[]][]).flatMap(([region, list]) =>
      list.length < 2
        ? []
        : list.map((state) =>
            blindTo(
              trip,
              `trip ${trip.id} situation ${at + 1}`,
              `${trip.id} is blind to ${region} ${state} in situation ${at + 1}`,
              [...others, { ...situation, [region]: list.filter((one) => one !== state) } as Situation],
            ),
          ),
    );
    return [...whole, ...states];
  });
};

const yes = () => true;
const no = () => false;

export const TRIP_MUTATIONS: readonly Mutation[] = [
  ...TRIPS.flatMap((trip) => [
    withGuard(trip, `guard flameInterlock ${trip.id} false`, `trip ${trip.id} never latches`, no),
    withGuard(trip, `guard flameInterlock ${trip.id} true`, `trip ${trip.id} latches without its cause`, yes),
    ...blinded(trip),
  ]),
  withReset('guard flameInterlock no cause stands true', 'a reset is accepted whatever stands', yes, null),
  withReset('guard flameInterlock no cause stands false', 'a reset is never accepted', no, null),
  ...TRIPS.map((trip) =>
    withReset(
      `reset looks at ${trip.id}`,
      `a reset does not look at ${trip.id}`,
      not(or(TRIPS.filter((one) => one !== trip).map((one) => inCondition(conditionOf(one))))),
      trip.id,
    ),
  ),
];
