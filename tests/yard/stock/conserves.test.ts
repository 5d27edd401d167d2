/** Random histories of the yard: not a gram is lost or made at any node, and nothing is ever negative. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Fact } from '../../../machines/line/facts.ts';
import { sumOf } from '../../../machines/yard/stock/parts.ts';
import { nodeKey } from '../../../machines/yard/trace/edges.ts';
import { StockYard, TIBOR } from './stock-yard.ts';

/** `SEED=n npx vitest run -c tests/vitest.config.ts tests/yard/stock` tries other histories. */
const SEED = Number(process.env.SEED ?? 260414);

type Step = (yard: StockYard, pick: (n: number) => number) => void;
const LAB = ['accepted', 'accepted', 'released by concession', 'on hold', 'rejected', 'testing'];
const PARTS = {
  'emulsion-patch': { emulsion: 51.7, Chips: 311, Grit: 243, Fines: 140, water: 4.9 },
  'cutback-patch': { cutback: 39.1, Chips: 350.123, Grit: 250, Fines: 100, 'anti-strip': 0.313 },
} as const;

const lots = (yard: StockYard): string[] => Object.keys(yard.state.lots);
const loads = (yard: StockYard): string[] => Object.keys(yard.state.loads);
const away = (yard: StockYard): string[] =>
  loads(yard).filter((id) => yard.state.loads[id]?.state === 'on the road');
const withLaid = (yard: StockYard): string[] =>
  loads(yard).filter((id) => (yard.state.loads[id]?.laid.length ?? 0) > 0);
const bay = (pick: (n: number) => number): string => `bay:${1 + pick(3)}`;
const mixId = (pick: (n: number) => number) => (pick(2) === 0 ? 'emulsion-patch' : 'cutback-patch');
const any = (all: readonly string[], pick: (n: number) => number): string => all[pick(all.length)] ?? 'none';
const reason = 'as found in the yard';

