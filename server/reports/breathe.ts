/** Lets the line have its turn: a report is made beside a running plant, in pieces of a few hundredths of a second. */
import { setImmediate as nextTurn } from 'node:timers/promises';

export const breathe = (): Promise<void> => nextTurn();

export type Queue = {
  /** Runs `work` when all before it is done; null at once when too much waits already. */
  readonly run: <T>(work: () => Promise<T>) => Promise<T> | null;
};

/** One piece of work at a time, a few waiting. */
export const createQueue = (waitingAtMost: number): Queue => {
  let last: Promise<unknown> = Promise.resolve();
  let waiting = 0;
  return {
    run: (work) => {
      if (waiting >= waitingAtMost) return null;
      waiting += 1;
      const mine = last.then(work).finally(() => {
        waiting -= 1;
      });
      last = mine.catch(() => undefined);
      return mine;
    },
  };
};
