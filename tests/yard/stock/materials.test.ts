/** Deliveries, what is drawn of which, dips and reconciliation, order levels, expiry, and levels from shift to shift. */
import { beforeEach, describe, expect, it } from 'vitest';
import { stockBook } from '../../../machines/yard/stock/book.ts';
import { stockCommandSchema } from '../../../machines/yard/stock/commands.ts';
import { bySource, sumOf } from '../../../machines/yard/stock/parts.ts';
import { viewMaterials } from '../../../machines/yard/stock/views/materials.ts';
import { StockYard, TIBOR } from './stock-yard.ts';

const reason = 'found in the yard';
let yard: StockYard;
beforeEach(() => {
  yard = new StockYard();
});

const parts = (store: string) =>
  Object.fromEntries(bySource(yard.state.stores[store]?.parts ?? []).map((one) => [one.source, one.grams]));
const store = (id: string) =>
  viewMaterials(yard.state, yard.at, yard.others).stores.find((one) => one.id === id);

const deliver = (
  ticket: string,
  kg: number,
  seconds: number,
  product: 'cutback' | 'emulsion' = 'cutback',
) => {
  yard.line({ is: 'deliveryBegun', tank: 'cutback', product, kg, ticket, by: TIBOR });
  yard.line({
    is: 'deliveryConfirmed',
    tank: 'cutback',
    product,
    by: { person: 'halvard', role: 'supervisor' },
  });
  const from = Number(yard.at.slice(14, 16)) * 60 + Number(yard.at.slice(17, 19)) + seconds;
  const two = (n: number) => String(n).padStart(2, '0');
  yard.at = `2026-04-14T06:${two(Math.floor(from / 60))}:${two(from % 60)}`;
  yard.line({ is: 'deliveryEnded', tank: 'cutback', by: TIBOR });
};

describe('a delivery', () => {
  it('announced on paper is the one pumped under the same ticket, with who confirmed at the tank what it is', () => {
    expect(
      yard.put({ do: 'registerDelivery', material: 'cutback', ticket: 'TK-1', supplier: 'Norrow', kg: 6000 }),
    ).toEqual([]);
    expect(sumOf(yard.state.stores['tank:cutback']?.parts ?? [])).toBe(8_000_000);
    deliver('TK-1', 6000, 500);
    expect(Object.keys(yard.state.deliveries)).toEqual(['D-260414-1']);
    expect(yard.state.deliveries['D-260414-1']).toMatchObject({
      state: 'received',
      supplier: 'Norrow',
      receivedGrams: 6_000_000,
      confirmed: { product: 'cutback', by: { person: 'halvard' } },
    });
    expect(parts('tank:cutback')).toEqual({ 'OPENING:cutback': 8_000_000, 'D-260414-1': 6_000_000 });
  });

  it('broken off counts what was pumped by then, at 12 kg a second', () => {
    deliver('TK-2', 6000, 100);
    expect(parts('tank:cutback')).toEqual({ 'OPENING:cutback': 8_000_000, 'D-260414-1': 1_200_000 });
  });

  it('begun while a batch draws is in that batch already: a recall names too much rather than too little', () => {
    yard.openLot('260414-1', 'cutback-patch', 2);
    yard.line({ is: 'deliveryBegun', tank: 'cutback', product: 'cutback', kg: 8000, ticket: 'T', by: TIBOR });
    yard.makeBatch('260414-1', { cutback: 40 });
    const binder = yard.edges.filter((one) => one.to.kind === 'batch');
    expect(binder.map((one) => [one.from.id, one.grams])).toEqual([
      ['OPENING:cutback', 20_000],
      ['D-260414-1', 20_000],
    ]);
  });

  it('stands once: the same ticket is refused, and a correction keeps what was and what is', () => {
    const enter = () =>
      yard.put({ do: 'registerDelivery', material: 'aggregate', bin: 1, ticket: 'W-1', kg: 20_000 });
    expect(enter()).toEqual([]);
    expect(enter()[0]).toMatch(/^Ticket W-1 is entered already as D-260414-1 \(20\.00 t\)/);
    expect(yard.put({ do: 'correctDelivery', delivery: 'D-260414-1', kg: 20_200, reason })).toEqual([]);
    expect(parts('pile:1')).toEqual({ 'OPENING:Chips': 60_000_000, 'D-260414-1': 20_200_000 });
    expect(yard.put({ do: 'cancelDelivery', delivery: 'D-260414-1', reason })).toEqual([]);
    expect(parts('pile:1')).toEqual({ 'OPENING:Chips': 60_000_000 });
    expect(enter()).toEqual([]);
  });

  it('whose number a truck took between asking and writing takes the next one, and neither is lost', () => {
    const asked = stockBook.answer(
      yard.state,
      {
        command: stockCommandSchema.parse({
          do: 'registerDelivery',
          material: 'aggregate',
          bin: 1,
          ticket: 'W-9',
          kg: 20_000,
        }),
        by: TIBOR,
        at: yard.at,
      },
      {},
    );
    deliver('TK-9', 1200, 200);
    if (!asked.ok) throw new Error(asked.because.join(' '));
    for (const fact of asked.facts) yard.tell(fact);
    expect(parts('tank:cutback')['D-260414-1']).toBe(1_200_000);
    expect(parts('pile:1')['D-260414-2']).toBe(20_000_000);
  });

  it('that has expired is refused, and one that soon will is named to be used first', () => {
    const enter = (keepsUntil: string) =>
      yard.put({
        do: 'registerDelivery',
        material: 'anti-strip',
        ticket: `A-${keepsUntil}`,
        kg: 100,
        keepsUntil,
      });
    expect(enter('2026-04-13')[0]).toMatch(/expired on 2026-04-13 already/);
    expect(enter('2026-04-20')).toEqual([]);
    const expiry = () => viewMaterials(yard.state, yard.at, yard.others).expiry;
    expect(expiry()).toMatchObject([{ material: 'anti-strip', daysLeft: 6, word: 'use first' }]);
    yard.at = '2026-04-21T06:00:00';
    expect(expiry()).toMatchObject([{ word: 'expired' }]);
  });
});

