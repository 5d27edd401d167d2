/** One store for everything the server said, and the hook that reads a part of it. */
import { createContext, type ReactNode, useContext, useSyncExternalStore } from 'react';
import { type Heard, hear, type Live, NOTHING_YET } from './reducer.ts';

export type Store<T> = {
  readonly get: () => T;
  readonly set: (next: T) => void;
  readonly subscribe: (listener: () => void) => () => void;
};

export function createStore<T>(first: T): Store<T> {
  let value = first;
  const listeners = new Set<() => void>();
  return {
    get: () => value,
    set: (next) => {
      if (Object.is(next, value)) return;
      value = next;
      for (const listener of listeners) listener();
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** A part of a store; the component is drawn again only when that part is another object. */
export function useStore<T, P>(store: Store<T>, pick: (value: T) => P): P {
  return useSyncExternalStore(store.subscribe, () => pick(store.get()));
}

export const liveStore = createStore<Live>(NOTHING_YET);

export const heard = (said: Heard): void => liveStore.set(hear(liveStore.get(), said));

/** What the pages below it show: the running line, or a moment of a record with nothing to command. */
export type Source = {
  readonly store: Store<Live>;
  /** Why nothing can be commanded from here, in a sentence; null for the running line. */
  readonly barred: string | null;
  /** Whose console the buttons are drawn for; null for this very one. */
  readonly seenAt: string | null;
  /** Drawn in place of the ribbon of the running line; null for that. */
  readonly ribbon: ReactNode;
  /** A line runs behind this page, whatever the page shows: its emergency stop stays in reach. */
  readonly hasLine: boolean;
};

export const RUNNING_LINE: Source = {
  store: liveStore,
  barred: null,
  seenAt: null,
  ribbon: null,
  hasLine: true,
};

export const SourceContext = createContext<Source>(RUNNING_LINE);

export const useSource = (): Source => useContext(SourceContext);

/** Pick must return a part that exists in the store (or a plain value), never a new object. */
export const useLive = <P>(pick: (live: Live) => P): P => useStore(useSource().store, pick);
