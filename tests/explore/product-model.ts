/**
 * Flame interlock, burner and gate together: every signal free to change at any time, every timer free to
 * run out at any time, and everything asked of the gate in every combination at every moment.
 */
import { burnerDemands, burnerMayAdmitFuel } from '../../machines/charts/burner/burner.guards.ts';
import type { ChartValue } from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import type { ChartTable } from './chart-table.ts';
import type { Model, Rule } from './explorer.ts';
import { type GateVerdicts, VERDICTS } from './gate-space.ts';
import {
  BASES,
  INTERLOCK_EVENTS,
  type InterlockSpace,
  stateValueOf,
  TRIP_STATES,
  TRIPPED,
  tripAfter,
  withSafest,
} from './interlock-space.ts';
import { NEVER } from './never-rules.ts';

/** What a watcher knows of the purge since lighting was asked for. */
const NOT_COUNTED = 0;
const COUNTING = 1;
const COMPLETED = 2;

const topOf = (name: string): string =>
  name.startsWith('{') ? (name.split('"')[1] ?? '') : JSON.parse(name);

/** Starts as the line starts, or, to find a breach sooner, from `startCode` of the interlock. */
export const productModel = (
  space: InterlockSpace,
  burner: ChartTable,
  verdicts: GateVerdicts,
  startCode = space.start,
): Model => {
  const burners = burner.names.length;
  // A lost supply trips by itself, as the emergency stop does, and the burner hears of neither: every state of the
  // burner beside it is met beside the emergency stop, and the gate is judged with it in gate-space.ts. Left out here.
  const startBase = withSafest(Math.floor(startCode / TRIP_STATES), 'power');
  const startTrip = Math.min(TRIPPED, startCode % TRIP_STATES);
  const heard = INTERLOCK_EVENTS.filter((type) => !type.endsWith('.powerOk'));
  const interlockEvent = heard.map((type) => INTERLOCK_EVENTS.indexOf(type));
  const events = [...heard, ...burner.events.filter((type) => !heard.includes(type))];
  const burnerEvent = events.map((type) => burner.events.indexOf(type));
  const tops = burner.names.map(topOf);
  const admits = burner.values.map((value): 0 | 1 => (burnerMayAdmitFuel(value) ? 1 : 0));
  const is = (type: string): number => events.indexOf(type);
  const [onPurged, offPurged, onFlame, offFuel, offAir] = [
    is('on.purged'),
    is('off.purged'),
    is('on.flameSeen'),
    is('off.fuelShut'),
    is('off.drumFanProved'),
  ];

  const watch = (purge: number, event: number, before: number, after: number): number => {
    if (event === onFlame || event === offFuel || event === offAir) return NOT_COUNTED;
    if (tops[before] !== 'purging' && tops[after] === 'purging') return NOT_COUNTED;
    if (event === offPurged) return COUNTING;
    if (event === onPurged) return purge === NOT_COUNTED ? NOT_COUNTED : COMPLETED;
    return purge;
  };

  const burnerOf = (state: number): number => Math.floor(state / 3) % burners;
  const interlockOf = (state: number): number => Math.floor(state / 3 / burners);
  const gateRules = VERDICTS.map(
    (id, bit): Rule => ({
      id,
      says: NEVER[id],
      ofState: true,
      broken: (_from, _event, to) => {
        const interlock = interlockOf(to);
        const verdict = verdicts(Math.floor(interlock / 3), interlock % 3, admits[burnerOf(to)] as 0 | 1);
        return (verdict & (1 << bit)) !== 0;
      },
    }),
  );

  return {
    name: 'flame interlock × burner × gate',
    size: BASES * 3 * burners * 3,
    start: (startBase * 3 + startTrip) * burners * 3,
    events,
    next: (state, event) => {
      const interlock = interlockOf(state);
      const before = burnerOf(state);
      const base = Math.floor(interlock / 3);
      const kind = interlock % 3;
      let to = base;
      let trip = kind;
      const heardAs = interlockEvent[event];
      if (heardAs !== undefined) {
        to = space.follow[heardAs * BASES + base] as number;
        trip = Math.min(TRIPPED, tripAfter(space, base, kind, heardAs, to));
      }
      const own = burnerEvent[event] as number;
      const after = own < 0 ? before : (burner.next[before * burner.events.length + own] as number);
      return ((to * 3 + trip) * burners + after) * 3 + watch(state % 3, event, before, after);
    },
    describe: (state) =>
      `burner ${burner.names[burnerOf(state)]} · interlock ${JSON.stringify(
        stateValueOf(Math.floor(interlockOf(state) / 3), interlockOf(state) % 3),
      )}`,
    charts: (state) => ({
      interlock: stateValueOf(Math.floor(interlockOf(state) / 3), interlockOf(state) % 3),
      burner: burner.values[burnerOf(state)] as ChartValue,
    }),
    rules: [
      ...gateRules,
      {
        id: 'NR-07',
        says: NEVER['NR-07'],
        broken: (from, _event, to) =>
          admits[burnerOf(from)] === 0 && admits[burnerOf(to)] === 1 && to % 3 !== COMPLETED,
      },
    ],
  };
};

/** The burner chart alone. */
export const burnerModel = (burner: ChartTable): Model => {
  const tops = burner.names.map(topOf);
  const admits = burner.values.map(burnerMayAdmitFuel);
  const asksFuel = burner.values.map((value) => {
    const demands = burnerDemands(value);
    return demands.burnerPilot || demands.burnerMain !== 'shut';
  });
  /** Fuel asked for with no flame heard of: only until its timer, which leads to a lockout. */
  const waitsUnlit = (state: number): boolean =>
    tops[state] === 'pilotTrial' || (burner.names[state] as string).includes('"lost"');
  const fallsOut = (state: number): boolean =>
    burner.events.some(
      (type, event) =>
        /^xstate\.after\.(trialForIgnition|flameFailure)\./.test(type) &&
        tops[burner.next[state * burner.events.length + event] as number] === 'lockedOut',
    );
  return {
    name: 'burner',
    size: burner.names.length,
    start: 0,
    events: burner.events,
    next: (state, event) => burner.next[state * burner.events.length + event] as number,
    describe: (state) => burner.names[state] as string,
    charts: (state) => ({ burner: burner.values[state] as ChartValue }),
    rules: [
      {
        id: 'NR-06',
        says: NEVER['NR-06'],
        ofState: true,
        broken: (_from, _event, to) => (asksFuel[to] as boolean) && !admits[to],
      },
      {
        id: 'NR-10',
        says: NEVER['NR-10'],
        broken: (from, event, to) =>
          tops[from] === 'lockedOut' &&
          tops[to] !== 'lockedOut' &&
          (burner.events[event] !== 'operator.resetBurner' || tops[to] !== 'postPurging'),
      },
      {
        id: 'NR-37',
        says: NEVER['NR-37'],
        ofState: true,
        broken: (_from, _event, to) => asksFuel[to] === true && waitsUnlit(to) && !fallsOut(to),
      },
    ],
  };
};