describe('what is drawn', () => {
  it('is in proportion from a tank and first in, first out from bin and heap', () => {
    deliver('TK-3', 4000, 500);
    yard.put({ do: 'registerDelivery', material: 'aggregate', bin: 1, ticket: 'W-2', kg: 20_000 });
    yard.openLot('260414-1', 'cutback-patch', 2);
    yard.makeBatch('260414-1', { cutback: 90, Chips: 16_100 });
    yard.line({ is: 'binRefillAsked', bin: 1, by: TIBOR });
    const into = yard.edges.filter((one) => one.to.kind === 'batch').map((one) => [one.from.id, one.grams]);
    expect(into).toEqual([
      ['OPENING:cutback', 60_000],
      ['D-260414-1', 30_000],
      ['OPENING:Chips', 16_000_000],
      ['A-UNCOVERED:Chips', 100_000],
    ]);
    expect(store('bin:1')).toMatchObject({ kg: 18_000, uncoveredKg: 100 });
    expect(parts('pile:1')).toEqual({ 'OPENING:Chips': 42_000_000, 'D-260414-2': 20_000_000 });
  });

  it('gives the rate of use, the days left, and when to order with the lead time', () => {
    yard.openLot('260414-1', 'emulsion-patch', 1);
    for (let i = 0; i < 10; i += 1) yard.makeBatch('260414-1', { emulsion: 50 });
    // 9500 − 500 = 9000 kg at 500 kg a day; 5 + 2 days to keep.
    expect(store('tank:emulsion')).toMatchObject({
      useKgDay: 500,
      daysLeft: 18,
      orderAtKg: 3500,
      order: 'enough',
    });
    const rule = { leadDays: 15, reserveDays: 5, orderKg: 9000, lossPct: 1, keepsDays: null, reason };
    expect(yard.put({ do: 'setRule', store: 'tank:emulsion', ...rule })).toEqual([]);
    expect(store('tank:emulsion')).toMatchObject({ orderAtKg: 10_000, order: 'order now' });
    yard.put({ do: 'setRule', store: 'tank:emulsion', ...rule, leadDays: 19 });
    expect(store('tank:emulsion')?.order).toBe('too late');
  });
});

