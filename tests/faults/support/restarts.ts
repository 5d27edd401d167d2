/** What a record says of its restarts, and how much plant time one of them lost. */
import type { Entry } from '../../../machines/record/entry.ts';
import { TICK_MS } from '../../../machines/record/recorder.ts';

/** Ticks each restart went on from, the oldest first. */
export const restartsOf = (entries: readonly Entry[]): number[] =>
  entries.flatMap((entry) => {
    if (entry.kind !== 'note' || entry.body.what !== 'restored') return [];
    const tick = /went on from tick (\d+);/.exec(entry.body.detail)?.[1];
    if (tick === undefined || Number(tick) * TICK_MS !== entry.atMs)
      throw new Error(`a restart that does not say where it went on from: ${entry.body.detail}`);
    return [Number(tick)];
  });

/** Ticks shown before a kill, the last at `shownMs`, that a restart did not have; negative when it had more. */
export const ticksLost = (shownMs: number, restart: number | undefined): number => {
  if (restart === undefined) throw new Error('there was no restart');
  return shownMs / TICK_MS - restart;
};
