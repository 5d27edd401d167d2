/** The demo plant and its mixes, read from the scenario files, for plant tests. */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { AT_REST, type FieldAsk, type Outputs } from '../../machines/field/outputs.ts';
import { createPlant, type Plant, stepPlant } from '../../machines/plant/plant.ts';
import { type Mix, mixSchema } from '../../machines/scenario/mix.schema.ts';
import { type PlantSpec, plantSchema } from '../../machines/scenario/plant.schema.ts';
import type { Weather } from '../../machines/scenario/shift.schema.ts';

const read = (path: string): unknown =>
  parse(readFileSync(new URL(`../../scenarios/${path}`, import.meta.url), 'utf8'));

export const demoSpec: PlantSpec = plantSchema.parse(read('plants/demo-yard.yaml'));
export const emulsionMix: Mix = mixSchema.parse(read('mixes/emulsion-patch.yaml'));
export const cutbackMix: Mix = mixSchema.parse(read('mixes/cutback-patch.yaml'));
export const coldMix: Mix = mixSchema.parse(read('mixes/emulsion-cold-weather.yaml'));
export const mixes: readonly Mix[] = [emulsionMix, cutbackMix, coldMix];

/** 18 °C all day and dry. */
export const steady18: Weather = { startC: 18, warmestC: 18, rain: [] };

export const demoPlant = (seed = 1, weather: Weather = steady18, spec: PlantSpec = demoSpec): Plant =>
  createPlant({ spec, mixes, weather, startsAtMin: 7 * 60, seed });

const NO_ASKS: readonly FieldAsk[] = [];

/** Runs for a number of seconds with these outputs beside everything shut. */
export const run = (
  plant: Plant,
  seconds: number,
  outputs: Partial<Outputs>,
  asks: readonly FieldAsk[] = NO_ASKS,
): Plant => {
  const all = { ...AT_REST, ...outputs };
  let next = stepPlant(plant, all, asks);
  for (let i = 1; i < Math.round(seconds * 10); i += 1) next = stepPlant(next, all, NO_ASKS);
  return next;
};

/** Runs until a condition holds, or throws after so many seconds. */
export const runUntil = (
  plant: Plant,
  outputs: Partial<Outputs>,
  done: (plant: Plant) => boolean,
  longestS: number,
): Plant => {
  const all = { ...AT_REST, ...outputs };
  let next = plant;
  for (let i = 0; i < longestS * 10; i += 1) {
    if (done(next)) return next;
    next = stepPlant(next, all, NO_ASKS);
  }
  throw new Error(`not reached within ${longestS} s`);
};

export const secondsBetween = (from: Plant, to: Plant): number => (to.tick - from.tick) / 10;
