/** Batches and lots as lines of a report. */
import { z } from 'zod';
import { stampOf } from './clock.ts';
import type { GatheredBatch, GatheredLot } from './gathered.types.ts';
import { personSchema } from './head.ts';
import { nameOf, personOf, type ShiftTold } from './head-of.ts';
import { mixOf, partOf, partSchema } from './parts.ts';

export const batchLineSchema = z.object({
  shift: z.int(),
  batch: z.int(),
  lot: z.string(),
  bay: z.int().nullable(),
  mix: z.string(),
  mixVersion: z.int(),
  from: z.string(),
  to: z.string().nullable(),
  fromS: z.number(),
  toS: z.number().nullable(),
  startedBy: personSchema.nullable().describe('Who asked for it; batches of a run are started by the line'),
  inRun: z.boolean().describe('Started by the line itself, in a run of batches'),
  outcome: z.enum(['running', 'discharged', 'dumped', 'broken off']),
  grams: z.int().describe('Into its lot'),
  dumpedGrams: z.int(),
  dumpedBy: z.string().nullable(),
  dumpedWhy: z.string().nullable(),
  mixC: z.number().nullable(),
  mixedS: z.number().nullable(),
  coatedPct: z.number().nullable(),
  lookedBy: z.string().nullable(),
  parts: z.array(partSchema),
  /** Weights found outside their tolerance, topped up or accepted since. */
  outs: z.int(),
});
export type BatchLine = z.infer<typeof batchLineSchema>;

export const batchLineOf = ({ source, start }: ShiftTold, batch: GatheredBatch): BatchLine => {
  const mix = mixOf(source, batch.mix, batch.mixVersion);
  return {
    shift: source.shift,
    batch: batch.n,
    lot: batch.lot,
    bay: batch.bay,
    mix: mix?.name ?? batch.mix,
    mixVersion: batch.mixVersion,
    from: stampOf(start, batch.fromMs),
    to: batch.toMs === null ? null : stampOf(start, batch.toMs),
    fromS: batch.fromMs / 1000,
    toS: batch.toMs === null ? null : batch.toMs / 1000,
    startedBy: batch.askedBy === null ? null : personOf(source, batch.askedBy),
    inRun: batch.startedBy.role === 'line',
    outcome: batch.outcome,
    grams: batch.grams,
    dumpedGrams: batch.dumpedGrams,
    dumpedBy: batch.dumped === null ? null : nameOf(source, batch.dumped.by),
    dumpedWhy: batch.dumped?.reason ?? null,
    mixC: batch.mixC,
    mixedS: batch.mixedS,
    coatedPct: batch.coatedPct,
    lookedBy: batch.lookedBy === null ? null : nameOf(source, batch.lookedBy),
    parts: batch.parts.map((part) => partOf(source, mix, part)),
    outs: batch.outs.length,
  };
};

export const sampleSchema = z.object({
  sample: z.int(),
  test: z.string().describe('What it is for; empty where no specification says'),
  atKg: z.number().nullable().describe('Tonnage in the lot, kg; null while its plan is sealed'),
  state: z.enum(['ahead', 'due', 'taken', 'missed', 'not reached']),
  batch: z.int().nullable(),
  taken: z.string().nullable(),
  by: z.string().nullable(),
});

export const lotLineSchema = z.object({
  shift: z.int(),
  lot: z.string(),
  mix: z.string(),
  mixVersion: z.int(),
  family: z.enum(['emulsion', 'cutback']),
  bay: z.int(),
  state: z.enum(['open', 'closed', 'closed short']),
  why: z.string().nullable(),
  opened: z.string(),
  closed: z.string().nullable(),
  fromS: z.number(),
  toS: z.number().nullable(),
  ofKg: z.number().nullable().describe('Full size of a lot of this mix'),
  grams: z.int(),
  batches: z.array(z.int()),
  samples: z.array(sampleSchema),
});
export type LotLine = z.infer<typeof lotLineSchema>;

const sampleState = (lot: GatheredLot, sample: GatheredLot['samples'][number]) => {
  if (sample.takenMs !== null) return 'taken' as const;
  if (lot.state === 'open') return sample.dueMs === null ? ('ahead' as const) : ('due' as const);
  return sample.dueMs === null ? ('not reached' as const) : ('missed' as const);
};

export const lotLineOf = ({ source, told, start }: ShiftTold, lot: GatheredLot): LotLine => {
  const mix = mixOf(source, lot.mix, lot.mixVersion);
  const own = told.batches.filter((batch) => batch.lot === lot.id && batch.grams > 0);
  return {
    shift: source.shift,
    lot: lot.id,
    mix: mix?.name ?? lot.mix,
    mixVersion: lot.mixVersion,
    family: lot.family,
    bay: lot.bay,
    state: lot.state,
    why: lot.why,
    opened: stampOf(start, lot.openedMs),
    closed: lot.closedMs === null ? null : stampOf(start, lot.closedMs),
    fromS: lot.openedMs / 1000,
    toS: lot.closedMs === null ? null : lot.closedMs / 1000,
    ofKg: mix?.lotKg ?? null,
    grams: own.reduce((sum, batch) => sum + batch.grams, 0),
    batches: own.map((batch) => batch.n),
    samples: lot.samples.map((sample) => ({
      sample: sample.n,
      test: sample.test,
      atKg: sample.atKg,
      state: sampleState(lot, sample),
      batch: sample.batch,
      taken: sample.takenMs === null ? null : stampOf(start, sample.takenMs),
      by: sample.by === null ? null : nameOf(source, sample.by),
    })),
  };
};

/** True when the batch used this material, by its name as weighed. */
export const usesMaterial = (batch: BatchLine, material: string): boolean =>
  batch.parts.some((part) => part.material.toLowerCase() === material.toLowerCase());

export const materialTotalSchema = z.object({
  material: z.string(),
  batches: z.int(),
  targetKg: z.number(),
  weighedKg: z.number(),
  offKg: z.number(),
  offPct: z.number().nullable(),
});
export type MaterialTotal = z.infer<typeof materialTotalSchema>;

/** Weighed against asked for, summed by material over batches that name both; sums are taken in grams. */
export const materialTotals = (batches: readonly BatchLine[]): MaterialTotal[] => {
  const totals = new Map<string, { batches: number; targetG: number; weighedG: number }>();
  for (const batch of batches)
    for (const part of batch.parts) {
      if (part.targetKg === null) continue;
      const total = totals.get(part.material) ?? { batches: 0, targetG: 0, weighedG: 0 };
      total.batches += 1;
      total.targetG += Math.round(part.targetKg * 1000);
      total.weighedG += Math.round(part.weighedKg * 1000);
      totals.set(part.material, total);
    }
  return [...totals].map(([material, { batches: n, targetG, weighedG }]) => ({
    material,
    batches: n,
    targetKg: targetG / 1000,
    weighedKg: weighedG / 1000,
    offKg: (weighedG - targetG) / 1000,
    offPct: targetG === 0 ? null : Number((((weighedG - targetG) / targetG) * 100).toFixed(3)),
  }));
};
