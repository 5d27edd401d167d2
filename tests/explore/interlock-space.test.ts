/** The numbers the flame interlock is explored by are what XState itself does. */
import { describe, expect, it } from 'vitest';
import { transition } from 'xstate';
import { REGIONS } from '../../machines/charts/flame-interlock/flame-interlock.regions.ts';
import { TRIPS } from '../../machines/charts/flame-interlock/flame-interlock.trips.ts';
import type { ChartTable } from './chart-table.ts';
import { interlockSpace, MACHINES } from './charts.ts';
import { FREES, freeOf } from './free-regions.ts';
import { READY } from './interlock-model.ts';
import {
  askXState,
  BASES,
  codeOf,
  FREE,
  INTERLOCK_EVENTS,
  interlockNext,
  stateValueOf,
  TRIP_STATES,
} from './interlock-space.ts';
import { endlessOffer } from './settling.ts';

type Config = { states: Record<string, { initial: string; states: Record<string, Leaf> }> };
type Leaf = { on?: Record<string, unknown>; after?: Record<string, unknown>; always?: unknown };
const config = MACHINES.interlock.config as unknown as Config;

describe('flame interlock by numbers', () => {
  it('every region but the trip follows its signals alone: no guard, no way into another region', () => {
    for (const [name, region] of Object.entries(config.states)) {
      if (name === 'trip') continue;
      for (const leaf of Object.values(region.states)) {
        expect(leaf.always).toBeUndefined();
        for (const target of Object.values({ ...leaf.on, ...leaf.after }))
          expect(Object.keys(region.states), name).toContain(target);
      }
    }
  });

  it('regions and states of the data are those of the chart, each starting at its unsafe side', () => {
    expect(Object.keys(config.states)).toEqual(Object.keys(REGIONS));
    for (const [name, states] of Object.entries(REGIONS)) {
      expect([...states].sort()).toEqual(Object.keys(config.states[name]?.states ?? {}).sort());
      expect(config.states[name]?.initial).toBe(states[0]);
    }
  });

  it('no trip looks at the free regions, and what the trip does in XState does not hang on them', () => {
    for (const trip of TRIPS)
      for (const situation of trip.tripsWhen as readonly Record<string, unknown>[])
        for (const region of FREE) expect(situation[region], `${trip.id} ${region}`).toBeUndefined();
    const machine = MACHINES.interlock;
    const asked = (base: number, trip: number, bits: number, type: string): unknown => {
      const value = stateValueOf(base, trip, freeOf(bits));
      const [to] = transition(machine, machine.resolveState({ value, context: {} } as never), { type });
      return (to.value as { trip: unknown }).trip;
    };
    for (let base = 0; base < BASES; base += 331)
      for (const [trip, type] of [
        [0, 'line.signalsKnown'],
        [2, 'operator.resetTrip'],
      ] as const)
        expect(asked(base, trip, 0, type)).toEqual(asked(base, trip, FREES - 1, type));
  });

  it('a state and its number are one and the same', () => {
    for (let code = 0; code < BASES * TRIP_STATES; code += 37)
      expect(codeOf(stateValueOf(Math.floor(code / TRIP_STATES), code % TRIP_STATES))).toBe(code);
  });

  it('4,000 transitions drawn with a fixed seed are as XState makes them', { timeout: 120_000 }, () => {
    const space = interlockSpace();
    let seed = 20_261;
    const draw = (below: number): number => {
      seed = (Math.imul(seed, 1_103_515_245) + 12_345) >>> 0;
      return Math.floor((seed / 4_294_967_296) * below);
    };
    // Short walks from the start and from where work can go on: all states on them are reachable. Timers that are not pending change nothing in either.
    let code = space.start;
    for (let step = 0; step < 4000; step++) {
      if (step % 20 === 0) code = step % 100 === 0 ? space.start : READY;
      const event = draw(INTERLOCK_EVENTS.length);
      const base = Math.floor(code / TRIP_STATES);
      const trip = code % TRIP_STATES;
      const next = interlockNext(space, code, event);
      const asked = askXState(MACHINES.interlock, base, trip, event);
      if (asked !== next)
        expect.fail(
          `seed 20261 step ${step}: ${INTERLOCK_EVENTS[event]} in ${JSON.stringify(stateValueOf(base, trip))}`,
        );
      code = next;
    }
  });

  it('NR-15 offering signals as they stand always settles: each region of the interlock', () => {
    for (const [name, region] of Object.entries(config.states)) {
      if (name === 'trip') continue;
      const names = Object.keys(region.states);
      const events = [...new Set(names.flatMap((state) => Object.keys(region.states[state]?.on ?? {})))];
      const next = Int16Array.from(
        names.flatMap((state, index) =>
          events.map((type) => {
            const target = region.states[state]?.on?.[type];
            return typeof target === 'string' ? names.indexOf(target) : index;
          }),
        ),
      );
      const table: ChartTable = { values: names, names, events, next };
      expect(endlessOffer(table), name).toBeNull();
    }
  });
});
