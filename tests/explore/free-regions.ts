/** The regions of the flame interlock no trip looks at: each follows the last edge of its own signal, whatever else happens. */
import { type AnyMachineSnapshot, type AnyStateMachine, transition } from 'xstate';
import type { ChartValue } from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { REGIONS } from '../../machines/charts/flame-interlock/flame-interlock.regions.ts';
import type { Model } from './explorer.ts';
import {
  FREE,
  FREE_SIGNALS,
  type FreeRegion,
  SAFEST_BASE,
  stateValueOf,
  WATCHING,
} from './interlock-space.ts';
import { NEVER } from './never-rules.ts';

/** Combinations of the free regions. */
export const FREES = 1 << FREE.length;

/** States of the free regions by bits: a bit set means its region at the safe side. */
export const freeOf = (bits: number): { readonly [R in FreeRegion]: string } =>
  Object.fromEntries(FREE.map((region, bit) => [region, REGIONS[region][bits & (1 << bit) ? 1 : 0]])) as {
    [R in FreeRegion]: string;
  };

const bitsOf = (value: ChartValue): number =>
  FREE.reduce(
    (bits, region, bit) =>
      typeof value !== 'string' && value[region] === REGIONS[region][1] ? bits | (1 << bit) : bits,
    0,
  );

export const freeModel = (machine: AnyStateMachine): Model => {
  const events = FREE.flatMap((region) => {
    const { signal } = FREE_SIGNALS[region];
    return [`on.${signal}`, `off.${signal}`];
  });
  const after = (bits: number, type: string): number => {
    const value = stateValueOf(SAFEST_BASE, WATCHING, freeOf(bits));
    const snapshot = machine.resolveState({ value, context: {} } as never) as AnyMachineSnapshot;
    return bitsOf(transition(machine, snapshot, { type })[0].value as ChartValue);
  };
  const known = Array.from({ length: FREES }, (_, bits) => events.map((type) => after(bits, type)));
  return {
    name: 'flame interlock, regions no trip looks at',
    size: FREES * FREES,
    start: 0,
    events,
    // What was last heard beside what the chart made of it.
    next: (state, event) => {
      const region = FREE[event >> 1] as FreeRegion;
      const safe = (event % 2 === 0) === FREE_SIGNALS[region].safeOn;
      const mask = 1 << (event >> 1);
      const heard = state % FREES;
      return (
        (known[Math.floor(state / FREES)]?.[event] as number) * FREES + (safe ? heard | mask : heard & ~mask)
      );
    },
    describe: (state) => JSON.stringify(freeOf(Math.floor(state / FREES))),
    charts: (state) => ({
      interlock: stateValueOf(SAFEST_BASE, WATCHING, freeOf(Math.floor(state / FREES))),
    }),
    rules: [
      {
        id: 'NR-30',
        says: NEVER['NR-30'],
        ofState: true,
        broken: (_from, _event, to) => (Math.floor(to / FREES) & ~(to % FREES)) !== 0,
      },
    ],
  };
};
export const FREE_READY = (FREES - 1) * FREES + FREES - 1;
