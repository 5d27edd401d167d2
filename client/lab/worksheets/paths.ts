/** Where worksheets are, and which sheet a sample's test is usually written on. Pure but for what was chosen last. */
import type { SheetId } from '../../../machines/lab/sheet-ids.ts';
import type { LabLot, LabSample } from '../../../machines/lab/state.ts';
import { recall } from '../../live/memory.ts';
import { isTested, retestOf } from '../today/agenda.ts';

/** Sheets by test, the usual one first. */
export const SHEETS_OF: { readonly [test: string]: readonly SheetId[] } = {
  gradation: ['sieve'],
  'binder content': ['extraction', 'ignition'],
  bond: ['bond'],
  workability: ['workability'],
  'water resistance': ['water-resistance', 'particle-count'],
  moisture: ['moisture'],
  coating: ['wet-coating', 'static-immersion', 'particle-count'],
  'emulsion residue': ['emulsion-residue'],
  'cutback residue': ['cutback-residue'],
  'binder delivery': ['binder-delivery'],
  aggregate: ['aggregate'],
};

/** Key under which the browser remembers the sheet last chosen for a test. */
export const chosenKey = (test: string): string => `lab-sheet-${test.replaceAll(' ', '-')}`;

export function usualSheet(test: string): SheetId {
  const possible = SHEETS_OF[test] ?? ['moisture'];
  const last = recall(chosenKey(test));
  return possible.find((id) => id === last) ?? possible[0] ?? 'moisture';
}

export const newSheetPath = (lot: string, sample: Pick<LabSample, 'n' | 'test'>): string =>
  `/lab/worksheets/new?${new URLSearchParams({ lot, sample: String(sample.n), sheet: usualSheet(sample.test) })}`;

/** The next sample of the lot that waits for a sheet, in the order of the plan; null when none does. */
export const nextToTest = (lot: LabLot, afterSample = 0): LabSample | null => {
  const waiting = lot.samples.filter(
    (sample) => sample.state === 'logged' && (!isTested(lot, sample.n) || retestOf(lot, sample.n) !== null),
  );
  return waiting.find(({ n }) => n > afterSample) ?? waiting[0] ?? null;
};
