/** A heap of stone and the water in it, with one temperature: parted and joined without losing a gram. */
import { STONE_CP_KJ_KG_K, WATER_CP_KJ_KG_K } from '../mix/published.ts';
import { ALL_BIN_1, blended, type Sizes } from './sizes.ts';

export type Aggregate = {
  readonly stoneKg: number;
  readonly waterKg: number;
  /** Water the stone can drink, kg; water beyond it is free. */
  readonly drinkKg: number;
  readonly tempC: number;
  readonly sizes: Sizes;
};

/** An empty heap. */
export const NO_AGGREGATE: Aggregate = { stoneKg: 0, waterKg: 0, drinkKg: 0, tempC: 15, sizes: ALL_BIN_1 };

/** Mass of a heap with its water, kg. */
export const massKgOf = (heap: Aggregate): number => heap.stoneKg + heap.waterKg;

/** Heat capacity in kJ/K. */
export const heatKjPerK = (heap: Aggregate): number =>
  heap.stoneKg * STONE_CP_KJ_KG_K + heap.waterKg * WATER_CP_KJ_KG_K;

/** Part of a heap of so many kg in all (the whole heap when that is as much or more). */
export const partOf = (heap: Aggregate, kg: number): Aggregate => {
  const mass = heap.stoneKg + heap.waterKg;
  if (kg >= mass) return heap;
  if (!(kg > 0)) return NO_AGGREGATE;
  const share = kg / mass;
  return {
    stoneKg: heap.stoneKg * share,
    waterKg: heap.waterKg * share,
    drinkKg: heap.drinkKg * share,
    tempC: heap.tempC,
    sizes: heap.sizes,
  };
};

/** What stays of a heap once a part of it (from partOf) has gone. */
export const without = (heap: Aggregate, part: Aggregate): Aggregate =>
  part.stoneKg === heap.stoneKg && part.waterKg === heap.waterKg
    ? { stoneKg: 0, waterKg: 0, drinkKg: 0, tempC: heap.tempC, sizes: heap.sizes }
    : {
        stoneKg: heap.stoneKg - part.stoneKg,
        waterKg: heap.waterKg - part.waterKg,
        drinkKg: heap.drinkKg - part.drinkKg,
        tempC: heap.tempC,
        sizes: heap.sizes,
      };

/** Two heaps in one; temperatures meet by heat capacity (standard physics, no heat of wetting). */
export const joined = (heap: Aggregate, more: Aggregate): Aggregate => {
  const moreKjPerK = heatKjPerK(more);
  if (moreKjPerK === 0) return heap;
  const heapKjPerK = heatKjPerK(heap);
  return {
    stoneKg: heap.stoneKg + more.stoneKg,
    waterKg: heap.waterKg + more.waterKg,
    drinkKg: heap.drinkKg + more.drinkKg,
    tempC:
      heapKjPerK === 0
        ? more.tempC
        : heap.tempC + ((more.tempC - heap.tempC) * moreKjPerK) / (heapKjPerK + moreKjPerK),
    sizes: blended(heap.sizes, heap.stoneKg, more.sizes, more.stoneKg),
  };
};

/** Moisture in % of dry mass; 0 for an empty heap. */
export const moisturePctOf = (heap: Aggregate): number =>
  heap.stoneKg > 0 ? (100 * heap.waterKg) / heap.stoneKg : 0;
