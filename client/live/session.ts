/** Which line this page belongs to: the plant's own, or that of a drill, by the address it was loaded from. */
import type { DrillBand } from '../../machines/live/training.ts';
import { recall } from './memory.ts';
import { createStore, useStore } from './store.ts';

const DRILL_PATH = /^\/drill\/([a-z0-9]{6,20})(?:\/|$)/;

/** Id of the drill whose line this page shows; null on the plant's own pages. */
export const SESSION: string | null =
  typeof location === 'undefined' ? null : (DRILL_PATH.exec(location.pathname)?.[1] ?? null);

/** What the addresses of the pages begin with. */
export const PAGES_BASE = SESSION === null ? '' : `/drill/${SESSION}`;
/** Where the live socket of that line is. */
export const LINE_NAMESPACE = SESSION === null ? '/' : `/training/${SESSION}`;

/** In a drill a console is the person's seat in it: the controls stay theirs on whatever screen they sit. */
export const seatIn = (session: string, person: string): string => `drill-${session}-${person}`.slice(0, 64);

/** The console id of this page in a drill; null on the plant's own pages. */
export const drillConsole = (): string | null => {
  if (SESSION === null) return null;
  return seatIn(SESSION, recall('person') ?? `visitor-${Math.floor(Math.random() * 1e9)}`);
};

/** Why this person may not see the line of this page, or null. */
export const barredStore = createStore<readonly string[] | null>(null);

/** What the band of the drill shows; null until the server has told, and on the plant's own pages. */
export const bandStore = createStore<DrillBand | null>(null);
export const useBand = <P>(pick: (band: DrillBand | null) => P): P => useStore(bandStore, pick);
