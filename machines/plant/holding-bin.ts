/** The dry holding bin: joins what the drum gives, cools by Newton's law (standard physics), feeds the mixer. */
import type { Opening } from '../field/outputs.ts';
import type { PlantSpec } from '../scenario/plant.schema.ts';
import { type Aggregate, heatKjPerK, joined, massKgOf, NO_AGGREGATE, partOf, without } from './aggregate.ts';
import { HOPPER_CELL, type LoadCell, STILL_CELL, stepLoadCell } from './load-cell.ts';
import { approach, lagShare, STEP_S } from './time.ts';

const GATE_SHARE = lagShare(0.2);
const FAN_UP = lagShare(4);
const FAN_DOWN = lagShare(6);
const TAIL_S = 1.2;
const CRUMBS_KG = 0.02;

export type HoldingBin = {
  readonly heap: Aggregate;
  readonly flowKgS: number;
  readonly fanShare: number;
  readonly cell: LoadCell;
  readonly gave: Aggregate;
};

/** A holding bin with nothing in it, its fan still. */
export const EMPTY_HOLDING_BIN: HoldingBin = {
  heap: NO_AGGREGATE,
  flowKgS: 0,
  fanShare: 0,
  cell: STILL_CELL,
  gave: NO_AGGREGATE,
};

/** Whether the bin stands 2 % above its capacity, so that the drum cannot empty into it (teaching value). */
export const holdingBinBlocked = (bin: HoldingBin, spec: PlantSpec['holdingBin']): boolean =>
  massKgOf(bin.heap) >= spec.capacityKg * 1.02;

/** Conductance to the air in W/K with the fan at a share of its speed. */
export const conductanceWPerK = (spec: PlantSpec['holdingBin'], fanShare: number): number =>
  spec.stillWPerK + (spec.fanWPerK - spec.stillWPerK) * fanShare;

const cooled = (
  heap: Aggregate,
  spec: PlantSpec['holdingBin'],
  fanShare: number,
  airC: number,
): Aggregate => {
  const over = heap.tempC - airC;
  if (heap.stoneKg === 0 || (over < 1e-6 && over > -1e-6)) return heap;
  const part = (conductanceWPerK(spec, fanShare) * STEP_S) / (1000 * heatKjPerK(heap));
  return {
    stoneKg: heap.stoneKg,
    waterKg: heap.waterKg,
    drinkKg: heap.drinkKg,
    tempC: airC + over * Math.exp(-part),
    sizes: heap.sizes,
  };
};

/**
 * One step: stone in from the drum, cooled by Newton's law (standard physics, conductances in W/K), out
 * through the gate in kg/s with a tail (teaching model).
 */
export const stepHoldingBin = (
  bin: HoldingBin,
  spec: PlantSpec['holdingBin'],
  gate: Opening,
  fanRunning: boolean,
  arriving: Aggregate,
  airC: number,
  blocked: boolean,
): HoldingBin => {
  let heap = joined(bin.heap, arriving);
  const fanShare = approach(bin.fanShare, fanRunning ? 1 : 0, fanRunning ? FAN_UP : FAN_DOWN, 1e-3);
  heap = cooled(heap, spec, fanShare, airC);
  const wanted = blocked || gate === 'shut' ? 0 : gate === 'full' ? spec.fullFlowKgS : spec.dribbleKgS;
  const flowKgS = approach(bin.flowKgS, wanted, GATE_SHARE, 0.01);
  let gave = NO_AGGREGATE;
  if (flowKgS > 0) {
    const kg = massKgOf(heap);
    gave = partOf(heap, kg < CRUMBS_KG ? kg : Math.min(flowKgS, kg / TAIL_S) * STEP_S);
    heap = without(heap, gave);
  }
  const cell = stepLoadCell(bin.cell, HOPPER_CELL, massKgOf(heap));
  if (
    heap === bin.heap &&
    fanShare === bin.fanShare &&
    flowKgS === bin.flowKgS &&
    cell === bin.cell &&
    gave === bin.gave
  )
    return bin;
  return { heap, flowKgS, fanShare, cell, gave };
};
