/** Short hand-led sequences on the demo plant: what an operator with two buttons would do. */
import type { Outputs } from '../../machines/field/outputs.ts';
import {
  type AggregatePart,
  batchTargets,
  chargeTargets,
  dryTargets,
} from '../../machines/mix/batch-targets.ts';
import { massKgOf } from '../../machines/plant/aggregate.ts';
import { mixKgOf } from '../../machines/plant/mill-contents.ts';
import type { Plant } from '../../machines/plant/plant.ts';
import { cutbackMix, demoSpec, emulsionMix, run, runUntil } from './demo.ts';

type Base = Partial<Outputs>;
const GATES = ['bin1Gate', 'bin2Gate', 'bin3Gate', 'bin4Gate'] as const;

/** Weighs parts one after the other: full, dribble, settle. */
export const weigh = (start: Plant, parts: readonly AggregatePart[], base: Base): Plant => {
  let plant = start;
  let goalKg = plant.readings.hopperKg;
  for (const part of parts) {
    const gate = GATES[part.bin - 1] ?? 'bin1Gate';
    goalKg += part.wetKg;
    plant = runUntil(plant, { ...base, [gate]: 'full' }, (p) => p.readings.hopperKg >= goalKg - 22, 200);
    plant = runUntil(plant, { ...base, [gate]: 'dribble' }, (p) => p.readings.hopperKg >= goalKg - 1.2, 200);
    plant = run(plant, 2.5, base);
  }
  return plant;
};

const fill = (start: Plant, feed: 'emulsionFeed' | 'cutbackFeed', kg: number, base: Base): Plant => {
  let plant = runUntil(start, { ...base, [feed]: 'full' }, (p) => p.readings.bucketKg >= kg - 3, 200);
  plant = runUntil(plant, { ...base, [feed]: 'dribble' }, (p) => p.readings.bucketKg >= kg - 0.2, 200);
  return plant;
};

export const weighEmulsion = (start: Plant, base: Base): Plant =>
  fill(start, 'emulsionFeed', batchTargets(emulsionMix, demoSpec.bins).binderKg, base);

/** Charges and mixes one emulsion batch up to the moment before its look. */
export const mixEmulsion = (start: Plant): Plant => {
  const mixing = { pugMill: true };
  let plant = weigh(start, batchTargets(emulsionMix, demoSpec.bins).parts, {});
  plant = runUntil(plant, { ...mixing, hopperTo: 'mixer' }, (p) => p.readings.hopperKg < 1, 120);
  plant = run(plant, 30, mixing);
  plant = weighEmulsion(plant, mixing);
  plant = runUntil(plant, { ...mixing, bucketValve: true }, (p) => p.readings.bucketKg < 0.2, 120);
  return run(plant, emulsionMix.times.binderMixS, mixing);
};

export const discharge = (start: Plant, bay: number): Plant => {
  const out = { pugMill: true, mixerGate: true, belt: true, beltToBay: bay };
  return runUntil(start, out, (p) => mixKgOf(p.mill) < 1, 120);
};

const FIRE = { drumFan: true, drumTurn: true } as const;

/** Purges, lights and leaves the burner on low fire with the pilot out. */
export const lightBurner = (start: Plant): Plant => {
  let plant = run(start, 30, FIRE);
  plant = run(plant, 3, { ...FIRE, burnerPilot: true });
  plant = run(plant, 3, { ...FIRE, burnerPilot: true, burnerMain: 'low' });
  return run(plant, 1, { ...FIRE, burnerMain: 'low' });
};

/** Dries charges of 1,000 kg into the holding bin, weighing the next while one dries. */
export const dryCharges = (start: Plant, charges: number): Plant => {
  const { parts } = chargeTargets(cutbackMix, demoSpec.bins, 1000);
  const outC = cutbackMix.drying?.outC ?? 100;
  const low = { ...FIRE, burnerMain: 'low' } as const;
  const high = { ...FIRE, burnerMain: 'high' } as const;
  let plant = weigh(start, parts, low);
  for (let n = 1; n <= charges; n += 1) {
    plant = runUntil(plant, { ...low, hopperTo: 'dryer' }, (p) => p.readings.hopperKg < 1, 120);
    if (n < charges) plant = weigh(plant, parts, high);
    plant = runUntil(plant, high, (p) => p.readings.drumAggregateC >= outC, 900);
    plant = runUntil(plant, { ...low, drumDischarge: true }, (p) => massKgOf(p.dryer.load) < 1, 200);
  }
  return run(plant, 30, FIRE);
};

/** Draws dry aggregate and anti-strip into the mixer and weighs the cutback. */
export const chargeCutback = (start: Plant, base: Base): Plant => {
  const targets = dryTargets(cutbackMix);
  const stopAtKg = start.readings.holdingBinKg - targets.dryKg;
  const dry = (p: Plant, over: number): boolean => p.readings.holdingBinKg <= stopAtKg + over;
  let plant = runUntil(start, { ...base, holdingGate: 'full' }, (p) => dry(p, 20), 200);
  plant = runUntil(plant, { ...base, holdingGate: 'dribble' }, (p) => dry(p, 0), 200);
  const agentKg = plant.readings.antiStripMeterKg + targets.antiStripKg;
  plant = runUntil(
    plant,
    { ...base, antiStripPump: true },
    (p) => p.readings.antiStripMeterKg >= agentKg,
    60,
  );
  return fill(plant, 'cutbackFeed', targets.binderKg, base);
};

/** A whole cutback batch, mixed for the binder time of the mix. */
export const mixCutback = (start: Plant, hoodFan = true): Plant => {
  const base = { pugMill: true, hoodFan };
  const charged = chargeCutback(start, base);
  const poured = runUntil(charged, { ...base, bucketValve: true }, (p) => p.readings.bucketKg < 0.2, 120);
  return run(poured, cutbackMix.times.binderMixS, base);
};

/** The plant with so many kg of dry stone, in the shares of the cutback mix, in its holding bin. */
export const withDryStone = (plant: Plant, kg: number, tempC: number): Plant => {
  const sizes = { bin2: 0.35, bin3: 0.15, bin4: 0 };
  const heap = { stoneKg: kg, waterKg: 0, drinkKg: 0, tempC, sizes };
  return run({ ...plant, holdingBin: { ...plant.holdingBin, heap } }, 5, {});
};
