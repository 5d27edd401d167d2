/** Something fetched from the server, again when asked and by the clock when wanted. */
import { useCallback, useEffect, useRef, useState } from 'react';
import { type Got, get } from './api.ts';

export type Fetched<T> = {
  readonly value: T | null;
  readonly because: readonly string[] | null;
  readonly again: () => void;
};

/** A path of null fetches nothing. The last value stays while a newer one is on its way. */
export function useGot<T>(path: string | null, everyMs: number | null = null): Fetched<T> {
  const [got, setGot] = useState<{ readonly path: string; readonly got: Got<T> } | null>(null);
  const wanted = useRef(path);
  wanted.current = path;
  const again = useCallback(() => {
    if (path === null) return;
    void get<T>(path).then((answer) => {
      if (wanted.current !== path) return;
      setGot((last) => (!answer.ok && last?.path === path && last.got.ok ? last : { path, got: answer }));
    });
  }, [path]);
  useEffect(() => {
    again();
    if (everyMs === null) return;
    const timer = setInterval(again, everyMs);
    return () => clearInterval(timer);
  }, [again, everyMs]);
  const here = got !== null && got.path === path ? got.got : null;
  return {
    value: here?.ok === true ? here.value : null,
    because: here?.ok === false ? here.because : null,
    again,
  };
}
