/** The file of one lot: every batch in it, its samples, its materials, and what was odd while it was made. */
import { z } from 'zod';
import { makeAlarmReport } from './alarm-report.ts';
import {
  batchLineOf,
  batchLineSchema,
  lotLineOf,
  lotLineSchema,
  materialTotalSchema,
  materialTotals,
  usesMaterial,
} from './batches.ts';
import type { ReportFilter } from './filter.ts';
import { headSchema } from './head.ts';
import { headOf, type ShiftTold } from './head-of.ts';
import { labWorkSchema } from './lab-work.ts';
import { mixOf } from './parts.ts';
import { tripSchema, tripsOf } from './refusals.ts';

export const lotFileSchema = z.object({
  kind: z.literal('lot'),
  head: headSchema,
  lot: lotLineSchema,
  basis: z.string(),
  binder: z.object({
    grade: z.string().nullable(),
    dosePct: z.number().nullable().describe('Asked for, % of dry aggregate'),
    residuePct: z.number().nullable(),
  }),
  bookedGrams: z.int().describe('Into this lot, as the books moved it; must equal the sum of its batches'),
  closedGrams: z.int().nullable().describe('As told when it was closed'),
  dumpedGrams: z.int().describe('Of batches begun for this lot, to waste'),
  batches: z.array(batchLineSchema),
  materials: z.array(materialTotalSchema),
  tolerances: z.array(z.object({ material: z.string(), pct: z.number() })),
  mixWindowC: z
    .object({ fromC: z.number(), toC: z.number() })
    .nullable()
    .describe('Aggregate window of the mix'),
  alarms: z.array(z.object({ words: z.string(), priority: z.string(), times: z.int() })),
  trips: z.array(tripSchema),
  lab: labWorkSchema.nullable().describe('What the lab did with it; null when it did nothing'),
});
export type LotFile = z.infer<typeof lotFileSchema>;

/** The file of the lot named by the filter; null when this shift has no such lot. */
export const makeLotFile = (
  one: ShiftTold,
  filter: ReportFilter,
  plantKey: string | null,
): LotFile | null => {
  const { source, told } = one;
  const lot = told.lots.find((found) => found.id === filter.lot);
  if (lot === undefined) return null;
  const mix = mixOf(source, lot.mix, lot.mixVersion);
  const own = told.batches.filter((batch) => batch.lot === lot.id).map((batch) => batchLineOf(one, batch));
  const batches = own.filter(
    (batch) => filter.material === undefined || usesMaterial(batch, filter.material),
  );
  const endMs = lot.closedMs ?? told.lastMs;
  const materials = materialTotals(batches.filter((batch) => batch.grams > 0));
  const pctOf = (material: string): number | null => {
    if (mix === null || material === 'anti-strip') return null;
    if (material === 'water') return mix.tolerance.waterPct;
    return material === mix.family ? mix.tolerance.binderPct : mix.tolerance.aggregatePct;
  };
  return {
    kind: 'lot',
    head: headOf([one], filter, plantKey),
    lot: lotLineOf(one, lot),
    basis: mix?.basis ?? '',
    binder: {
      grade: mix?.binder.grade ?? null,
      dosePct: mix?.binder.dosePct ?? null,
      residuePct: mix?.binder.residueMassPct ?? null,
    },
    bookedGrams: told.moves
      .filter((move) => move.to === `lot:${lot.id}`)
      .reduce((sum, move) => sum + move.grams, 0),
    closedGrams: lot.closedGrams,
    dumpedGrams: own.reduce((sum, batch) => sum + batch.dumpedGrams, 0),
    batches,
    materials,
    tolerances: materials.flatMap(({ material }) => {
      const pct = pctOf(material);
      return pct === null ? [] : [{ material, pct }];
    }),
    mixWindowC: mix?.windows.aggregateC ?? null,
    alarms: makeAlarmReport([one], { lot: lot.id }, plantKey).byAlarm.map(({ words, priority, times }) => ({
      words,
      priority,
      times,
    })),
    trips: tripsOf(one).filter((trip) => trip.atS * 1000 >= lot.openedMs && trip.atS * 1000 <= endMs),
    lab: source.lab ?? null,
  };
};
