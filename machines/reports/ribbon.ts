/** The shift ribbon rebuilt from the facts alone: blocks of steps and the marks above them. */
import { z } from 'zod';
import { BATCH_WORDS, CAMPAIGN_WORDS } from '../line/ribbon.ts';
import type { Gathered } from './gathered.types.ts';

export const ribbonSchema = z.object({
  toS: z.number(),
  blocks: z.array(
    z.object({ fromS: z.number(), toS: z.number(), step: z.string(), batch: z.int().nullable() }),
  ),
  marks: z.array(
    z.object({ atS: z.number(), mark: z.enum(['alarm', 'refusal', 'trip', 'sample', 'person']) }),
  ),
  lots: z.array(z.object({ lot: z.string(), fromS: z.number(), toS: z.number() })),
});
export type Ribbon = z.infer<typeof ribbonSchema>;

const RUNNING = new Set(['running', 'complete']);

type Change = { readonly atMs: number; readonly word: string; readonly batch: number | null };

/** Words of a batch over time: its steps while it runs, "hold" while its procedure is anywhere else. */
const batchChanges = (batch: Gathered['batches'][number], endMs: number): Change[] => {
  const moments = [
    ...batch.steps.map((step) => ({ atMs: step.fromMs, step: step.step, state: null })),
    ...batch.procedures.map((one) => ({ atMs: one.atMs, step: null, state: one.state })),
  ].sort((a, b) => a.atMs - b.atMs);
  let step = 'ready';
  let state = 'running';
  const out: Change[] = [];
  for (const moment of moments) {
    step = moment.step ?? step;
    state = moment.state ?? state;
    if (moment.atMs >= (batch.toMs ?? endMs + 1)) break;
    const word = RUNNING.has(state) ? (BATCH_WORDS as { readonly [s: string]: string })[step] : 'hold';
    out.push({ atMs: moment.atMs, word: word ?? 'other', batch: batch.n });
  }
  return out;
};

/** Blocks of one shift in order of time, seconds since it began. What runs outside a batch is drying, or nothing. */
const blocksOf = (told: Gathered, endMs: number): Ribbon['blocks'] => {
  const within = (atMs: number) =>
    told.batches.some((batch) => batch.fromMs <= atMs && atMs < (batch.toMs ?? endMs + 1));
  const campaign: Change[] = told.campaigns.flatMap(({ steps }) =>
    steps.map(({ step, atMs }) => ({
      atMs,
      word: (CAMPAIGN_WORDS as { readonly [s: string]: string | undefined })[step] ?? 'idle',
      batch: null,
    })),
  );
  const ends: Change[] = told.batches.flatMap((batch) => {
    if (batch.toMs === null) return [];
    const toMs = batch.toMs;
    const now = campaign.findLast((one) => one.atMs <= toMs);
    return [{ atMs: toMs, word: now?.word ?? 'idle', batch: null }];
  });
  const changes = [
    ...campaign.filter((one) => !within(one.atMs)),
    ...ends,
    ...told.batches.flatMap((batch) => batchChanges(batch, endMs)),
  ].sort((a, b) => a.atMs - b.atMs || (a.batch ?? 0) - (b.batch ?? 0));
  const blocks: Ribbon['blocks'] = [];
  changes.forEach((change, i) => {
    const toMs = changes[i + 1]?.atMs ?? endMs;
    if (change.word === 'idle' || toMs <= change.atMs) return;
    const last = blocks.at(-1);
    if (last?.toS === change.atMs / 1000 && last.step === change.word && last.batch === change.batch)
      last.toS = toMs / 1000;
    else blocks.push({ fromS: change.atMs / 1000, toS: toMs / 1000, step: change.word, batch: change.batch });
  });
  return blocks;
};

export const ribbonOf = (told: Gathered): Ribbon => {
  const endMs = told.endedMs ?? told.lastMs;
  const mark = (kind: Ribbon['marks'][number]['mark']) => (one: { atMs: number }) => ({
    atS: one.atMs / 1000,
    mark: kind,
  });
  return {
    toS: endMs / 1000,
    blocks: blocksOf(told, endMs),
    marks: [
      ...told.trips.map(mark('trip')),
      ...told.alarms.filter((one) => one.state === 'unacknowledged').map(mark('alarm')),
      ...told.refusals.map(mark('refusal')),
      ...told.lots
        .flatMap((lot) => lot.samples)
        .flatMap((one) => (one.takenMs === null ? [] : [{ atMs: one.takenMs }]))
        .map(mark('sample')),
    ].sort((a, b) => a.atS - b.atS),
    lots: told.lots.map((lot) => ({
      lot: lot.id,
      fromS: lot.openedMs / 1000,
      toS: (lot.closedMs ?? endMs) / 1000,
    })),
  };
};