const STEPS: readonly Step[] = [
  (yard, pick) => {
    const id = `260414-${lots(yard).length + 1}`;
    yard.openLot(id, mixId(pick), 1 + pick(3));
    yard.lab.lots[id] = { state: LAB[pick(LAB.length)] ?? 'testing' };
    for (let i = 0; i <= pick(4); i += 1)
      yard.makeBatch(id, { ...PARTS[mixId(pick)] }, pick(6) === 0 ? 13.37 : 0);
  },
  (yard, pick) => yard.line({ is: 'binRefillAsked', bin: 1 + pick(3), by: TIBOR }),
  (yard, pick) => {
    const tank = pick(2) === 0 ? 'emulsion' : 'cutback';
    const by = TIBOR;
    yard.line({
      is: 'deliveryBegun',
      tank,
      product: tank,
      kg: 500 + pick(4000),
      ticket: `T${pick(999)}`,
      by,
    });
    yard.makeBatch(any(lots(yard), pick), { [tank]: 40.1 });
    yard.at = `2026-04-14T${10 + pick(9)}:0${pick(10)}:11`;
    yard.line({ is: 'deliveryEnded', tank, by });
    yard.at = '2026-04-14T06:00:00';
  },
  (yard, pick) => {
    const move = (from: string, to: string, kg: number): void =>
      yard.line({ is: 'massMoved', from, to, grams: kg * 1000, material: 'dry aggregate' } as Fact);
    yard.line({ is: 'massMoved', from: 'materials', to: 'dryer', grams: 950_001, material: 'Chips' });
    move('dryer', 'holdingBin', 900);
    move('dryer', 'waterLost', 50);
    if (pick(2) === 0) move('holdingBin', 'waste', 10 + pick(500));
    move('materials', 'holdingBin', 3);
    move('holdingBin', 'materials', 2);
  },
  (yard, pick) => {
    yard.put({
      do: 'registerDelivery',
      material: 'aggregate',
      bin: 1 + pick(3),
      ticket: `A${pick(50)}`,
      kg: 20_000 + pick(9),
    });
    yard.put({
      do: 'correctDelivery',
      delivery: any(Object.keys(yard.state.deliveries), pick),
      kg: 18_000 + pick(9000),
      reason,
    });
    if (pick(3) === 0)
      yard.put({ do: 'cancelDelivery', delivery: any(Object.keys(yard.state.deliveries), pick), reason });
  },
  (yard, pick) => {
    yard.put({
      do: 'dipTank',
      tank: 'cutback',
      dipMm: 200 + pick(1500),
      tempC: 60 + pick(30),
      adjustReason: reason,
    });
    yard.put({ do: 'countStore', store: `pile:${1 + pick(3)}`, kg: pick(70_000), adjustReason: reason });
  },
  (yard, pick) => yard.put({ do: 'moveMix', from: bay(pick), to: bay(pick), kg: 1 + pick(2000) / 3, reason }),
  (yard, pick) =>
    yard.put({ do: 'wasteMix', from: bay(pick), lot: any(lots(yard), pick), kg: 1 + pick(900) / 7, reason }),
  (yard, pick) =>
    yard.put({
      do: 'stockTake',
      place: bay(pick),
      measure: { how: 'weighed', kg: pick(4000) + 0.123 },
      reason,
    }),
  (yard, pick) => {
    const weighedKg = Array.from({ length: 3 }, () => 50 + pick(200) / 1000);
    yard.put({ do: 'fillBags', from: bay(pick), bags: 3 + pick(8), weighedKg });
  },
  (yard, pick) => {
    const as = pick(3) === 0 ? 'bags' : 'bulk';
    const wanted = [{ patch: 'PL-260414-1/1', where: 'by the bridge', kg: 100 + pick(1500) }];
    yard.put({ do: 'makeOutLoad', mix: mixId(pick), vehicle: 'truck 3', as, for: wanted });
    const load = loads(yard).at(-1) ?? 'none';
    const bags = 1 + pick(6);
    const netKg = as === 'bags' ? bags * 50.1 : 100 + pick(1800) / 1.7;
    yard.put({ do: 'weighOut', load, tareKg: 3500, grossKg: 3500 + netKg, bags });
  },
  (yard, pick) => {
    for (let i = 0; i < 3; i += 1)
      yard.put({ do: 'layPatch', load: any(away(yard), pick), patch: `P${pick(5)}`, kg: 1 + pick(700) / 3 });
    const load = any(withLaid(yard), pick);
    const ns = (yard.state.loads[load]?.laid ?? []).map((one) => String(one.n));
    if (pick(3) > 0 && ns.length > 0) yard.put({ do: 'reverseLaid', load, n: Number(any(ns, pick)), reason });
  },
  (yard, pick) => {
    const to = pick(3) === 0 ? 'waste' : bay(pick);
    const kg = pick(2) === 0 ? {} : { kg: 1 + pick(300) / 3 };
    yard.put({ do: 'returnMix', load: any(away(yard), pick), to, reason, ...kg });
  },
  (yard, pick) => {
    const ids = yard.state.movements.map((one) => one.id);
    yard.put({ do: 'reverseMovement', movement: any(ids, pick), reason });
  },
  (yard, pick) =>
    yard.open(pick(2) === 0 ? {} : { levels: { tanksKg: { emulsion: 5000.5 }, binsKg: [100, 2000, 3000] } }),
];

/** What came to and what left each node, by all edges so far. */
const balances = (yard: StockYard): Map<string, { in: number; out: number }> => {
  const at = new Map<string, { in: number; out: number }>();
  const of = (key: string) => {
    const one = at.get(key) ?? { in: 0, out: 0 };
    at.set(key, one);
    return one;
  };
  for (const { from, to, grams } of yard.edges) {
    of(nodeKey(from)).out += grams;
    of(nodeKey(to)).in += grams;
  }
  return at;
};

