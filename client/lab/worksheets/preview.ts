/** What a sheet gives so far, before it is whole: worked out by the sheet itself on what there is. Pure. */
import type { FieldSpec, Sheet, SheetContext, WorkedOut } from '../../../machines/lab/worksheets/index.ts';
import type { Readings } from './drafts.ts';

const ENDED = 'endedAt';
const RETAINED = /^retainedG:(.+)$/;

/** Sieves weighed so far, coarsest first, down to the first gap: passing rests on all that is coarser. */
function sievesSoFar(readings: Readings, context: SheetContext): readonly number[] {
  const coarsestFirst = [...context.sieves].sort((a, b) => b - a);
  const gap = coarsestFirst.findIndex((mm) => (readings[`retainedG:${mm}`] ?? '') === '');
  return gap === -1 ? coarsestFirst : coarsestFirst.slice(0, gap);
}

/**
 * The working as it would stand if the test ended now; for a sieve analysis also with only the coarser sieves weighed,
 * as what passes a sieve does not rest on the finer ones. Null when there is nothing to show yet.
 */
export function soFar(
  sheet: Sheet,
  fields: readonly FieldSpec[],
  readings: Readings,
  context: SheetContext,
): Extract<WorkedOut, { ok: true }> | null {
  const ended = { ...readings, [ENDED]: readings[ENDED] ?? context.nowAt };
  const whole = sheet.workOut(ended, context);
  if (whole.ok) return whole;
  if (sheet.id !== 'sieve') return null;
  const sieves = sievesSoFar(readings, context);
  const dryG = Number(readings.dryG);
  const onSievesG = Number(readings.washedG ?? readings.dryG);
  if (sieves.length === 0 || !Number.isFinite(dryG) || !Number.isFinite(onSievesG)) return null;
  const heldG = sieves.reduce((sum, mm) => sum + Number(readings[`retainedG:${mm}`]), 0);
  const choices = Object.fromEntries(
    fields.flatMap(({ key, choices }) => (choices?.[0] === undefined ? [] : [[key, choices[0].is]])),
  );
  const kept = Object.fromEntries(
    Object.entries(ended).filter(([key]) => {
      const sieve = RETAINED.exec(key)?.[1];
      return sieve === undefined || sieves.includes(Number(sieve));
    }),
  );
  const partly = sheet.workOut(
    { portions: '1', ...choices, ...kept, panG: String(Number((onSievesG - heldG).toFixed(3))) },
    { ...context, sieves },
  );
  // What is said about the pan and the finest sieve is not so yet: only the percentages are shown.
  return partly.ok
    ? { ...partly, notes: ['So far: the finer sieves are still to be weighed.'], departures: [] }
    : null;
}
