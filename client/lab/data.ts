/** The lab's book as this console knows it. */
import { useMemo } from 'react';
import type { LabCommand } from '../../machines/lab/commands.ts';
import type { LabLot, LabWorksheet } from '../../machines/lab/state.ts';
import type { LabView } from '../../machines/lab/view.ts';
import type { Answer } from '../../machines/live/protocol.ts';
import { useLedger } from '../live/ledger.ts';

const NOTHING: LabView = {
  at: '',
  prompts: [],
  tasks: [],
  lots: [],
  working: [],
  others: [],
  moisture: [],
  mixes: [],
  specifications: [],
  gradings: [],
};

/** A book that is not there yet, or of a server that keeps none, has no lots. */
const isView = (view: unknown): view is LabView =>
  typeof view === 'object' && view !== null && 'working' in view && 'lots' in view;

export type Lab = {
  readonly view: LabView;
  /** The plant's own clock. */
  readonly at: string;
  readonly loading: boolean;
  readonly error: readonly string[] | null;
  readonly again: () => void;
  readonly ask: (command: LabCommand) => Promise<Answer>;
};

export function useLab(): Lab {
  const { view, at, error, loading, ask, again } = useLedger('lab');
  const shown: unknown = view;
  return useMemo(
    () => ({
      view: isView(shown) ? shown : NOTHING,
      at,
      loading,
      error,
      again,
      ask: ask as (command: LabCommand) => Promise<Answer>,
    }),
    [shown, at, loading, error, again, ask],
  );
}

/** A lot that is shown in full; null for one the book keeps only in short, or does not know. */
export const workingLot = (view: LabView, id: string): LabLot | null =>
  view.working.find(({ lot }) => lot === id) ?? null;

export const worksheetOf = (
  view: LabView,
  id: string,
): { readonly sheet: LabWorksheet; readonly lot: LabLot | null } | null => {
  for (const lot of view.working) {
    const sheet = lot.worksheets.find((one) => one.id === id);
    if (sheet !== undefined) return { sheet, lot };
  }
  const other = view.others.find((one) => one.id === id);
  return other === undefined ? null : { sheet: other, lot: null };
};
