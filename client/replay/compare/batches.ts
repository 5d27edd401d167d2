/** Two batches laid beside each other: their steps from the start of each, and what was weighed. */
import type { BatchView, RibbonBlock } from '../../../machines/line/view.types.ts';

export type Stage = { readonly step: string; readonly fromMs: number; readonly toMs: number };

/** The steps of one batch as the ribbon has them, ms since the batch began; one that still runs ends at `endMs`. */
export const stagesOf = (blocks: readonly RibbonBlock[], batch: number, endMs: number): readonly Stage[] => {
  const own = blocks.filter((block) => block.batch === batch);
  const startMs = own[0]?.fromMs ?? 0;
  return own.map(({ step, fromMs, toMs }) => ({
    step,
    fromMs: fromMs - startMs,
    toMs: (toMs ?? endMs) - startMs,
  }));
};

/** When a batch began, ms into the shift; null when the ribbon does not show it. */
export const startOf = (blocks: readonly RibbonBlock[], batch: number): number | null =>
  blocks.find((block) => block.batch === batch)?.fromMs ?? null;

export const batchesIn = (blocks: readonly RibbonBlock[]): readonly number[] =>
  [...new Set(blocks.map((block) => block.batch).filter((n) => n !== null))].sort((a, b) => a - b);

export type StepRow = {
  readonly step: string;
  /** Seconds spent in it altogether; null when the batch did not come to it. */
  readonly aS: number | null;
  readonly bS: number | null;
};

const secondsIn = (stages: readonly Stage[], step: string): number | null => {
  const own = stages.filter((stage) => stage.step === step);
  return own.length === 0 ? null : own.reduce((sum, stage) => sum + (stage.toMs - stage.fromMs) / 1000, 0);
};

/** Each step once, in the order either batch came to it. */
export const stepRows = (a: readonly Stage[], b: readonly Stage[]): readonly StepRow[] => {
  const steps = [...new Set([...a, ...b].map((stage) => stage.step))];
  return steps.map((step) => ({ step, aS: secondsIn(a, step), bS: secondsIn(b, step) }));
};

export type WeightRow = {
  readonly material: string;
  readonly a: BatchView['parts'][number] | null;
  readonly b: BatchView['parts'][number] | null;
};

/** Each material once. A batch that was not over when the record ends has no sheet, and no weights here. */
export const weightRows = (a: BatchView | null, b: BatchView | null): readonly WeightRow[] => {
  const materials = [...new Set([...(a?.parts ?? []), ...(b?.parts ?? [])].map((part) => part.material))];
  const of = (sheet: BatchView | null, material: string) =>
    sheet?.parts.find((part) => part.material === material) ?? null;
  return materials.map((material) => ({ material, a: of(a, material), b: of(b, material) }));
};
