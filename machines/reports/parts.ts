/** What was weighed into a batch against what was asked for, and how far it may be off. */
import { z } from 'zod';
import { batchTargets, dryTargets } from '../mix/batch-targets.ts';
import type { Mix } from '../scenario/mix.schema.ts';
import type { GatheredPart } from './gathered.types.ts';
import { nameOf } from './head-of.ts';
import type { ShiftSource } from './source.ts';

export const partSchema = z.object({
  material: z.string(),
  targetKg: z.number().nullable(),
  weighedKg: z.number(),
  offKg: z.number().nullable().describe('Weighed less target'),
  offPct: z.number().nullable().describe('Of the target'),
  toleranceKg: z.number().nullable().describe('Either way; null where the mix gives none'),
  within: z.boolean().nullable(),
  acceptedBy: z.string().nullable(),
  acceptedWhy: z.string().nullable(),
});
export type Part = z.infer<typeof partSchema>;

/** Scale interval a material is weighed at, kg. */
const intervalKg = (material: string): number => {
  if (material === 'emulsion' || material === 'cutback') return 0.1;
  if (material === 'water') return 0.1;
  return material === 'dry aggregate' ? 2 : 1;
};

/** As the line itself judges (machines/line/weigh-work.ts): a share of the target, never closer than two intervals. */
const toleranceOf = (mix: Mix | null, material: string, targetKg: number): number | null => {
  if (mix === null || material === 'anti-strip') return null;
  const { aggregatePct, binderPct, waterPct } = mix.tolerance;
  const pct =
    material === 'water'
      ? waterPct
      : material === 'emulsion' || material === 'cutback'
        ? binderPct
        : aggregatePct;
  return Math.max(2 * intervalKg(material), (targetKg * pct) / 100);
};

/** Metered materials of a batch that was dumped before it told its targets: the job mix knows them. */
const targetFromMix = (mix: Mix | null, source: ShiftSource, material: string): number | null => {
  if (mix === null || source.scenario === null) return null;
  const targets = mix.drying === undefined ? batchTargets(mix, source.scenario.plant.bins) : dryTargets(mix);
  if (material === 'water') return Math.round(targets.waterKg * 10) / 10;
  return material === 'anti-strip' ? Math.round(targets.antiStripKg * 1000) / 1000 : null;
};

const round = (value: number, digits: number): number => Number(value.toFixed(digits));

export const partOf = (source: ShiftSource, mix: Mix | null, part: GatheredPart): Part => {
  const targetKg = part.targetKg ?? targetFromMix(mix, source, part.material);
  const offKg = targetKg === null ? null : round(part.weighedKg - targetKg, 3);
  const toleranceKg = targetKg === null ? null : toleranceOf(mix, part.material, targetKg);
  return {
    material: part.material,
    targetKg,
    weighedKg: part.weighedKg,
    offKg,
    offPct: offKg === null || targetKg === null || targetKg === 0 ? null : round((offKg / targetKg) * 100, 2),
    toleranceKg: toleranceKg === null ? null : round(toleranceKg, 3),
    // Weights are whole scale intervals in floating point: a gram of grace, as no scale here shows a gram.
    within: offKg === null || toleranceKg === null ? null : Math.abs(offKg) <= toleranceKg + 0.001,
    acceptedBy: part.accepted === null ? null : nameOf(source, part.accepted.by),
    acceptedWhy: part.accepted?.reason ?? null,
  };
};

export const mixOf = (source: ShiftSource, id: string, version: number): Mix | null =>
  source.scenario?.mixes.find((mix) => mix.id === id && mix.version === version) ?? null;
