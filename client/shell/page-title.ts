/** The title of the page: alarms first, then what is happening. */
import { useEffect } from 'react';
import { isUnacknowledged } from '../alarms/order.ts';
import type { Live } from '../live/reducer.ts';
import { useLive } from '../live/store.ts';

export function pageTitle(live: Live, page: string): string {
  if (live.view === null) return `${page} · Patchyard`;
  const fresh = live.view.alarms.filter(isUnacknowledged).length;
  const front = live.link === 'lost' ? 'Connection lost · ' : fresh > 0 ? `▲ ${fresh} · ` : '';
  return `${front}${page === 'Line' ? live.view.now.title : page} · Patchyard`;
}

export function usePageTitle(page: string): void {
  const title = useLive((live) => pageTitle(live, page));
  useEffect(() => {
    document.title = title;
  }, [title]);
}
