/** The shift ribbon as the scrubber of the replay, or, without hindsight, as the operator saw it then. */
import { useMemo } from 'react';
import { useStore } from '../live/store.ts';
import { ShiftRibbon } from '../ribbon/ShiftRibbon.tsx';
import { useReplay, useReplayClient } from './context.ts';
import { TICK_MS } from './replay.types.ts';
import { wholeView } from './whole-view.ts';

export function ReplayRibbon() {
  const replay = useReplayClient();
  const view = useStore(replay.sides.a, (live) => live.view);
  const soFar = useReplay((state) => state.soFar);
  const hindsight = useReplay((state) => state.hindsight);
  const at = useReplay((state) => state.at.a);
  const drawn = useMemo(
    () => (view === null || soFar === null || !hindsight ? view : wholeView(view, soFar)),
    [view, soFar, hindsight],
  );
  if (drawn === null) return <p className="empty">The ribbon is drawn as soon as the charts run again.</p>;
  if (!hindsight) return <ShiftRibbon view={drawn} />;
  return <ShiftRibbon view={drawn} at={at * TICK_MS} onSeek={(ms) => replay.seek('a', ms / TICK_MS)} />;
}
