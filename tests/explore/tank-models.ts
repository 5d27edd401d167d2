/**
 * The tank interlocks: each alone, each with its heater and the gate, and the gate beside both in every combination.
 * They share no region with the flame interlock, so its states need not be multiplied by theirs.
 */
import type { ChartValue } from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { REGIONS, type Region } from '../../machines/charts/flame-interlock/flame-interlock.regions.ts';
import type { TankId } from '../../machines/charts/tank-heater/tank-heater.events.ts';
import { tankHeaterDemands } from '../../machines/charts/tank-heater/tank-heater.guards.ts';
import { TANK_REGIONS, type TankRegion } from '../../machines/charts/tank-interlock/tank-interlock.causes.ts';
import { tankInterlockSignals } from '../../machines/charts/tank-interlock/tank-interlock.events.ts';
import { tankMayAskForHeat } from '../../machines/charts/tank-interlock/tank-interlock.guards.ts';
import { AT_REST, type Outputs } from '../../machines/field/outputs.ts';
import { GATE_RULES, type GateRules, gate, type TankValues } from '../../machines/line/gate.ts';
import type { ChartTable } from './chart-table.ts';
import type { Model } from './explorer.ts';
import { NEVER } from './never-rules.ts';

const REGION_NAMES = Object.keys(TANK_REGIONS) as readonly TankRegion[];

const tankWith = (bits: number): ChartValue =>
  Object.fromEntries(
    REGION_NAMES.map((region, bit) => [region, TANK_REGIONS[region][bits & (1 << bit) ? 1 : 0]]),
  );

/** Combinations of the regions of one tank interlock. */
export const TANK_STATES = 1 << REGION_NAMES.length;
/** By bits: a bit set means its region at the safe side. */
export const TANK_VALUES: readonly ChartValue[] = Array.from({ length: TANK_STATES }, (_, bits) =>
  tankWith(bits),
);
export const TANK_SAFE = TANK_VALUES[TANK_STATES - 1] as ChartValue;
export const TANKS_SAFE: TankValues = { emulsion: TANK_SAFE, cutback: TANK_SAFE };

/** A flame interlock with nothing against anything. */
export const INTERLOCK_SAFE: ChartValue = {
  ...Object.fromEntries(
    (Object.keys(REGIONS) as Region[]).map((region) => [region, REGIONS[region].at(-1) as string]),
  ),
  trip: 'watching',
};

const HEAT: Outputs = { ...AT_REST, oilPump: true, oilBurner: true, emulsionCoil: true, cutbackCoil: true };

const bitOf = (region: TankRegion): number => 1 << REGION_NAMES.indexOf(region);
const FIRE_BITS = bitOf('flow') | bitOf('vent');

/** The gate beside every combination of both tank interlocks, everything asked for: breaches in words. */
export const tankGateSweep = (
  rules: GateRules = GATE_RULES,
  most = Number.POSITIVE_INFINITY,
): { readonly judged: number; readonly breaches: readonly string[] } => {
  const breaches: string[] = [];
  for (let e = 0; e < TANK_STATES; e++)
    for (let c = 0; c < TANK_STATES && breaches.length < most; c++) {
      const tanks = { emulsion: TANK_VALUES[e] as ChartValue, cutback: TANK_VALUES[c] as ChartValue };
      const { outputs } = gate(HEAT, INTERLOCK_SAFE, 'off', tanks, rules);
      const told = (): string => JSON.stringify(tanks);
      if (outputs.emulsionCoil !== (e === TANK_STATES - 1)) breaches.push(`NR-33 emulsion: ${told()}`);
      if (outputs.cutbackCoil !== (c === TANK_STATES - 1)) breaches.push(`NR-33 cutback: ${told()}`);
      if (outputs.oilBurner !== ((e & FIRE_BITS) === FIRE_BITS && (c & FIRE_BITS) === FIRE_BITS))
        breaches.push(`NR-34: ${told()}`);
    }
  return { judged: TANK_STATES * TANK_STATES, breaches };
};

/**
 * One tank: its interlock hears any edge at any time, its heater any of its events; the word of the interlock
 * reaches the heater as late as it likes. Heat and fire are asked of the gate at every moment.
 */
