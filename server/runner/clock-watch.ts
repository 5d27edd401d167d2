/** Notices when the wall clock jumps against the monotonic one; plant time runs on the monotonic one and does not follow. */
import type { Clock } from './line-engine.ts';

const JUMP_MS = 2_000;

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
