/** Whether the guide is open, and from which batch on it counts; remembered by this browser. */
import { recall, remember } from '../live/memory.ts';
import { createStore, liveStore } from '../live/store.ts';

export type GuideState = { readonly open: boolean; readonly batchesBefore: number | null };

export const guideStore = createStore<GuideState>({ open: recall('guide') === null, batchesBefore: null });

export function closeGuide(): void {
  remember('guide', 'closed');
  guideStore.set({ ...guideStore.get(), open: false });
}

/** Opens it where the newcomer left off; after a finished batch it counts from now. */
export function resumeGuide(): void {
  const done = liveStore.get().view?.shift.batchesDone ?? 0;
  const { batchesBefore } = guideStore.get();
  const finished = batchesBefore !== null && done > batchesBefore;
  guideStore.set({ open: true, batchesBefore: finished ? done : batchesBefore });
}