export const tankSafetyModel = (
  tank: TankId,
  interlock: ChartTable,
  heater: ChartTable,
  rules: GateRules = GATE_RULES,
): Model => {
  const heaters = heater.names.length;
  const signals = tankInterlockSignals(tank);
  // Both edges of every signal, whether this interlock listens to them or not.
  const edges = REGION_NAMES.flatMap((region) => [
    `on.${signals[region].signal}`,
    `off.${signals[region].signal}`,
  ]);
  const own = heater.events.filter((type) => !edges.includes(type) && !type.endsWith('MayHeat'));
  const events = [...edges, ...own, 'the heater hears the tank interlock'];
  const WORD = events.length - 1;
  const inInterlock = events.map((type) => interlock.events.indexOf(type));
  const inHeater = events.map((type) => heater.events.indexOf(type));
  const allowed = heater.events.indexOf(`on.${tank}MayHeat`);
  const forbidden = heater.events.indexOf(`off.${tank}MayHeat`);
  const heaterAfter = (state: number, event: number): number =>
    event < 0 ? state : (heater.next[state * heater.events.length + event] as number);
  /** Bits of what was last heard, safe edge or not; unsafe before any. */
  const moves = events.map((type) => {
    const bit = REGION_NAMES.findIndex((region) => type.endsWith(`.${signals[region].signal}`));
    if (bit < 0) return null;
    const { safeOn } = signals[REGION_NAMES[bit] as TankRegion];
    return { mask: 1 << bit, safe: type.startsWith('on.') === safeOn };
  });
  const split = (state: number) => ({
    heard: state % TANK_STATES,
    chart: Math.floor(state / TANK_STATES) % interlock.names.length,
    heating: Math.floor(state / TANK_STATES / interlock.names.length),
  });
  const pack = (heating: number, chart: number, heard: number): number =>
    (heating * interlock.names.length + chart) * TANK_STATES + heard;
  const coil = `${tank}Coil` as const;
  /** Let through when heat and fire are asked for, whatever the heater itself asks for. */
  const outputs = (state: number): Outputs => {
    const wanted: Outputs = { ...AT_REST, oilBurner: true, [coil]: true };
    const tanks = { ...TANKS_SAFE, [tank]: interlock.values[split(state).chart] ?? '' };
    return gate(wanted, INTERLOCK_SAFE, 'off', tanks, rules).outputs;
  };
  return {
    name: `${tank} tank interlock × heater × gate`,
    size: heaters * interlock.names.length * TANK_STATES,
    start: 0,
    events,
    next: (state, event) => {
      const { heard, chart, heating } = split(state);
      if (event === WORD) {
        const may = tankMayAskForHeat(interlock.values[chart] ?? '');
        return pack(heaterAfter(heating, may ? allowed : forbidden), chart, heard);
      }
      const heardAs = inInterlock[event] as number;
      const to = heardAs < 0 ? chart : (interlock.next[chart * interlock.events.length + heardAs] as number);
      const moved = moves[event];
      const mask = moved == null ? heard : moved.safe ? heard | moved.mask : heard & ~moved.mask;
      return pack(heaterAfter(heating, inHeater[event] as number), to, mask);
    },
    describe: (state) => {
      const { chart, heating } = split(state);
      return `heater ${heater.names[heating]} · interlock ${interlock.names[chart]}`;
    },
    charts: (state) => {
      const { chart, heating } = split(state);
      return {
        [`${tank}TankInterlock`]: interlock.values[chart],
        [`${tank}Tank`]: heater.values[heating],
      };
    },
    rules: [
      {
        id: 'NR-33',
        says: NEVER['NR-33'],
        ofState: true,
        broken: (_from, _event, to) => outputs(to)[coil] && split(to).heard !== TANK_STATES - 1,
      },
      {
        id: 'NR-34',
        says: NEVER['NR-34'],
        ofState: true,
        broken: (_from, _event, to) => outputs(to).oilBurner && (split(to).heard & FIRE_BITS) !== FIRE_BITS,
      },
    ],
  };
};

/** The coil really is let through: what must stay within reach from everywhere. */
export const heats = (tank: TankId, interlock: ChartTable, heater: ChartTable) => {
  const safe = interlock.names.findIndex((_, index) =>
    REGION_NAMES.every(
      (region) => (interlock.values[index] as Record<string, string>)[region] === TANK_REGIONS[region][1],
    ),
  );
  return (state: number): boolean => {
    const chart = Math.floor(state / TANK_STATES) % interlock.names.length;
    const heating = Math.floor(state / TANK_STATES / interlock.names.length);
    return chart === safe && tankHeaterDemands(tank, heater.values[heating] ?? 'off')[`${tank}Coil`] === true;
  };
};
