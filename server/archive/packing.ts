/** Packs the readings of sealed shifts while the server runs: a chunk at a time, with pauses, so that the line does not wait. */
import { setTimeout as pause } from 'node:timers/promises';
import { messageOf, PlainError } from '../plain-error.ts';
import type { Store } from '../store/store.ts';

/** Between two chunks, between two looks for a newly sealed shift, and after something went wrong. */
export type PackingTimes = { readonly stepMs: number; readonly lookMs: number; readonly troubleMs: number };
const TIMES: PackingTimes = { stepMs: 150, lookMs: 5_000, troubleMs: 60_000 };

export type Packing = { readonly stop: () => Promise<void> };

export const startPacking = (
  store: Store,
  log: (line: string) => void,
  { stepMs, lookMs, troubleMs }: PackingTimes = TIMES,
): Packing => {
  const stopped = new AbortController();
  const { signal } = stopped;
  const told = new Set<string>();
  const step = async (): Promise<number> => {
    try {
      return (await store.packNext()) ? stepMs : lookMs;
    } catch (error) {
      const words = `Packing readings of sealed shifts: ${messageOf(error)}`;
      // The same finding once; what it is about is left as it lies.
      if (!told.has(words)) log(words);
      told.add(words);
      return error instanceof PlainError ? stepMs : troubleMs;
    }
  };
  const run = async (): Promise<void> => {
    let waitMs = lookMs;
    while (!signal.aborted) {
      await pause(waitMs, undefined, { signal, ref: false }).catch(() => undefined);
      if (!signal.aborted) waitMs = await step();
    }
  };
  const running = run();
  return {
    stop: async () => {
      stopped.abort();
      await running;
    },
  };
};

/** Packs all there is, without pauses: for commands that have the record to themselves. */
export const packAll = async (store: Store): Promise<number> => {
  let chunks = 0;
  while (await store.packNext()) chunks += 1;
  return chunks;
};
