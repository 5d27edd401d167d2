/** Grams by lot, put together and taken off. */
import { apportion } from '../trace/apportion.ts';
import { sumOf } from './parts.ts';
import type { LotShare } from './state.types.ts';

/** Shares by lot, less others. */
export const lessLots = (lots: readonly LotShare[], off: readonly LotShare[]): LotShare[] =>
  lots
    .map(({ lot, grams }) => ({
      lot,
      grams: grams - sumOf(off.filter((one) => one.lot === lot)),
    }))
    .filter((one) => one.grams > 0);

/** Shares by lot put together, each lot once. */
export const joinLots = (lots: readonly LotShare[], more: readonly LotShare[]): LotShare[] => {
  const sums = new Map<string, number>();
  for (const { lot, grams } of [...lots, ...more]) sums.set(lot, (sums.get(lot) ?? 0) + grams);
  return [...sums].map(([lot, grams]) => ({ lot, grams }));
};

/** So many grams out of lots that lie mixed, in proportion and to the gram; no more than there are. */
export const mixedShares = (lots: readonly LotShare[], grams: number): LotShare[] => {
  const shares = apportion(
    lots.map((one) => one.grams),
    Math.min(grams, sumOf(lots)),
  );
  return lots.map(({ lot }, i) => ({ lot, grams: shares[i] ?? 0 })).filter((one) => one.grams > 0);
};
