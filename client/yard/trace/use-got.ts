/** Asks the server for JSON at a path; an older answer that comes late is dropped. */
import { useCallback, useEffect, useState } from 'react';

export type Got<T> = {
  readonly value: T | null;
  readonly because: readonly string[] | null;
  readonly loading: boolean;
};
const NOTHING = { value: null, because: null, loading: false };

/** Null asks for nothing. `again` asks the same once more. */
export function useGot<T>(path: string | null): Got<T> & { readonly again: () => void } {
  const [got, setGot] = useState<Got<T>>(NOTHING);
  const [turn, setTurn] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each turn asks again
  useEffect(() => {
    if (path === null) {
      setGot(NOTHING);
      return;
    }
    const stop = new AbortController();
    setGot((before) => ({ ...before, because: null, loading: true }));
    fetch(path, { signal: stop.signal })
      .then(async (response) => {
        const value = (await response.json()) as T & { because?: readonly string[] };
        if (stop.signal.aborted) return;
        if (response.ok) setGot({ value, because: null, loading: false });
        else {
          const because = value.because ?? [`The server answered ${response.status}.`];
          setGot({ value: null, because, loading: false });
        }
      })
      .catch(() => {
        if (stop.signal.aborted) return;
        const because = ['The server does not answer: see whether the program still runs.'];
        setGot({ value: null, because, loading: false });
      });
    return () => stop.abort();
  }, [path, turn]);
  const again = useCallback(() => setTurn((n) => n + 1), []);
  return { ...got, again };
}
