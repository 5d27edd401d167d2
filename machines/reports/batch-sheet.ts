/** The sheet of one batch: asked for, weighed, mixed, seen, laid; and what went wrong meanwhile. */
import { z } from 'zod';
import type { Tag } from '../field/tags.ts';
import { alarmWords } from './alarm-words.ts';
import { batchLineOf, batchLineSchema } from './batches.ts';
import { stampOf } from './clock.ts';
import type { ReportFilter } from './filter.ts';
import { headSchema } from './head.ts';
import { headOf, nameOf, type ShiftTold } from './head-of.ts';
import { mixOf } from './parts.ts';
import { ribbonOf, ribbonSchema } from './ribbon.ts';
import { traceSchema, tracesOf } from './traces.ts';
import { capital, plainWords, reasonsText } from './words.ts';

export const batchSheetSchema = z.object({
  kind: z.literal('batch'),
  head: headSchema,
  batch: batchLineSchema,
  family: z.enum(['emulsion', 'cutback']).nullable(),
  basis: z.string().describe('Where the figures of the mix come from, in its own words'),
  binderGrade: z.string().nullable(),
  mixedS: z.object({ wanted: z.number().nullable(), longest: z.number().nullable(), extended: z.int() }),
  binderPct: z
    .object({ asked: z.number().nullable(), got: z.number().nullable() })
    .describe('Binder as weighed on aggregate as weighed, less what the mix asked for; % of aggregate'),
  steps: z.array(z.object({ step: z.string(), from: z.string(), forS: z.number() })),
  events: z.array(z.object({ at: z.string(), what: z.string(), by: z.string() })),
  samples: z.array(
    z.object({ lot: z.string(), sample: z.int(), taken: z.string().nullable(), by: z.string().nullable() }),
  ),
  ribbon: ribbonSchema,
  traces: z.array(traceSchema),
  windows: z.array(z.object({ tag: z.string(), words: z.string(), fromC: z.number(), toC: z.number() })),
});
export type BatchSheet = z.infer<typeof batchSheetSchema>;

const BINDERS = new Set(['emulsion', 'cutback']);
const METERED = new Set(['water', 'anti-strip']);

/** Binder on aggregate, both as weighed, %: null until both were. */
const binderOnAggregate = (
  parts: BatchSheet['batch']['parts'],
  of: (part: BatchSheet['batch']['parts'][number]) => number | null,
): number | null => {
  const sum = (wanted: (material: string) => boolean): number =>
    parts.filter((part) => wanted(part.material)).reduce((total, part) => total + (of(part) ?? 0), 0);
  const binder = sum((material) => BINDERS.has(material));
  const aggregate = sum((material) => !BINDERS.has(material) && !METERED.has(material));
  return binder === 0 || aggregate === 0 ? null : Number(((binder / aggregate) * 100).toFixed(2));
};

/** The newest batch of that number, or null when this shift has none. */
export const makeBatchSheet = (
  one: ShiftTold,
  filter: ReportFilter,
  plantKey: string | null,
): BatchSheet | null => {
  const { source, told, start } = one;
  const batch = told.batches.findLast((found) => found.n === filter.batch);
  if (batch === undefined) return null;
  const line = batchLineOf(one, batch);
  const mix = mixOf(source, batch.mix, batch.mixVersion);
  const endMs = batch.toMs ?? told.lastMs;
  const inside = (atMs: number): boolean => atMs >= batch.fromMs && atMs <= endMs;
  const whole = ribbonOf(told);
  const [fromS, toS] = [batch.fromMs / 1000, endMs / 1000];
  const windows =
    mix === null
      ? []
      : [
          {
            tag: (mix.family === 'cutback' ? 'cutbackTankC' : 'emulsionTankC') as Tag,
            words: 'binder',
            ...mix.windows.binderC,
          },
          {
            tag: (mix.drying === undefined ? 'hopperC' : 'holdingBinC') as Tag,
            words: 'aggregate',
            ...mix.windows.aggregateC,
          },
        ];
  const tags: Tag[] = [...windows.map((span) => span.tag), 'mixC'];
  return {
    kind: 'batch',
    head: headOf([one], filter, plantKey),
    batch: line,
    family: mix?.family ?? null,
    basis: mix?.basis ?? '',
    binderGrade: mix?.binder.grade ?? null,
    mixedS: {
      wanted: mix?.times.binderMixS ?? null,
      longest: mix?.times.longestMixS ?? null,
      extended: batch.extended,
    },
    binderPct: {
      asked: binderOnAggregate(line.parts, (part) => part.targetKg),
      got: binderOnAggregate(line.parts, (part) => part.weighedKg),
    },
    steps: batch.steps.map((step) => ({
      step: plainWords(step.step),
      from: stampOf(start, step.fromMs),
      forS: ((step.toMs ?? endMs) - step.fromMs) / 1000,
    })),
    events: [
      ...batch.outs.map((out) => ({
        atMs: out.atMs,
        what: `${capital(out.material)} out of tolerance: ${out.weighedKg} kg of ${out.targetKg} kg`,
        by: '',
      })),
      ...batch.procedures
        .filter((step) => !['running', 'complete', 'idle'].includes(step.state))
        .map((step) => ({
          atMs: step.atMs,
          what: `${capital(plainWords(step.state))}${step.why === '' ? '' : `: ${step.why}`}`,
          by: '',
        })),
      ...told.alarms
        .filter((alarm) => alarm.state === 'unacknowledged' && inside(alarm.atMs))
        .map((alarm) => ({ atMs: alarm.atMs, what: `Alarm: ${alarmWords(alarm.alarm)}`, by: '' })),
      ...told.refusals
        .filter((refusal) => inside(refusal.atMs))
        .map((refusal) => ({
          atMs: refusal.atMs,
          what: `Refused to ${plainWords(refusal.command)}: ${reasonsText(refusal.because)}`,
          by: nameOf(source, refusal.by),
        })),
      ...told.trips
        .filter((trip) => inside(trip.atMs))
        .map((trip) => ({
          atMs: trip.atMs,
          what: `Flame interlock tripped: ${trip.causes.join(', ')}`,
          by: '',
        })),
    ]
      .sort((a, b) => a.atMs - b.atMs)
      .map(({ atMs, what, by }) => ({ at: stampOf(start, atMs), what, by })),
    samples: told.lots.flatMap((lot) =>
      lot.samples
        .filter((sample) => sample.batch === batch.n)
        .map((sample) => ({
          lot: lot.id,
          sample: sample.n,
          taken: sample.takenMs === null ? null : stampOf(start, sample.takenMs),
          by: sample.by === null ? null : nameOf(source, sample.by),
        })),
    ),
    ribbon: {
      toS,
      blocks: whole.blocks.filter(
        (block) => block.batch === batch.n && block.fromS >= fromS && block.toS <= toS,
      ),
      marks: whole.marks.filter((mark) => mark.atS >= fromS && mark.atS <= toS),
      lots: [],
    },
    traces: tracesOf(source.entries, tags, batch.fromMs, endMs),
    windows,
  };
};
