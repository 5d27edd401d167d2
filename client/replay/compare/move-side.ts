/** Moves one of two moments by some seconds, the other staying where it is. */

import { type Side, TICKS_PER_S } from '../replay.types.ts';
import type { Replay } from '../replay-client.ts';

export const moveSide = (replay: Replay, side: Side, seconds: number): void => {
  replay.play(false);
  replay.seek(side, replay.state.get().at[side] + seconds * TICKS_PER_S);
};
