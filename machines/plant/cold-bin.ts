/**
 * A cold bin of damp aggregate with a feed gate.
 *
 * Teaching model: flow follows the gate with a short lag, and each opening flows a few per cent more
 * or less than the last, as real stone does; rain soaks the bin evenly.
 */
import type { Opening } from '../field/outputs.ts';
import type { BinSpec } from '../scenario/plant.schema.ts';
import { type Aggregate, joined, massKgOf, NO_AGGREGATE, partOf, without } from './aggregate.ts';
import { ALL_BIN_1, FROM_BIN } from './sizes.ts';
import { approach, lagShare, STEP_S } from './time.ts';

const GATE_SHARE = lagShare(0.2);
/** m², rain caught by one open bin (invented size). */
const MOUTH_M2 = 4;
/** % of dry mass: wetter than this, rain runs through. */
const SOAKED_PCT = 10;
/** Time constant with which a bin follows the air, s (teaching value: damp heaps are slow). */
const AIR_TAU_S = 6 * 3600;
/** Share by which the flow of one opening may differ from the nominal. */
const FLOW_SPREAD = 0.04;

export type ColdBin = {
  readonly heap: Aggregate;
  readonly flowKgS: number;
  /** Flow of this opening against nominal, drawn when the gate leaves shut. */
  readonly flowFactor: number;
  /** What left through the gate in this step. */
  readonly gave: Aggregate;
};

const filled = (spec: BinSpec, place: number, massKg: number, tempC: number): Aggregate => {
  const stoneKg = massKg / (1 + spec.trueMoisturePct / 100);
  return {
    stoneKg,
    waterKg: (stoneKg * spec.trueMoisturePct) / 100,
    drinkKg: (stoneKg * spec.absorptionPct) / 100,
    tempC,
    sizes: FROM_BIN[place] ?? ALL_BIN_1,
  };
};

/** `place` counts from 0. */
export const createColdBin = (spec: BinSpec, place: number, airC: number): ColdBin => ({
  heap: filled(spec, place, Math.min(spec.startKg, spec.capacityKg), airC),
  flowKgS: 0,
  flowFactor: 1,
  gave: NO_AGGREGATE,
});

/** Tops a bin up to its capacity with stone at its true moisture and the temperature of the air. */
export const refilled = (bin: ColdBin, spec: BinSpec, place: number, airC: number): ColdBin => {
  const roomKg = spec.capacityKg - massKgOf(bin.heap);
  return roomKg > 0 ? { ...bin, heap: joined(bin.heap, filled(spec, place, roomKg, airC)) } : bin;
};

/** Level in % of the capacity, by mass. */
export const levelPctOf = (bin: ColdBin, spec: BinSpec): number =>
  (100 * massKgOf(bin.heap)) / spec.capacityKg;

/** `draw` is a random number from −1 to 1, used only when the gate leaves shut. */
export const stepColdBin = (
  bin: ColdBin,
  spec: BinSpec,
  gate: Opening,
  blocked: boolean,
  draw: number,
): ColdBin => {
  const shut = gate === 'shut' || blocked;
  if (shut && bin.flowKgS === 0) return bin.gave.stoneKg === 0 ? bin : { ...bin, gave: NO_AGGREGATE };
  const opening = bin.flowKgS === 0;
  const flowFactor = opening ? 1 + FLOW_SPREAD * draw : bin.flowFactor;
  const wantedKgS = shut ? 0 : (gate === 'full' ? spec.fullFlowKgS : spec.dribbleKgS) * flowFactor;
  const flowKgS = approach(bin.flowKgS, wantedKgS, GATE_SHARE, 0.01);
  const gave = partOf(bin.heap, flowKgS * STEP_S);
  return { heap: without(bin.heap, gave), flowKgS, flowFactor, gave };
};

/** Rain and air over a number of seconds; called seldom. */
export const weathered = (bin: ColdBin, airC: number, mmH: number, seconds: number): ColdBin => {
  const { heap } = bin;
  const soaked = heap.waterKg * 100 >= heap.stoneKg * SOAKED_PCT;
  const rainKg = soaked ? 0 : (mmH * MOUTH_M2 * seconds) / 3600;
  const tempC = heap.tempC + ((airC - heap.tempC) * seconds) / AIR_TAU_S;
  return {
    ...bin,
    heap: { ...heap, waterKg: heap.waterKg + rainKg, tempC },
  };
};
