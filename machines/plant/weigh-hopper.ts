/** The aggregate weigh hopper: stone falling into it, stone in it, its cell and its discharge. */
import { type Aggregate, joined, massKgOf, NO_AGGREGATE, partOf, without } from './aggregate.ts';
import { HOPPER_CELL, type LoadCell, STILL_CELL, stepLoadCell } from './load-cell.ts';
import { lagShare, STEP_S } from './time.ts';

/** Mean time stone is in the air between gate and hopper, s. */
const FALL_SHARE = lagShare(0.4);
/** The last of a hopper runs out with this time constant, s. */
const TAIL_S = 1.2;
/** Less than this falls out or lands at once, kg. */
const CRUMBS_KG = 0.02;
/** A hopper fuller than this share of its capacity blocks the gates above it. */
const BLOCKS_AT = 1.08;

export type WeighHopper = {
  readonly falling: Aggregate;
  readonly heap: Aggregate;
  readonly cell: LoadCell;
  readonly gave: Aggregate;
};

/** An empty hopper with nothing falling into it. */
export const EMPTY_HOPPER: WeighHopper = {
  falling: NO_AGGREGATE,
  heap: NO_AGGREGATE,
  cell: STILL_CELL,
  gave: NO_AGGREGATE,
};

/** Whether stone stands 8 % above the capacity in kg, so that nothing more comes in (teaching value). */
export const hopperBlocked = (hopper: WeighHopper, capacityKg: number): boolean =>
  massKgOf(hopper.heap) + massKgOf(hopper.falling) >= capacityKg * BLOCKS_AT;

/** Adds what a bin gave in this step to the stone in the air. */
export const caught = (hopper: WeighHopper, more: Aggregate): WeighHopper => ({
  falling: joined(hopper.falling, more),
  heap: hopper.heap,
  cell: hopper.cell,
  gave: hopper.gave,
});

/**
 * One step: stone in the air lands, stone leaves at up to dischargeKgS (kg/s) when open, the cell follows
 * (fall and tail: teaching model).
 */
export const stepWeighHopper = (hopper: WeighHopper, open: boolean, dischargeKgS: number): WeighHopper => {
  let { heap, falling } = hopper;
  const airKg = massKgOf(falling);
  if (airKg > 0) {
    const landed = airKg < CRUMBS_KG ? falling : partOf(falling, airKg * FALL_SHARE);
    falling = without(falling, landed);
    heap = joined(heap, landed);
  }
  let gave = NO_AGGREGATE;
  const massKg = massKgOf(heap);
  if (open && massKg > 0) {
    const flowKgS = Math.min(dischargeKgS, massKg / TAIL_S);
    gave = partOf(heap, massKg < CRUMBS_KG ? massKg : flowKgS * STEP_S);
    heap = without(heap, gave);
  }
  const cell = stepLoadCell(hopper.cell, HOPPER_CELL, massKgOf(heap));
  if (heap === hopper.heap && falling === hopper.falling && cell === hopper.cell && gave === hopper.gave)
    return hopper;
  return { falling, heap, cell, gave };
};
