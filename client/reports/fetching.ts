/** Asks the server and keeps the newest answer: an older one that comes late is dropped. */
import { useCallback, useEffect, useState } from 'react';

export type Fetched<T> =
  | { readonly is: 'nothing' }
  | { readonly is: 'coming'; readonly last: T | null }
  | { readonly is: 'here'; readonly value: T }
  | { readonly is: 'failed'; readonly why: string };

/** What the server said was wrong, as a sentence. */
const whyNot = async (response: Response): Promise<string> => {
  const said: unknown = await response.json().catch(() => null);
  const because = typeof said === 'object' && said !== null && 'because' in said ? said.because : null;
  return Array.isArray(because) ? because.join(' ') : `The server answered ${response.status}.`;
};

/** Fetches `path` whenever it changes and when `again` is called; null asks for nothing. */
export function useFetched<T>(path: string | null, isIt: (value: unknown) => value is T) {
  const [fetched, setFetched] = useState<Fetched<T>>({ is: 'nothing' });
  const [turn, setTurn] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each turn asks again
  useEffect(() => {
    if (path === null) {
      setFetched({ is: 'nothing' });
      return;
    }
    const stop = new AbortController();
    setFetched((before) => ({ is: 'coming', last: before.is === 'here' ? before.value : null }));
    (async () => {
      const response = await fetch(path, { signal: stop.signal });
      if (!response.ok) throw new Error(await whyNot(response));
      const value: unknown = await response.json();
      if (!isIt(value)) throw new Error('The server answered something this page does not know.');
      if (!stop.signal.aborted) setFetched({ is: 'here', value });
    })().catch((error: unknown) => {
      if (stop.signal.aborted) return;
      const lost = error instanceof TypeError;
      const why = error instanceof Error ? error.message : String(error);
      setFetched({
        is: 'failed',
        why: lost ? 'The server does not answer: see whether it still runs.' : why,
      });
    });
    return () => stop.abort();
  }, [path, turn, isIt]);
  const again = useCallback(() => setTurn((n) => n + 1), []);
  return { fetched, again };
}
