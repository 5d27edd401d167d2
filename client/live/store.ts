/** One store for everything the server said, and the hook that reads a part of it. */
import { useSyncExternalStore } from 'react';
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

/** Pick must return a part that exists in the store (or a plain value), never a new object. */
export const useLive = <P>(pick: (live: Live) => P): P => useStore(liveStore, pick);