const check = (yard: StockYard): void => {
  const { state } = yard;
  const nodes = balances(yard);
  const kept = (key: string): number => (nodes.get(key)?.in ?? 0) - (nodes.get(key)?.out ?? 0);
  for (const { grams } of yard.edges) expect(Number.isInteger(grams) && grams > 0).toBe(true);
  for (const [key] of nodes) if (key.startsWith('batch ')) expect([key, kept(key)]).toEqual([key, 0]);
  const lying = new Map<string, number>();
  for (const layer of Object.values(state.places).flat()) {
    expect(layer.grams).toBeGreaterThan(0);
    expect(layer.bags).toBeGreaterThanOrEqual(0);
    const key = layer.returned === null ? `lot ${layer.lot}` : `returned ${layer.returned}`;
    lying.set(key, (lying.get(key) ?? 0) + layer.grams);
  }
  for (const [key] of nodes) {
    if (key.startsWith('lot ') || key.startsWith('returned '))
      expect([key, kept(key)]).toEqual([key, lying.get(key) ?? 0]);
    if (key.startsWith('load '))
      expect([key, kept(key)]).toEqual([key, sumOf(state.loads[key.slice(5)]?.aboard ?? [])]);
    if (/^(patch|waste|air) /.test(key)) expect(kept(key)).toBeGreaterThanOrEqual(0);
  }
  // Each delivery: received = gone by its edges + still in stores + still on the line.
  const still = new Map<string, number>();
  const all = [
    ...Object.values(state.stores).flatMap((store) => store.parts),
    ...Object.values(state.line).flat(),
  ];
  for (const { source, grams } of all) {
    expect(grams).toBeGreaterThan(0);
    still.set(source, (still.get(source) ?? 0) + grams);
  }
  for (const one of Object.values(state.deliveries)) {
    const gone = nodes.get(`delivery ${one.id}`)?.out ?? 0;
    expect([one.id, gone + (still.get(one.id) ?? 0)]).toEqual([one.id, one.receivedGrams]);
  }
  for (const store of Object.values(state.stores)) {
    const { openGrams, inGrams, outGrams, adjustedGrams } = store.period;
    expect([store.id, openGrams + inGrams - outGrams + adjustedGrams]).toEqual([
      store.id,
      sumOf(store.parts),
    ]);
  }
  for (const load of Object.values(state.loads))
    for (const { grams } of [...load.aboard, ...load.returned, ...load.wasted])
      expect(grams).toBeGreaterThan(0);
  expect(state.wasteGrams).toBeGreaterThanOrEqual(0);
};

describe('random histories of the stock', () => {
  const reached = new Set<string>();

  it(`conserve every gram at every node, and nothing is negative (SEED=${SEED})`, () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(fc.nat({ max: STEPS.length - 1 }), fc.array(fc.nat(), { minLength: 12, maxLength: 12 })),
          {
            minLength: 25,
            maxLength: 60,
          },
        ),
        (history) => {
          const yard = new StockYard();
          for (const [step, numbers] of history) {
            let at = 0;
            const pick = (n: number): number => {
              at += 1;
              return n === 0 ? 0 : (numbers[at % numbers.length] ?? 0) % n;
            };
            STEPS[step]?.(yard, pick);
          }
          check(yard);
          for (const name of Object.keys(yard.done)) reached.add(name);
        },
      ),
      { numRuns: 60, endOnFailure: true, seed: SEED },
    );
    // A history in which nothing is ever done would prove nothing.
    expect([...reached].sort()).toEqual(
      [
        'cancelDelivery',
        'correctDelivery',
        'countStore',
        'dipTank',
        'fillBags',
        'layPatch',
        'makeOutLoad',
        'moveMix',
        'registerDelivery',
        'returnMix',
        'reverseLaid',
        'reverseMovement',
        'stockTake',
        'wasteMix',
        'weighOut',
      ].sort(),
    );
  });
});
