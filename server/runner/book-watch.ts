/** How far the books of lab and yard have heard the record, as consoles are told of it. */
import type { Store } from '../store/store.ts';
import type { Clock } from './line-engine.ts';

/** How often consoles are told that the books heard something of the line. */
const EVERY_MS = 1000;

export class BookWatch {
  #store: Store;
  #clock: Clock;
  #lookedAtMs = Number.NEGATIVE_INFINITY;
  /** Newest entry the books heard, when last looked at. */
  seq = 0;

  constructor(store: Store, clock: Clock) {
    this.#store = store;
    this.#clock = clock;
  }

  /** Line facts come many a second: looked at now and then, and at once after what a person wrote. */
  async look(now: boolean): Promise<void> {
    const nowMs = this.#clock.monoMs();
    if (!now && nowMs - this.#lookedAtMs < EVERY_MS) return;
    this.#lookedAtMs = nowMs;
    this.seq = (await this.#store.books()).seq;
  }
}
