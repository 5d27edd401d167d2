/** The newest part of the record on this page: it grows as the line writes, and back in time when asked. */
import { useCallback, useEffect, useRef, useState } from 'react';
import { liveStore } from '../live/store.ts';
import { fetchRecord, type RecordLine } from './entries.ts';

/** Entries of every kind looked through at a time; most are readings. */
const WINDOW = 3000;
const LOOK_EVERY_MS = 2000;
/** More lines than a person reads, few enough to draw at once. */
const LINES_LIMIT = 1500;

type Known = { readonly from: number; readonly upTo: number; readonly lines: readonly RecordLine[] };

export type RecordHere = {
  readonly lines: readonly RecordLine[] | null;
  readonly trouble: string | null;
  readonly hasEarlier: boolean;
  readonly earlier: () => void;
  readonly again: () => void;
};

export function useRecord(): RecordHere {
  const [known, setKnown] = useState<Known | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const latest = useRef<Known | null>(null);
  const busy = useRef(false);

  const load = useCallback(async (after: number, upTo: number) => {
    if (busy.current || upTo <= after) return;
    busy.current = true;
    const fetched = await fetchRecord(after, upTo);
    busy.current = false;
    if (!fetched.ok) {
      setTrouble(fetched.why);
      return;
    }
    setTrouble(null);
    const last = latest.current;
    const lines = last === null ? fetched.lines : [...last.lines, ...fetched.lines];
    latest.current = {
      from: Math.min(after, last?.from ?? after),
      upTo: Math.max(upTo, last?.upTo ?? upTo),
      lines: [...lines].sort((a, b) => b.seq - a.seq).slice(0, LINES_LIMIT),
    };
    setKnown(latest.current);
  }, []);

  const again = useCallback(() => {
    const head = liveStore.get().run?.seq ?? 0;
    const last = latest.current;
    void load(last === null ? Math.max(0, head - WINDOW) : last.upTo, head);
  }, [load]);

  useEffect(() => {
    again();
    const timer = setInterval(again, LOOK_EVERY_MS);
    return () => clearInterval(timer);
  }, [again]);

  const earlier = useCallback(() => {
    const from = latest.current?.from ?? 0;
    void load(Math.max(0, from - WINDOW), from);
  }, [load]);

  return {
    lines: known?.lines ?? null,
    trouble,
    hasEarlier: known !== null && known.from > 0 && known.lines.length < LINES_LIMIT,
    earlier,
    again,
  };
}
