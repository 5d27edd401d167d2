/** Who sits here and who holds the controls, for deciding what a button says. */
import { useMemo } from 'react';
import type { SeatView } from '../../machines/line/view.types.ts';
import { CONSOLE_ID } from './line.ts';
import type { Standpoint } from './may.ts';
import { useLive, useSource } from './store.ts';

const EMPTY_SEAT: SeatView = { holder: null, askedBy: null, standIn: null };

export function useStandpoint(): Standpoint {
  const me = useLive((live) => live.me);
  const seat = useLive((live) => live.view?.seat ?? EMPTY_SEAT);
  const consoleId = useSource().seenAt ?? CONSOLE_ID;
  return useMemo(() => ({ me, seat, consoleId }), [me, seat, consoleId]);
}
