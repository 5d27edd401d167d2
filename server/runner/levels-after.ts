/** What tanks and bins hold when a shift is over, by the stock's books of that shift: the next one begins there. */
import type { Heard } from '../../machines/record/book.types.ts';
import type { Entry } from '../../machines/record/entry.ts';
import type { Scenario, Shift } from '../../machines/scenario/shift.schema.ts';
import { stockBook } from '../../machines/yard/stock/book.ts';
import { sumOf } from '../../machines/yard/stock/parts.ts';

export type Levels = NonNullable<Shift['levels']>;

const MS_PER_S = 1000;

/** The plant's clock so many ms into a shift, local; a shift may run past midnight. */
const clockOf = ({ date, startsAt }: Shift, atMs: number): string =>
  new Date(Date.parse(`${date}T${startsAt}:00.000Z`) + Math.floor(atMs / MS_PER_S) * MS_PER_S)
    .toISOString()
    .slice(0, 19);

/**
 * Levels after the entries of one shift, kg to the gram. Each shift begins at levels of its own, so no older entry is
 * needed. Null when the scenario has no plant to speak of.
 */
export const levelsAfter = (before: Scenario, entries: readonly Entry[]): Levels | null => {
  const opening = { seq: 0, shift: 0, at: clockOf(before.shift, 0) };
  let state = stockBook.hear(stockBook.empty, { ...opening, from: 'opening', scenario: before });
  for (const entry of entries) {
    const heard: Heard | null =
      entry.kind === 'fact'
        ? {
            ...opening,
            seq: entry.seq,
            at: clockOf(before.shift, entry.atMs),
            from: 'line',
            fact: entry.body.fact,
          }
        : entry.kind === 'ledger' && entry.body.book === 'stock'
          ? {
              ...opening,
              seq: entry.seq,
              at: entry.body.at,
              from: 'stock',
              by: entry.body.by,
              fact: entry.body.fact,
            }
          : null;
    if (heard !== null) state = stockBook.hear(state, heard);
  }
  if (state.yard === null) return null;
  const kgIn = (store: string): number => sumOf(state.stores[store]?.parts ?? []) / 1000;
  return {
    tanksKg: { emulsion: kgIn('tank:emulsion'), cutback: kgIn('tank:cutback') },
    binsKg: state.yard.bins.map((bin) => kgIn(`bin:${bin.bin}`)),
  };
};
