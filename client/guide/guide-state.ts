/** Whether the guide is open, and whether a whole batch was made from this console since; remembered by this browser. */
import type { LineView } from '../../machines/line/view.types.ts';
import { CONSOLE_ID } from '../live/line.ts';
import { recall, remember } from '../live/memory.ts';
import { createStore, liveStore } from '../live/store.ts';

export type GuideState = { readonly open: boolean; readonly ownBatch: boolean };

export const guideStore = createStore<GuideState>({ open: recall('guide') === null, ownBatch: false });

export function closeGuide(): void {
  remember('guide', 'closed');
  guideStore.set({ ...guideStore.get(), open: false });
}

/** Opens it where the newcomer left off; after a finished batch it begins again. */
export const resumeGuide = (): void => guideStore.set({ open: true, ownBatch: false });

type Sight = Pick<LineView, 'shift' | 'seat'>;

/** Whether a batch has just gone into its lot while this console ran the line itself. */
export const ownBatchDone = (before: Sight, after: Sight, consoleId: string): boolean =>
  before.shift.id === after.shift.id &&
  after.shift.batchesDone > before.shift.batchesDone &&
  after.seat.standIn === null &&
  after.seat.holder?.console === consoleId;

let last: LineView | null = null;

/** Follows the line for as long as the page is open, whichever page is shown. */
liveStore.subscribe(() => {
  const { view } = liveStore.get();
  if (view === last) return;
  const before = last;
  last = view;
  if (before === null || view === null) return;
  if (ownBatchDone(before, view, CONSOLE_ID)) guideStore.set({ ...guideStore.get(), ownBatch: true });
  // Nothing is left to lead through; the next shift is opened from the left panel.
  if (view.shift.ended && !before.shift.ended && guideStore.get().open) closeGuide();
});
