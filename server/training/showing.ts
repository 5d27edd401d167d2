/** What a session shows and to whom: at most ten times a second, seldom when nobody looks. */
import type { Clock } from '../runner/line-engine.ts';
import type { Shown } from '../runner/runner.ts';

const SHOW_EVERY_MS = 100;
/** A session nobody looks at is drawn for its tile alone. */
const UNWATCHED_EVERY_MS = 1000;

export class Showing {
  #clock: Clock;
  #make: () => Shown;
  #shown: Shown;
  #atMs = Number.NEGATIVE_INFINITY;
  #listeners = new Set<(shown: Shown) => void>();

  constructor(clock: Clock, make: () => Shown) {
    this.#clock = clock;
    this.#make = make;
    this.#shown = make();
  }

  get shown(): Shown {
    return this.#shown;
  }

  onShown(listener: (shown: Shown) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** A turn may come a little early; waiting for the next one would make it eight a second. */
  show(now: boolean, isWatched: boolean): void {
    const every = isWatched ? SHOW_EVERY_MS : UNWATCHED_EVERY_MS;
    if (!now && this.#clock.monoMs() - this.#atMs < every - 5) return;
    this.#atMs = this.#clock.monoMs();
    this.#shown = this.#make();
    for (const listener of this.#listeners) listener(this.#shown);
  }
}
