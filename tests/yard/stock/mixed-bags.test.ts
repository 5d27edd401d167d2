/** Bags filled from several layers at once, patches that two loads want, and mix that is moved about. */
import { beforeEach, describe, expect, it } from 'vitest';
import { viewStock } from '../../../machines/yard/stock/view.ts';
import { StockYard } from './stock-yard.ts';

const MIX = { emulsion: 50, Chips: 450, Grit: 300, Fines: 200 };
const reason = 'as seen in the yard';
let yard: StockYard;

/** 140 kg and 10 kg of one lot in two layers of bay 1: three bags of 50 kg, one of which holds some of both. */
beforeEach(() => {
  yard = new StockYard();
  yard.openLot('260414-1', 'emulsion-patch', 1);
  yard.makeBatch('260414-1', MIX);
  yard.lab.lots = { '260414-1': { state: 'accepted' } };
});
const twoLayers = (): void => {
  yard.put({ do: 'moveMix', from: 'bay:1', to: 'bay:3', kg: 140, reason });
  yard.put({ do: 'moveMix', from: 'bay:1', to: 'bay:3', kg: 10, reason });
};
const bagsLeft = (): number => (yard.state.places.bags ?? []).reduce((sum, { bags }) => sum + bags, 0);
const gramsLeft = (): number => (yard.state.places.bags ?? []).reduce((sum, { grams }) => sum + grams, 0);

describe('bags of several layers', () => {
  beforeEach(() => {
    twoLayers();
    expect(yard.put({ do: 'fillBags', from: 'bay:3', bags: 3, weighedKg: [50, 50, 50] })).toEqual([]);
  });

  it('weigh what they were filled with, whichever layers they hold', () => {
    yard.put({ do: 'makeOutLoad', mix: 'emulsion-patch', as: 'bags', vehicle: 'van', kg: 100 });
    const out = { do: 'weighOut', load: 'L-260414-1', tareKg: 1500, grossKg: 1600, bags: 2 } as const;
    expect(yard.put(out)).toEqual([]);
    expect(yard.state.loads['L-260414-1']?.weighed).toMatchObject({ netGrams: 100_000, bags: 2 });
    expect([bagsLeft(), gramsLeft()]).toEqual([1, 50_000]);
    yard.put({ do: 'makeOutLoad', mix: 'emulsion-patch', as: 'bags', vehicle: 'van', kg: 50 });
    expect(yard.put({ ...out, load: 'L-260414-2', grossKg: 1550, bags: 1 })).toEqual([]);
    expect([bagsLeft(), gramsLeft()]).toEqual([0, 0]);
  });

  it('are counted down with the mass that goes to waste', () => {
    yard.put({ do: 'wasteMix', from: 'bags', lot: '260414-1', kg: 50, reason });
    expect([bagsLeft(), gramsLeft()]).toEqual([2, 100_000]);
    const id = yard.state.movements.at(-1)?.id;
    expect(yard.put({ do: 'reverseMovement', movement: id, reason })).toEqual([]);
    expect([bagsLeft(), gramsLeft()]).toEqual([3, 150_000]);
  });
});

describe('a patch', () => {
  const load = () =>
    yard.put({
      do: 'makeOutLoad',
      mix: 'emulsion-patch',
      vehicle: 'truck 1',
      for: [{ patch: 'Gate', kg: 100 }],
    });

  it('is on one load at a time', () => {
    expect(load()).toEqual([]);
    expect(load()[0]).toMatch(
      /^Patch Gate is on load L-260414-1 already \(made out\): leave it away, or cancel/,
    );
    yard.put({ do: 'cancelLoad', load: 'L-260414-1', reason });
    expect(load()).toEqual([]);
  });

  it('that was taken out of its list is not laid before it is put back', () => {
    const row = { row: 1, place: 'Gate', route: '', takeOff: { mixKg: 100, layersMm: [50] }, takenOut: null };
    const list = (takenOut: string | null) => ({
      lists: {
        'PL-1': { id: 'PL-1', name: 'x', state: 'open', patches: [{ ...row, takenOut }], laidKg: {} },
      },
    });
    yard.patches = list(null);
    const patch = 'PL-1/1';
    yard.put({
      do: 'makeOutLoad',
      mix: 'emulsion-patch',
      vehicle: 'truck 1',
      list: 'PL-1',
      for: [{ patch }],
    });
    yard.put({ do: 'weighOut', load: 'L-260414-1', tareKg: 3000, grossKg: 3100 });
    yard.patches = list('repaved');
    const lay = () => yard.put({ do: 'layPatch', load: 'L-260414-1', patch, kg: 100 });
    expect(lay()[0]).toMatch(/taken out of its list \(repaved\): put it back/);
    yard.patches = list(null);
    expect(lay()).toEqual([]);
    // The list is done and its rows are put away: a wrong entry is still set right.
    yard.patches = { lists: { 'PL-1': { id: 'PL-1', name: 'x', state: 'done', patches: [], laidKg: {} } } };
    expect(yard.put({ do: 'reverseLaid', load: 'L-260414-1', n: 1, reason })).toEqual([]);
    const again = (of: string) => yard.put({ do: 'layPatch', load: 'L-260414-1', patch: of, kg: 90 });
    expect(again('PL-1/7')[0]).toMatch(/There is no row/);
    expect(again(patch)).toEqual([]);
  });
});

it('mix that is moved to another bay has still lain out since it was made', () => {
  yard.openLot('260414-2', 'cutback-patch', 2);
  yard.makeBatch('260414-2', { cutback: 50, Chips: 900 });
  yard.line({ is: 'lotClosed', lot: '260414-2' } as never);
  yard.open({ date: '2026-05-14' });
  yard.put({ do: 'moveMix', from: 'bay:2', to: 'bay:3', kg: 475, reason });
  const lost = (bay: number) =>
    viewStock(yard.state, yard.at, yard.others).places[bay - 1]?.layers[0]?.weathered?.solventLostPct ?? 0;
  expect(lost(2)).toBeGreaterThan(0);
  expect(lost(3)).toBeGreaterThan(0);
});
