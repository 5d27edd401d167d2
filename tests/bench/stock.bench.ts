/** The book of stock after a year of full shifts: what a fact, a command and a view of it cost, and how large it stays. */
import { stockBook } from '../../machines/yard/stock/book.ts';
import { viewStock } from '../../machines/yard/stock/view.ts';
import { StockYard } from '../yard/stock/stock-yard.ts';
import { type Figure, percentile } from './measure.ts';

const SHIFTS = Number(process.env.SHIFTS ?? 250);
const BATCH = { emulsion: 51.7, Chips: 311, Grit: 243, Fines: 140, water: 4.9 } as const;
const TRIES = 200;

const figure = (id: string, what: string, value: number, unit: string): Figure => ({ id, what, value, unit });

/** One shift: eight lots of 13 batches, six loads of ten patches. */
const workShift = (yard: StockYard, shift: number): void => {
  yard.open();
  for (let n = 1; n <= 8; n += 1) {
    const lot = `S${shift}-${n}`;
    yard.openLot(lot, 'emulsion-patch', 1 + (n % 3));
    yard.lab.lots[lot] = { state: 'accepted' };
    for (let batch = 0; batch < 13; batch += 1) yard.makeBatch(lot, { ...BATCH });
    yard.line({ is: 'lotClosed', lot, grams: 9_757_800, batches: 13, short: true, why: 'full' });
  }
  for (let n = 0; n < 6; n += 1) {
    yard.put({ do: 'makeOutLoad', mix: 'emulsion-patch', vehicle: 'truck', kg: 13_000 });
    const load = Object.keys(yard.state.loads).at(-1) ?? '';
    yard.put({ do: 'weighOut', load, tareKg: 5000, grossKg: 18_000 });
    for (let patch = 0; patch < 10; patch += 1)
      yard.put({ do: 'layPatch', load, patch: `PL-${shift}/${patch}`, kg: 1300 });
  }
};

const timesMs = (what: () => unknown): number[] =>
  Array.from({ length: TRIES }, () => {
    const from = performance.now();
    what();
    return performance.now() - from;
  }).sort((a, b) => a - b);

export async function benchStock(): Promise<Figure[]> {
  const yard = new StockYard();
  const from = performance.now();
  for (let shift = 1; shift <= SHIFTS; shift += 1) workShift(yard, shift);
  const spentMs = performance.now() - from;
  yard.openLot('last', 'emulsion-patch', 1);
  for (let batch = 0; batch < 13; batch += 1) yard.makeBatch('last', { ...BATCH });
  yard.lab.lots.last = { state: 'accepted' };
  yard.put({ do: 'makeOutLoad', mix: 'emulsion-patch', vehicle: 'truck', kg: 500 });
  const load = Object.keys(yard.state.loads).at(-1) ?? '';
  const command = { do: 'weighOut', load, tareKg: 5000, grossKg: 5500 } as const;
  const by = { person: 'pell', role: 'storekeeper' } as const;
  const answers = timesMs(() => stockBook.answer(yard.state, { command, by, at: yard.at }, yard.others));
  const views = timesMs(() => viewStock(yard.state, yard.at, yard.others));
  return [
    figure(
      'stock.shift',
      `a full shift heard and its loads written, mean of ${SHIFTS}`,
      spentMs / SHIFTS,
      'ms',
    ),
    figure(
      'stock.state',
      `state after ${SHIFTS} shifts, as JSON`,
      JSON.stringify(yard.state).length / 1e6,
      'MB',
    ),
    figure('stock.answer.p99', 'a load weighed out, 99th percentile', percentile(answers, 99), 'ms'),
    figure('stock.view.p99', 'the view a console is sent, 99th percentile', percentile(views, 99), 'ms'),
  ];
}
