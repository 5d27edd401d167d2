/** The morning a mix is worked out for: temperatures, contents, how many batches and how fast. */
import type { Mix } from '../../scenario/mix.schema.ts';
import type { PlantSpec } from '../../scenario/plant.schema.ts';

export type Conditions = {
  readonly airC: number;
  /** Stone in the cold bins. */
  readonly stoneC: number;
  readonly waterC: number;
  /** Aggregate as it is drawn for a batch. */
  readonly aggregateC: number;
  /** Binder as it is drawn. */
  readonly binderC: number;
  /** Tank before it is heated. */
  readonly tankC: number;
  readonly tankKg: number;
  readonly batches: number;
  /** From one batch to the next, s. */
  readonly batchEveryS: number;
  /** Minute of the day at which the first batch is to be mixed. */
  readonly readyAtMin: number;
  /** What the plant makes on such a day, for what costs the same whatever is made. */
  readonly tonnesPerDay: number;
};

/** Weighing, discharge and looking, beside the mixing itself, s: as the simulated yard takes (teaching value). */
const AROUND_BATCH_S = 95;

/** Conditions to start from: the plant as it stands on a morning with air at airC. */
export const usualConditions = (mix: Mix, plant: PlantSpec, airC: number, readyAtMin: number): Conditions => {
  const tank = plant.tanks[mix.family];
  return {
    airC,
    stoneC: airC,
    waterC: Math.max(5, airC),
    aggregateC: mix.drying === undefined ? airC : (mix.windows.drawAtC ?? mix.windows.aggregateC.toC),
    binderC: mix.windows.tankSetC,
    tankC: tank.startC,
    tankKg: tank.startMassKg,
    batches: 13,
    batchEveryS: Math.round(mix.times.preWetMixS + mix.times.binderMixS + AROUND_BATCH_S),
    readyAtMin,
    tonnesPerDay: 50,
  };
};
