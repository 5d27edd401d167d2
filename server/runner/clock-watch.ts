/** Notices when the wall clock jumps against the monotonic one; plant time runs on the monotonic one and does not follow. */
import type { Store } from '../store/store.ts';
import type { Clock } from './line-engine.ts';

const JUMP_MS = 2_000;

/**
 * Words when the clock stands behind the newest entry of the record, as after it was set back while no server ran;
 * or null. `lastWall` is ISO 8601 UTC.
 */
const clockBehind = (wallMs: number, lastWall: string): string | null => {
  const behindMs = Date.parse(lastWall) - wallMs;
  return behindMs < JUMP_MS
    ? null
    : `the computer's clock stands ${(behindMs / 1000).toFixed(1)} s behind the newest entry of the record; entries keep their order by number`;
};

export class ClockWatch {
  #clock: Clock;
  #offsetMs: number;

  constructor(clock: Clock) {
    this.#clock = clock;
    this.#offsetMs = clock.wallMs() - clock.monoMs();
  }

  /** Words for a jump since last asked, or null. */
  jump(): string | null {
    const offsetMs = this.#clock.wallMs() - this.#clock.monoMs();
    const jumpMs = offsetMs - this.#offsetMs;
    if (Math.abs(jumpMs) < JUMP_MS) return null;
    this.#offsetMs = offsetMs;
    return `the computer's clock jumped by ${(jumpMs / 1000).toFixed(1)} s; plant time did not`;
  }
}

/** The same, asked of a store. */
export const whyClockBehind = async (store: Store, clock: Clock): Promise<string | null> => {
  const { seq } = await store.tail();
  const [newest] = seq === 0 ? [] : await store.read({ after: seq - 1, limit: 1 });
  return newest === undefined ? null : clockBehind(clock.wallMs(), newest.wall);
};
