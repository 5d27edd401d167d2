/** The view the scrubber draws: the moment's own line with the ribbon of the whole shift, as far as it is known. */
import type { LineView } from '../../machines/line/view.types.ts';
import { TICK_MS } from './replay.types.ts';
import type { SoFar } from './worker/messages.ts';

export const wholeView = (view: LineView, soFar: SoFar): LineView => ({
  ...view,
  shift: { ...view.shift, atMs: Math.max(view.shift.atMs, soFar.tick * TICK_MS) },
  ribbon: soFar.ribbon,
  lots: soFar.lots,
});
