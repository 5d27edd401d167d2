/** Who is shown the line: the last durable view, and those who are told of every new one. */
import type { Shown } from './runner.types.ts';

const SHOW_EVERY_MS = 100;

export class Audience {
  #shown: Shown;
  #shownAtMs = Number.NEGATIVE_INFINITY;
  #listeners = new Set<(shown: Shown) => void>();

  constructor(first: Shown) {
    this.#shown = first;
  }

  get shown(): Shown {
    return this.#shown;
  }

  join(listener: (shown: Shown) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Ten times a second is enough. A turn may come a little early; waiting for the next one would make it eight. */
  isDue(nowMs: number): boolean {
    return nowMs - this.#shownAtMs >= SHOW_EVERY_MS - 5;
  }

  show(shown: Shown, nowMs: number): void {
    this.#shownAtMs = nowMs;
    this.#shown = shown;
    for (const listener of this.#listeners) listener(shown);
  }
}
