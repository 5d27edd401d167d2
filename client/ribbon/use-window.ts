/** Which stretch of the shift is in sight: zoom, pan and follow. */
import { useCallback, useState } from 'react';
import { stretchOf, type Window, zoomAbout } from './scale.ts';

export type Sight = {
  readonly fromMs: number;
  readonly spanMs: number;
  readonly isWhole: boolean;
  readonly isFollowing: boolean;
  readonly show: (spanMs: number) => void;
  readonly zoom: (aboutMs: number, factor: number) => void;
  readonly pan: (byMs: number) => void;
  readonly follow: () => void;
  /** Moves the window just enough to have a moment in sight. */
  readonly bringInSight: (atMs: number) => void;
};

export const useWindow = (atMs: number, wholeMs: number): Sight => {
  const [window, setWindow] = useState<Window>({ spanMs: Number.POSITIVE_INFINITY, fromMs: null });
  const { fromMs, spanMs } = stretchOf(window, atMs, wholeMs);
  const show = useCallback((span: number) => setWindow({ spanMs: span, fromMs: null }), []);
  const follow = useCallback(() => setWindow((old) => ({ ...old, fromMs: null })), []);
  const zoom = useCallback(
    (aboutMs: number, factor: number) =>
      setWindow((old) => {
        const next = zoomAbout(stretchOf(old, atMs, wholeMs), aboutMs, factor, wholeMs);
        return next.spanMs >= wholeMs ? { spanMs: Number.POSITIVE_INFINITY, fromMs: null } : next;
      }),
    [atMs, wholeMs],
  );
  const pan = useCallback(
    (byMs: number) =>
      setWindow((old) => {
        const now = stretchOf(old, atMs, wholeMs);
        return { spanMs: old.spanMs, fromMs: now.fromMs + byMs };
      }),
    [atMs, wholeMs],
  );
  const bringInSight = useCallback(
    (ms: number) =>
      setWindow((old) => {
        const now = stretchOf(old, atMs, wholeMs);
        if (ms >= now.fromMs && ms <= now.fromMs + now.spanMs) return old;
        return { spanMs: old.spanMs, fromMs: ms - now.spanMs / 2 };
      }),
    [atMs, wholeMs],
  );
  return {
    fromMs,
    spanMs,
    isWhole: spanMs >= wholeMs,
    isFollowing: window.fromMs === null,
    show,
    zoom,
    pan,
    follow,
    bringInSight,
  };
};
