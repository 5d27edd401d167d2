/** What the console is shown of recalls and drills. */
import type { DrillKept, Recall, RecallsState } from './state.ts';

export type RecallsView = {
  /** Open ones first, then the newest closed. */
  readonly recalls: readonly Recall[];
  /** The newest first. */
  readonly drills: readonly DrillKept[];
};

export const viewRecalls = (state: RecallsState): RecallsView => {
  const all = Object.values(state.recalls).reverse();
  return {
    recalls: [...all.filter((one) => one.closed === null), ...all.filter((one) => one.closed !== null)],
    drills: [...state.drills].reverse(),
  };
};
