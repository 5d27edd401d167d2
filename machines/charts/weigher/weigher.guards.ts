/** Questions about a weigher's state, in words used by the line and the screens. */
import type { Opening } from '../../field/outputs.ts';
import type { WeigherState } from './weigher.machine.ts';

export const isFilling = (state: WeigherState): boolean =>
  state === 'coarse' || state === 'fine' || state === 'toppingUp';

export const isOutOfTolerance = (state: WeigherState): boolean =>
  state === 'light' || state === 'heavy' || state === 'stalled';

/** Mending a light weight goes on while the batch is held; ordinary filling waits. */
export const feedOpening = (state: WeigherState, batchHeld: boolean): Opening => {
  if (state === 'toppingUp') return 'dribble';
  if (batchHeld) return 'shut';
  if (state === 'coarse') return 'full';
  return state === 'fine' ? 'dribble' : 'shut';
};
