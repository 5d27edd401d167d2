/** How long mix takes to make and tanks take to heat: planning figures, held against simulated shifts. */
import type { Mix } from '../../../scenario/mix.schema.ts';
import type { PlantSpec } from '../../../scenario/plant.schema.ts';

/** Which rules the line works under; a change of kind is a change-over. */
export type RunKind = 'cold emulsion' | 'warm emulsion' | 'cutback';

export const kindOf = (mix: Pick<Mix, 'family' | 'drying'>): RunKind => {
  if (mix.family === 'cutback') return 'cutback';
  return mix.drying === undefined ? 'cold emulsion' : 'warm emulsion';
};

/** What is changed over between two kinds, each with minutes: common practice, no source. */
export const CHANGE_MIN = { tank: 20, dryer: 20, 'flame rules': 15 } as const;
export type Change = keyof typeof CHANGE_MIN;

const TANK = { 'cold emulsion': 'emulsion', 'warm emulsion': 'emulsion', cutback: 'cutback' } as const;

/** Changes on the way from one kind to the next; none at the very first and between equal kinds. */
export const changesBetween = (from: RunKind | null, to: RunKind): readonly Change[] => {
  if (from === null || from === to) return [];
  const tank = TANK[from] !== TANK[to];
  const dryer = (from === 'cold emulsion') !== (to === 'cold emulsion');
  return [
    ...(tank ? (['tank'] as const) : []),
    ...(dryer ? (['dryer'] as const) : []),
    // Where cutback may be in the mixer the flame is out, and the other way round.
    ...(tank ? (['flame rules'] as const) : []),
  ];
};

/** Opening the line in the morning, lighting and purging for a campaign, clearing up: common practice, no source. */
export const OPENING_MIN = 10;
export const CAMPAIGN_MIN = 20;
export const CLEARING_MIN = 10;

/** Weighing, charging, discharging beside the mixing itself. A simulated day of 8 h makes 102 cold batches: 147 s. */
const HANDLING_S = 147;
/** A batch of dried stone, drying and cooling included. Simulated days of 8 h make 42 cutback, 41 warm batches. */
const DRIED_BATCH_MIN = 11;

/** Minutes a batch takes, all shared work included. */
export const batchMin = (mix: Pick<Mix, 'drying' | 'times'>): number => {
  const mixed = (mix.times.preWetMixS + mix.times.binderMixS + HANDLING_S) / 60;
  return mix.drying === undefined ? mixed : Math.max(mixed, DRIED_BATCH_MIN);
};

/** Specific heat of binder and of emulsion, kJ/(kg·K): from memory. */
const HEAT_KJ_KGK = { emulsion: 3.2, cutback: 2.0 } as const;

/**
 * Minutes to bring a tank from how it stands in the morning into the binder window of a mix, with the plant's heater
 * at full power and its losses at that temperature; 0 when it is warm enough. Heat balance, no stirring.
 */
export const heatingMin = (
  plant: Pick<PlantSpec, 'tanks' | 'oilHeater'>,
  mix: Pick<Mix, 'family' | 'windows'>,
  massKg: number = plant.tanks[mix.family].startMassKg,
): number => {
  const tank = plant.tanks[mix.family];
  const wantC = mix.windows.binderC.fromC;
  if (tank.startC >= wantC) return 0;
  const lossKw = (tank.lossWPerK * (wantC - 10)) / 1000;
  const kw = plant.oilHeater.powerKw - lossKw;
  if (kw <= 0) return Number.POSITIVE_INFINITY;
  return Math.ceil((massKg * HEAT_KJ_KGK[mix.family] * (wantC - tank.startC)) / kw / 60);
};

/** Binder in a batch, kg, as weighed; the mass of a batch is stone and binder. */
export const binderKgOfBatch = (mix: Pick<Mix, 'batchKg' | 'binder'>): number =>
  (mix.batchKg * mix.binder.dosePct) / (100 + mix.binder.dosePct);
