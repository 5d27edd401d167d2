/** Ids by day and number: D- deliveries, L- loads, A- movements and adjustments. */
import type { StockState } from './state.types.ts';

export type IdKind = 'D' | 'L' | 'A';

/** The plant's clock as the six figures of a day, yymmdd. */
export const dayOf = (at: string): string => at.slice(2, 10).replaceAll('-', '');

/** The next id of a kind, `ahead` more than the next when a command needs several. */
export const nextId = (state: StockState, kind: IdKind, at: string, ahead = 0): string => {
  const day = dayOf(at);
  return `${kind}-${day}-${(state.counted[`${kind}-${day}`] ?? 0) + 1 + ahead}`;
};

const ID = /^([DLA]-\d{6})-(\d+)$/;

/** Counters with an id noted as used; other days of its kind are forgotten. */
export const withUsed = (counted: StockState['counted'], id: string): StockState['counted'] => {
  const [, kindAndDay, n] = ID.exec(id) ?? [];
  if (kindAndDay === undefined || n === undefined) return counted;
  const others = Object.entries(counted).filter(([key]) => key[0] !== id[0] || key === kindAndDay);
  const most = Math.max(counted[kindAndDay] ?? 0, Number(n));
  return { ...Object.fromEntries(others), [kindAndDay]: most };
};
