/** The books come to the same state heard at once or saved and read again in between, also for lots put away long ago. */
import { expect, it } from 'vitest';
import { labBook } from '../../machines/lab/book.ts';
import { LOTS_WHOLE } from '../../machines/lab/fold-away.ts';
import { allLots, lotIn } from '../../machines/lab/lots.ts';
import { EMPTY_LAB } from '../../machines/lab/state.ts';
import type { Fact } from '../../machines/line/facts.ts';
import type { Book, Heard } from '../../machines/record/book.types.ts';
import { stockBook } from '../../machines/yard/stock/book.ts';
import { EMPTY_STOCK } from '../../machines/yard/stock/state.types.ts';

const LOTS = 2 * LOTS_WHOLE + 40;
const nameOf = (i: number): string =>
  `26${i < 150 ? '05' : '06'}${10 + Math.floor((i % 150) / 9)}-${(i % 9) + 1}`;

/** Lots opened, filled by two batches and closed; in between one of the oldest is told of. */
const history = (): Heard[] => {
  const facts: unknown[] = [];
  for (let i = 0; i < LOTS; i += 1) {
    const lot = nameOf(i);
    facts.push({
      is: 'lotOpened',
      lot,
      mix: 'patch',
      mixVersion: 1,
      family: 'emulsion',
      bay: 1,
      samplesAtKg: [100],
    });
    for (const batch of [1, 2]) {
      facts.push({ is: 'massMoved', from: 'mixer', to: `lot:${lot}`, grams: 700_000 + i, material: 'mix' });
      facts.push({
        is: 'batchDischarged',
        lot,
        batch,
        bay: 1,
        grams: 700_000 + i,
        mixC: 20 + batch,
        parts: [],
      });
    }
    facts.push({ is: 'sampleMissed', lot: nameOf(Math.floor(i / 3)), sample: 1 });
    facts.push({ is: 'lotClosed', lot, grams: 1_400_000 + 2 * i, short: false });
  }
  return facts.map((fact, i) => ({
    seq: i + 1,
    shift: 1,
    at: '2026-06-20T08:00:00',
    from: 'line',
    fact: fact as Fact,
  }));
};

const heardBy = <S>(book: Pick<Book<S, never, never, never>, 'hear'>, empty: S, saveEvery: number): S =>
  history().reduce((state, heard, i) => {
    const next = book.hear(state, heard);
    return i % saveEvery === 0 ? (JSON.parse(JSON.stringify(next)) as S) : next;
  }, empty);

it('the lab comes to the same, and keeps every lot where it is found', () => {
  const atOnce = heardBy(labBook, EMPTY_LAB, Number.POSITIVE_INFINITY);
  expect(JSON.stringify(heardBy(labBook, EMPTY_LAB, 7))).toBe(JSON.stringify(atOnce));
  expect(allLots(atOnce)).toHaveLength(LOTS);
  expect(Object.keys(atOnce.lots).length).toBeLessThan(LOTS_WHOLE + 20);
  expect(Object.keys(atOnce.past)).toEqual(['26-05', '26-06']);
  for (let i = 0; i < LOTS; i += 1) expect(lotIn(atOnce, nameOf(i))?.grams).toBe(1_400_000 + 2 * i);
  // Told of when it had been put away already.
  const late = Math.floor((LOTS - 1) / 3);
  expect(Object.hasOwn(atOnce.lots, nameOf(late))).toBe(false);
  expect(lotIn(atOnce, nameOf(late))?.samples[0]?.state).toBe('missed');
});

it('the stock comes to the same, with what is counted beside an open lot in it once it is closed', () => {
  const atOnce = heardBy(stockBook, EMPTY_STOCK, Number.POSITIVE_INFINITY);
  expect(JSON.stringify(heardBy(stockBook, EMPTY_STOCK, 5))).toBe(JSON.stringify(atOnce));
  expect(atOnce.filling).toEqual({});
  for (let i = 0; i < LOTS; i += 1)
    expect(atOnce.lots[nameOf(i)]).toMatchObject({ madeGrams: 1_400_000 + 2 * i, batches: 2 });
});
