/** What tests of worksheets share: a context, and results or refusals taken out of what a sheet says. */
import {
  type Readings,
  SHEETS,
  type SheetContext,
  type SheetId,
} from '../../machines/lab/worksheets/index.ts';

export const CONTEXT: SheetContext = {
  nowAt: '2026-05-12T12:00:00',
  sieves: [9.5, 4.75, 2.36, 1.18, 0.075],
  sampleMassG: null,
};

/** Results by property; throws with the refusals when there are none. */
export const valuesOf = (
  id: SheetId,
  readings: Readings,
  context: SheetContext = CONTEXT,
): Record<string, number> => {
  const out = SHEETS[id].workOut(readings, context);
  if (!out.ok) throw new Error(JSON.stringify(out.because, null, 1));
  return Object.fromEntries(out.results.map(({ property, value }) => [property, value]));
};

export const refusalsOf = (id: SheetId, readings: Readings, context: SheetContext = CONTEXT) => {
  const out = SHEETS[id].workOut(readings, context);
  if (out.ok) throw new Error('not refused');
  return out.because;
};
