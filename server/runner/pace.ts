/** How many plant ticks are due: real time by the monotonic clock times the chosen speed. */
import { TICK_MS } from '../../machines/record/recorder.ts';
import type { Clock } from './line-engine.ts';

/** Real time made up for after a stall, ms; what lies further back is let go, the plant stood still meanwhile. */
const CATCH_UP_MS = 2_000;
/** Shortest time between two turns of the loop, ms: one durable commit each. */
const TURN_MS = 25;

export class Pace {
  #clock: Clock;
  #speed: number;
  #paused = false;
  /** Monotonic time up to which ticks were taken. */
  #takenMs: number;

  constructor(clock: Clock, speed: number) {
    this.#clock = clock;
    this.#speed = speed;
    this.#takenMs = clock.monoMs();
  }

  get speed(): number {
    return this.#speed;
  }
  get paused(): boolean {
    return this.#paused;
  }

  setSpeed(speed: number): void {
    this.#speed = speed;
    this.restart();
  }
  setPaused(paused: boolean): void {
    this.#paused = paused;
    this.restart();
  }

  /** Counts from now. */
  restart(): void {
    this.#takenMs = this.#clock.monoMs();
  }

  /** Ticks due since last asked. */
  take(): number {
    const now = this.#clock.monoMs();
    if (this.#paused) {
      this.#takenMs = now;
      return 0;
    }
    this.#takenMs = Math.max(this.#takenMs, now - CATCH_UP_MS);
    const tickRealMs = TICK_MS / this.#speed;
    const due = Math.floor((now - this.#takenMs) / tickRealMs + 1e-9);
    this.#takenMs += due * tickRealMs;
    return due;
  }

  /** When to look again, ms from now. */
  nextTurnInMs(): number {
    if (this.#paused) return 100;
    const nextTickMs = this.#takenMs + TICK_MS / this.#speed - this.#clock.monoMs();
    return Math.max(this.#speed > 1 ? TURN_MS : 1, Math.ceil(nextTickMs));
  }
}
