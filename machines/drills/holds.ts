/** Whether a condition of a drill holds now. */
import { alarmState } from '../charts/alarm/alarm.guards.ts';
import type { Signal } from '../charts/signals.ts';
import type { Tag } from '../field/tags.ts';
import { type ChartId, TICK_MS } from '../line/line.types.ts';
import { batchValue, campaignState, chartValue } from '../line/lookup.ts';
import { drumFuelLelPct } from '../plant/burner-flame.ts';
import { hoodLelPct } from '../plant/hood.ts';
import { mixKgOf } from '../plant/mill-contents.ts';
import type { Plant } from '../plant/plant.types.ts';
import type { World } from '../world/world.ts';
import type { Condition, TruthName } from './condition.schema.ts';
import type { ExpectedState, IncidentState } from './run.types.ts';

/** What conditions are asked of: the world, and how far the drill has come. */
export type Standing = {
  readonly world: World;
  readonly startTick: number;
  readonly incidents: readonly IncidentState[];
  readonly expected: readonly ExpectedState[];
  readonly told: { readonly [fact: string]: number };
};

/** Truth about the simulated plant by name; the unit stands in the name, yes and no are 1 and 0. */
export const truthNow = (plant: Plant, of: TruthName): number => {
  switch (of) {
    case 'hoodLelPct':
      return hoodLelPct(plant.hood, plant.spec.hood.volumeM3);
    case 'solventInMixKg':
      return plant.mill.solventKg;
    case 'otherBinderKg':
      return Math.max(plant.emulsionTank.otherKg, plant.cutbackTank.otherKg);
    case 'dryerFlame':
      return plant.dryer.burner.mainLit || plant.dryer.burner.pilotLit ? 1 : 0;
    case 'drumFuelLelPct':
      return drumFuelLelPct(plant.dryer.burner, plant.spec.dryer.drumVolumeM3);
    case 'puffs':
      return plant.dryer.burner.puffs;
    case 'coatedPct':
      return 100 * plant.mill.coatedShare;
    case 'mixFreeWaterPct':
      return plant.mill.stoneKg > 0 ? (100 * plant.mill.freeKg) / plant.mill.stoneKg : 0;
    case 'mixKg':
      return mixKgOf(plant.mill);
    case 'holdingBinC':
      return plant.holdingBin.heap.tempC;
    case 'emulsionTankC':
      return plant.emulsionTank.tempC;
    case 'cutbackTankC':
      return plant.cutbackTank.tempC;
    case 'wasteKg':
      return plant.books.laidKg[0] ?? 0;
  }
};

const within = (
  value: number,
  bounds: { readonly above?: number | undefined; readonly below?: number | undefined },
) =>
  (bounds.above === undefined || value > bounds.above) &&
  (bounds.below === undefined || value < bounds.below);

/** Names of a nested state, so that `held` and `running` are both found. */
const isIn = (value: unknown, names: readonly string[]): boolean =>
  typeof value === 'string'
    ? names.includes(value)
    : typeof value === 'object' &&
      value !== null &&
      Object.entries(value).some(([name, inner]) => names.includes(name) || isIn(inner, names));

export const holds = (one: Condition, standing: Standing): boolean => {
  const { world } = standing;
  const { line } = world;
  switch (one.is) {
    case 'after':
      return (world.tick - standing.startTick) * TICK_MS >= one.seconds * 1000;
    case 'signal':
      return line.signals[one.signal as Signal] === one.on;
    case 'step':
      return one.in.includes(batchValue(line).step) === one.on;
    case 'procedure':
      return one.in.includes(batchValue(line).procedure) === one.on;
    case 'stage':
      return isIn(campaignState(line), one.in) === one.on;
    case 'reading':
      return within(line.readings[one.tag as Tag], one);
    case 'truth':
      return within(truthNow(world.plant, one.of), one);
    case 'alarm':
      return one.in.includes(alarmState(chartValue(line, `alarm:${one.alarm}` as ChartId) as never));
    case 'batches':
      return (standing.told.batchDischarged ?? 0) >= one.made;
    case 'dumped':
      return (standing.told.batchDumped ?? 0) >= one.least;
    case 'fact':
      return (standing.told[one.fact] ?? 0) >= one.least === one.on;
    case 'incident': {
      const state = standing.incidents.find((incident) => incident.id === one.id);
      const is = state !== undefined && (one.mended ? state.toTick !== null : state.fromTick !== null);
      return is === one.on;
    }
    case 'met':
      return standing.expected.some((state) => state.id === one.id && state.metTick !== null) === one.on;
    case 'order':
      return (line.order === one.order) === one.on;
  }
};

/** True when every one holds; an empty list always does. */
export const allHold = (list: readonly Condition[], standing: Standing): boolean => {
  for (const one of list) if (!holds(one, standing)) return false;
  return true;
};
