/** Tracing: grams are conserved at every node, forward and back agree, and hand-worked cases come out. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apportion } from '../../machines/yard/trace/apportion.ts';
import { flowBackward, madeOf, waysTo } from '../../machines/yard/trace/backward.ts';
import { colourEdges, UNKNOWN } from '../../machines/yard/trace/colour.ts';
import { type Edge, type NodeRef, nodeKey, nodeOf } from '../../machines/yard/trace/edges.ts';
import { flowForward } from '../../machines/yard/trace/forward.ts';
import { histories, shuffled } from './trace-histories.ts';

const RUNS = { numRuns: 120 };
const sum = (numbers: Iterable<number>): number => [...numbers].reduce((a, b) => a + b, 0);
/** What came to a node less what left it. */
const heldIn = (edges: readonly Edge[], node: NodeRef): number =>
  sum(edges.filter(({ to }) => nodeKey(to) === nodeKey(node)).map(({ grams }) => grams)) -
  sum(edges.filter(({ from }) => nodeKey(from) === nodeKey(node)).map(({ grams }) => grams));
const isSource = ({ kind }: NodeRef) => kind === 'delivery' || kind === 'adjustment';

describe('apportion', () => {
  it('shares out by largest remainder (hand worked)', () => {
    // 10 g of 7 + 8 + 9 = 24: 2.9167, 3.3333, 3.75 → 2, 3, 3, and the two left go to .9167 and .75.
    expect(apportion([7, 8, 9], 10)).toEqual([3, 3, 4]);
    // Ties go to the part named first.
    expect(apportion([5, 5, 5], 10)).toEqual([4, 3, 3]);
    expect(apportion([0, 3], 3)).toEqual([0, 3]);
    expect(apportion([], 0)).toEqual([]);
  });
  it('loses and makes nothing, and takes no more of a part than there is', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(60_000_000), { maxLength: 30 }), fc.nat(), (parts, n) => {
        const total = sum(parts);
        const grams = total === 0 ? 0 : n % (total + 1);
        const shares = apportion(parts, grams);
        expect(sum(shares)).toBe(grams);
        shares.forEach((share, i) => {
          const exact = total === 0 ? 0 : ((parts[i] as number) * grams) / total;
          expect(share).toBeLessThanOrEqual(parts[i] as number);
          expect(Math.abs(share - exact)).toBeLessThan(1);
        });
      }),
      RUNS,
    );
  });
  it('rounds the same on either side of 2^53, where products are no longer whole numbers to a computer', () => {
    const byHand = (parts: readonly number[], grams: number): number[] => {
      const all = parts.reduce((a, b) => a + BigInt(b), 0n);
      const rest = parts.map((part) => (BigInt(part) * BigInt(grams)) % all);
      const shares = parts.map((part) => (BigInt(part) * BigInt(grams)) / all);
      const over = BigInt(grams) - shares.reduce((a, b) => a + b, 0n);
      const first = parts
        .map((_, i) => i)
        .sort((a, b) => Number((rest[b] as bigint) - (rest[a] as bigint)) || a - b);
      return shares.map((share, i) => Number(share) + (first.indexOf(i) < over ? 1 : 0));
    };
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 90_000_000 }), { minLength: 2, maxLength: 6 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (parts, share) => {
          const grams = Math.floor(sum(parts) * share);
          expect(apportion(parts, grams)).toEqual(byHand(parts, grams));
        },
      ),
      RUNS,
    );
    expect(apportion([94_906_267, 94_906_266], 94_906_266)).toEqual(
      byHand([94_906_267, 94_906_266], 94_906_266),
    );
  });
  it('refuses what cannot be', () => {
    expect(() => apportion([1, 2], 4)).toThrow('4 g cannot be taken from 3 g');
    expect(() => apportion([1.5], 1)).toThrow('no whole number');
    expect(() => apportion([-1], 0)).toThrow('no whole number');
  });
});