describe('a dip', () => {
  it('is worked out and held against the books; beyond the limit the loss is not explained', () => {
    yard.openLot('260414-1', 'emulsion-patch', 1);
    for (let i = 0; i < 10; i += 1) yard.makeBatch('260414-1', { emulsion: 50 });
    // Half full: 1 m of a cylinder Ø 2 m × 4.5 m is 7068.6 L; emulsion at 15 °C, 1.010 kg/L: 7139.3 kg.
    expect(yard.put({ do: 'dipTank', tank: 'emulsion', dipMm: 1000, tempC: 15 })).toEqual([]);
    const measured = store('tank:emulsion')?.measured;
    expect(measured).toMatchObject({ bookGrams: 9_000_000, booked: false, how: 'dip 1000 mm at 15 °C' });
    expect((measured?.measuredGrams ?? 0) / 1000).toBeCloseTo(7139.3, 1);
    // 0.5 % of 500 kg, and 3 mm over 2 m × 4.5 m: 2.5 + 27.3 kg.
    expect((measured?.limitGrams ?? 0) / 1000).toBeCloseTo(29.8, 1);
    expect(store('tank:emulsion')?.loss).toBe('beyond');
    expect(sumOf(yard.state.stores['tank:emulsion']?.parts ?? [])).toBe(9_000_000);
  });

  it('may bring the books to it with a reason, which begins a new period, and that can be taken back', () => {
    expect(
      yard.put({ do: 'dipTank', tank: 'emulsion', dipMm: 1000, tempC: 15, adjustReason: reason }),
    ).toEqual([]);
    expect(store('tank:emulsion')?.kg).toBeCloseTo(7139.3, 1);
    expect(yard.state.stores['tank:emulsion']?.period).toMatchObject({
      inGrams: 0,
      outGrams: 0,
      adjustedGrams: 0,
    });
    const id = yard.state.movements.at(-1)?.id ?? '';
    expect(yard.put({ do: 'reverseMovement', movement: id, reason })).toEqual([]);
    expect(store('tank:emulsion')?.kg).toBe(9500);
  });

  it('that cannot be is refused', () => {
    expect(yard.put({ do: 'dipTank', tank: 'cutback', dipMm: 1901, tempC: 80 })[0]).toMatch(/1900 mm high/);
    yard.line({ is: 'deliveryBegun', tank: 'cutback', product: 'cutback', kg: 900, ticket: 'T9', by: TIBOR });
    expect(yard.put({ do: 'dipTank', tank: 'cutback', dipMm: 900, tempC: 80 })[0]).toMatch(/being pumped/);
    expect(yard.put({ do: 'countStore', store: 'bin:1', kg: 18_001 })[0]).toMatch(/holds 18000 kg at most/);
    expect(yard.put({ do: 'countStore', store: 'tank:cutback', kg: 1 })[0]).toMatch(/dipped, not counted/);
  });
});

describe('a shift that opens', () => {
  it('at the levels the books have changes nothing; at others it is an adjustment, never silence', () => {
    yard.openLot('260414-1', 'emulsion-patch', 1);
    yard.makeBatch('260414-1', { emulsion: 50, Chips: 700 });
    const levels = { tanksKg: { emulsion: 9450, cutback: 8000 }, binsKg: [15_300, 16_000, 12_000] };
    const before = yard.edges.length;
    yard.open({ levels });
    expect(yard.edges.length).toBe(before);
    expect(parts('tank:emulsion')).toEqual({ 'OPENING:emulsion': 9_450_000 });
    yard.open({ levels: { ...levels, tanksKg: { emulsion: 9000, cutback: 8100 } } });
    expect(parts('tank:cutback')).toEqual({
      'OPENING:cutback': 8_000_000,
      'OPENING:cutback:2026-04-14': 100_000,
    });
    expect(yard.edges.slice(before).map((one) => [one.from.id, one.to.kind, one.grams])).toEqual([
      ['OPENING:emulsion', 'adjustment', 450_000],
    ]);
  });

  it('leaves no mix behind on the line: what it held is run out to waste', () => {
    yard.line({ is: 'massMoved', from: 'materials', to: 'hopper', grams: 300_000, material: 'Chips' });
    yard.open({ levels: { binsKg: [15_700, 16_000, 12_000] } });
    expect(yard.state.wasteGrams).toBe(300_000);
    expect(yard.state.line).toEqual({});
  });
});
