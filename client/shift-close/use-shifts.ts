/** The shifts of the record, asked for again whenever the record has grown. */
import { useCallback, useEffect, useState } from 'react';
import { useLive } from '../live/store.ts';
import { fetchShifts, type ShiftRow } from './shifts.ts';

export type Shifts = {
  /** Null until the first answer. */
  readonly rows: readonly ShiftRow[] | null;
  readonly failed: boolean;
  readonly again: () => void;
};

/** `on`: the newest entry after which to ask again; a running line grows too fast to follow each. */
export function useShifts(): Shifts {
  const ended = useLive((live) => live.view?.shift.ended ?? false);
  const seq = useLive((live) => live.run?.seq ?? 0);
  const [asked, setAsked] = useState(0);
  const [rows, setRows] = useState<readonly ShiftRow[] | null>(null);
  const [failed, setFailed] = useState(false);
  const on = ended ? seq : 0;
  // biome-ignore lint/correctness/useExhaustiveDependencies: each of these is a reason to ask once more
  useEffect(() => {
    let wanted = true;
    void fetchShifts().then((found) => {
      if (!wanted) return;
      setFailed(found === null);
      if (found !== null) setRows(found);
    });
    return () => {
      wanted = false;
    };
  }, [on, ended, asked]);
  const again = useCallback(() => setAsked((n) => n + 1), []);
  return { rows, failed, again };
}