describe('colours', () => {
  it('conserve every gram at every node of random histories, in whatever order edges are given', () => {
    fc.assert(
      fc.property(histories(120), fc.nat(), ({ edges }, seed) => {
        const { edges: out, left } = colourEdges(edges, 'delivery');
        const ins = new Map<string, number>();
        for (const { edge, colours } of out) {
          expect(sum(colours.values())).toBe(edge.grams);
          expect(colours.has(UNKNOWN)).toBe(false);
          for (const [colour, grams] of colours) {
            const [to, from] = [nodeKey(edge.to), nodeKey(edge.from)];
            ins.set(`${to}|${colour}`, (ins.get(`${to}|${colour}`) ?? 0) + grams);
            if (!isSource(edge.from))
              ins.set(`${from}|${colour}`, (ins.get(`${from}|${colour}`) ?? 0) - grams);
          }
        }
        for (const [at, grams] of ins) {
          const [node = '', colour = ''] = at.split('|');
          expect(grams).toBeGreaterThanOrEqual(0);
          expect(left.get(node)?.get(colour) ?? 0).toBe(grams);
        }
        const again = colourEdges(shuffled(edges, seed), 'delivery');
        expect(again.edges.map(({ colours }) => [...colours])).toEqual(
          out.map(({ colours }) => [...colours]),
        );
      }),
      RUNS,
    );
  });

  it('say so when more leaves a node than ever came to it', () => {
    const lot: NodeRef = { kind: 'lot', id: '260512-1' };
    const load: NodeRef = { kind: 'load', id: 'L-1' };
    const edges: Edge[] = [
      { from: { kind: 'delivery', id: 'D-1' }, to: lot, grams: 100, seq: 1 },
      { from: lot, to: load, grams: 130, seq: 2 },
    ];
    expect([...(colourEdges(edges, 'delivery').edges[1]?.colours ?? [])]).toEqual([
      ['delivery D-1', 100],
      [UNKNOWN, 30],
    ]);
    expect(madeOf(edges, load, 'delivery')).toEqual([
      { node: { kind: 'delivery', id: 'D-1' }, grams: 100 },
      { node: null, grams: 30 },
    ]);
  });
});

describe('forward', () => {
  const d = (id: string): NodeRef => ({ kind: 'delivery', id });
  const b = (n: number): NodeRef => ({ kind: 'batch', id: `260512-1/${n}` });
  const lot: NodeRef = { kind: 'lot', id: '260512-1' };
  const load = (n: number): NodeRef => ({ kind: 'load', id: `L-${n}` });
  const patch = (n: number): NodeRef => ({ kind: 'patch', id: `PL-1/${n}` });
  /** Two batches of 700 g stone and 50 g binder; the first of binder A, the second half of A and half of B. */
  const edges: Edge[] = [
    { from: d('S'), to: b(1), grams: 700, seq: 10 },
    { from: d('A'), to: b(1), grams: 50, seq: 10 },
    { from: b(1), to: lot, grams: 750, seq: 10 },
    { from: lot, to: load(1), grams: 150, seq: 11 },
    { from: d('S'), to: b(2), grams: 700, seq: 12 },
    { from: d('A'), to: b(2), grams: 25, seq: 12 },
    { from: d('B'), to: b(2), grams: 25, seq: 12 },
    { from: b(2), to: lot, grams: 750, seq: 12 },
    { from: lot, to: load(2), grams: 450, seq: 13 },
    { from: load(1), to: patch(1), grams: 150, seq: 14 },
    { from: load(2), to: patch(2), grams: 300, seq: 15 },
    { from: load(2), to: patch(3), grams: 150, seq: 16 },
  ];

  it('finds every patch and its share (hand worked)', () => {
    const { nodes, grams } = flowForward(edges, [d('A')]);
    expect(grams).toBe(75);
    const at = (node: NodeRef) => nodes.find((one) => nodeKey(one.node) === nodeKey(node));
    // 150 of 750 g took 10 of 50 g of A. Then 40 + 25 = 65 g of A in 1350 g; a third of it is 21.67, by largest remainder 22.
    expect(at(load(1))).toMatchObject({ affectedGrams: 150, shareIn: 10 });
    expect(at(load(2))).toMatchObject({ affectedGrams: 450, shareIn: 22 });
    expect(at(patch(2))?.affectedGrams).toBe(300);
    expect((at(patch(2))?.shareIn ?? 0) + (at(patch(3))?.shareIn ?? 0)).toBe(22);
    expect(at(lot)).toMatchObject({ affectedGrams: 1500, shareIn: 75, shareOut: 32 });
  });

  it('counts all of a mixed load as affected, and of a patch only the layers that are', () => {
    const other: NodeRef = { kind: 'lot', id: '260512-2' };
    const two: Edge[] = [
      { from: d('B'), to: b(1), grams: 100, seq: 1 },
      { from: b(1), to: lot, grams: 100, seq: 1 },
      { from: d('S'), to: other, grams: 300, seq: 2 },
      { from: other, to: load(1), grams: 300, seq: 3 },
      { from: load(1), to: patch(1), grams: 50, seq: 4 },
      { from: lot, to: load(1), grams: 100, seq: 5 },
      { from: load(1), to: patch(1), grams: 200, seq: 6 },
    ];
    const { nodes } = flowForward(two, [d('B')]);
    const at = (node: NodeRef) => nodes.find((one) => nodeKey(one.node) === nodeKey(node));
    // 250 g were in the load when 100 g came to it: 350 g are affected, of which 200 g went on.
    expect(at(load(1))).toMatchObject({ affectedGrams: 350, affectedOut: 200, shareIn: 100, shareOut: 57 });
    expect(at(patch(1))).toMatchObject({ affectedGrams: 200, shareIn: 57 });
  });

  it('leaves out what had gone before it came', () => {
    const { nodes } = flowForward(edges, [d('B')]);
    const kinds = nodes.map(({ node }) => nodeKey(node));
    expect(kinds).not.toContain('load L-1');
    expect(kinds).not.toContain('patch PL-1/1');
    expect(kinds).toContain('patch PL-1/3');
  });

  it('never loses a gram of any origin, and all origins together are all there is', () => {
    fc.assert(
      fc.property(histories(120), ({ edges: all, patches }) => {
        const sources = [
          ...new Set(all.filter(({ from }) => isSource(from)).map(({ from }) => nodeKey(from))),
        ];
        const shares = new Map<string, number>();
        for (const key of sources) {
          const flow = flowForward(all, [nodeOf(key)]);
          const left = sum(
            flow.nodes.filter(({ node }) => !isSource(node)).map((one) => one.shareIn - one.shareOut),
          );
          expect(left).toBe(flow.grams);
          for (const one of flow.nodes) {
            if (!isSource(one.node)) expect(one.shareOut).toBeLessThanOrEqual(one.shareIn);
            expect(one.shareIn).toBeLessThanOrEqual(one.affectedGrams);
            if (!isSource(one.node))
              expect(one.shareIn - one.shareOut).toBeLessThanOrEqual(one.affectedGrams - one.affectedOut);
            if (one.node.kind === 'patch')
              shares.set(
                nodeKey(one.node),
                (shares.get(nodeKey(one.node)) ?? 0) + one.shareIn - one.shareOut,
              );
          }
        }
        for (const node of patches) {
          expect(shares.get(nodeKey(node))).toBe(heldIn(all, node));
        }
      }),
      { numRuns: 40 },
    );
  });
});

