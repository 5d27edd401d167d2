/** Whether nothing is being made, so that the next order can be chosen. */
import type { LineView } from '../../machines/line/view.types.ts';

const BETWEEN = ['idle', 'complete', 'completed', 'stopped', 'aborted'];

export const isIdle = (view: Pick<LineView, 'now' | 'shift'>): boolean =>
  !view.shift.ended && BETWEEN.includes(view.now.procedure.toLowerCase());
