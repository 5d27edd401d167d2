/** The title of the page: alarms first, then what is happening. */
import { useEffect } from 'react';
import { isUnacknowledged } from '../alarms/order.ts';
import { LAB_TABS } from '../lab/tab-names.ts';
import type { Live } from '../live/reducer.ts';
import { useLive } from '../live/store.ts';
import { YARD_TABS } from '../yard/tabs.ts';

export function pageTitle(live: Live, page: string): string {
  if (live.view === null) return `${page} · Patchyard`;
  const fresh = live.view.alarms.filter(isUnacknowledged).length;
  const front = live.link === 'lost' ? 'Connection lost · ' : fresh > 0 ? `▲ ${fresh} · ` : '';
  return `${front}${page === 'Line' ? live.view.now.title : page} · Patchyard`;
}

/** The parts of a page that have addresses of their own, as their tabs name them. */
const PARTS: readonly { readonly path: string; readonly words: string }[] = [...LAB_TABS, ...YARD_TABS];

/** "Bays · Yard" for a part of a page, else the page alone. */
export function pageName(path: string, page: string): string {
  const part = PARTS.find((one) => path === one.path || path.startsWith(`${one.path}/`));
  return part === undefined || page === 'Lots' ? page : `${part.words} · ${page}`;
}

export function usePageTitle(page: string): void {
  const title = useLive((live) => pageTitle(live, page));
  useEffect(() => {
    document.title = title;
  }, [title]);
}