describe('backward', () => {
  it('says what a patch is made of to the gram, and forward says the same', () => {
    fc.assert(
      fc.property(histories(120), ({ edges, patches }) => {
        for (const patch of patches.slice(0, 3)) {
          const parts = madeOf(edges, patch, 'delivery');
          const laid = sum(
            edges.filter(({ to }) => nodeKey(to) === nodeKey(patch)).map(({ grams }) => grams),
          );
          expect(sum(parts.map(({ grams }) => grams))).toBe(laid);
          expect(sum(madeOf(edges, patch, 'batch').map(({ grams }) => grams))).toBe(laid);
          for (const { node, grams } of parts) {
            const flow = flowForward(edges, [node as NodeRef]);
            const at = flow.nodes.find((one) => nodeKey(one.node) === nodeKey(patch));
            expect((at?.shareIn ?? 0) - (at?.shareOut ?? 0)).toBe(grams);
          }
        }
      }),
      { numRuns: 40 },
    );
  });

  it('draws nothing that came to a lot after the last of it had left for the patch', () => {
    const at = (kind: NodeRef['kind'], id: string): NodeRef => ({ kind, id });
    const edges: Edge[] = [
      { from: at('delivery', 'D'), to: at('batch', 'L/1'), grams: 100, seq: 1 },
      { from: at('batch', 'L/1'), to: at('lot', 'L'), grams: 100, seq: 1 },
      { from: at('lot', 'L'), to: at('load', 'O'), grams: 60, seq: 2 },
      { from: at('load', 'O'), to: at('patch', 'P'), grams: 60, seq: 3 },
      { from: at('adjustment', 'A-1'), to: at('lot', 'L'), grams: 20, seq: 4 },
      { from: at('lot', 'L'), to: at('load', 'O2'), grams: 60, seq: 5 },
      { from: at('load', 'O2'), to: at('patch', 'P2'), grams: 60, seq: 6 },
    ];
    const sources = (patch: string) =>
      flowBackward(waysTo(edges, at('patch', patch)), at('patch', patch))
        .nodes.filter(({ node }) => isSource(node))
        .map(({ node }) => node.id);
    expect(sources('P')).toEqual(['D']);
    expect(sources('P2').sort()).toEqual(['A-1', 'D']);
  });

  it('draws ways that carry in and out the same at every node between', () => {
    fc.assert(
      fc.property(histories(120), ({ edges, patches }) => {
        for (const patch of patches.slice(0, 3)) {
          const flow = flowBackward(waysTo(edges, patch), patch);
          const laid = edges.filter(({ to }) => nodeKey(to) === nodeKey(patch));
          expect(flow.grams).toBe(sum(laid.map(({ grams }) => grams)));
          for (const one of flow.nodes) {
            if (nodeKey(one.node) === nodeKey(patch)) expect(one.shareIn).toBe(flow.grams);
            else if (!isSource(one.node)) expect(one.shareIn).toBe(one.shareOut);
          }
          expect(sum(flow.nodes.filter(({ node }) => isSource(node)).map((one) => one.shareOut))).toBe(
            flow.grams,
          );
        }
      }),
      { numRuns: 60 },
    );
  });
});
