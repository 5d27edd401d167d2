/** The picture of a flow: nothing overlaps, widths are by mass, a crowd is drawn together, a thread is whole. */
import { describe, expect, it } from 'vitest';
import { layFlow, threadOf } from '../../client/yard/trace/flow-layout.ts';
import type { NodeKind } from '../../machines/yard/trace/edges.ts';
import type { Traced } from '../../machines/yard/trace/traced.types.ts';

const traced = (ways: readonly (readonly [NodeKind, string, NodeKind, string, number])[]): Traced => {
  const nodes = new Map<string, { kind: NodeKind; id: string; in: number; out: number }>();
  const at = (kind: NodeKind, id: string) => {
    const known = nodes.get(`${kind} ${id}`) ?? { kind, id, in: 0, out: 0 };
    nodes.set(`${kind} ${id}`, known);
    return known;
  };
  for (const [a, from, b, to, grams] of ways) {
    at(a, from).out += grams;
    at(b, to).in += grams;
  }
  return {
    direction: 'forward',
    from: { kind: 'delivery', id: 'D' },
    words: '',
    grams: 0,
    patches: [],
    affectedPatchGrams: 0,
    left: [],
    batches: [],
    lots: [],
    loads: [],
    madeOf: [],
    nodes: [...nodes.values()].map(({ kind, id, in: shareInGrams, out: shareOutGrams }) => ({
      kind,
      id,
      words: '',
      affectedGrams: 0,
      shareInGrams,
      shareOutGrams,
    })),
    edges: ways.map(([a, from, b, to, shareGrams]) => ({
      from: { kind: a, id: from },
      to: { kind: b, id: to },
      grams: shareGrams,
      shareGrams,
    })),
  };
};

const many = (batches: number, patches: number): Traced =>
  traced([
    ...Array.from({ length: batches }, (_, i) => {
      const lot = `260512-${1 + (i % 3)}`;
      return [
        ['delivery', 'D', 'batch', `${lot}/${i}`, 1000] as const,
        ['batch', `${lot}/${i}`, 'lot', lot, 1000] as const,
      ];
    }).flat(),
    ...Array.from({ length: patches }, (_, i) => ['load', 'L', 'patch', `PL/${i}`, 10 + i] as const),
    ['lot', '260512-1', 'load', 'L', 900] as const,
  ]);

describe('the picture of a flow', () => {
  it('counts patches without waste, and draws what a stock-take missed where mass ends', () => {
    const flow = traced([
      ['delivery', 'D', 'batch', 'L/1', 1000],
      ['batch', 'L/1', 'lot', 'L', 1000],
      ['lot', 'L', 'adjustment', 'A-260512-1', 100],
      ['lot', 'L', 'waste', 'L', 100],
      ['lot', 'L', 'load', 'O', 800],
      ['load', 'O', 'patch', 'P', 800],
    ]);
    const picture = layFlow(flow, 1000, 400);
    expect(picture.columns.map(({ words, count }) => `${words} ${count}`)).toEqual([
      'Deliveries 1',
      'Batches 1',
      'Lots 1',
      'Loads 1',
      'Patches 1',
    ]);
    expect(picture.boxes.find(({ key }) => key === 'adjustment A-260512-1')?.column).toBe(4);
  });

  it.each([
    [5, 6, 640],
    [80, 31, 760],
    [300, 200, 1360],
  ])(
    'of %i batches and %i patches in %i px has no two boxes over each other and all of them inside',
    (b, p, w) => {
      const { boxes, height, columns } = layFlow(many(b, p), w, 380);
      expect(columns.map(({ words }) => words)).toEqual([
        'Deliveries',
        'Batches',
        'Lots',
        'Loads',
        'Patches',
      ]);
      for (const box of boxes) {
        expect(box.x).toBeGreaterThanOrEqual(0);
        expect(box.x + box.w).toBeLessThanOrEqual(w);
        expect(box.y).toBeGreaterThanOrEqual(0);
        expect(box.y + box.h).toBeLessThanOrEqual(height);
        for (const other of boxes)
          if (other !== box && other.column === box.column)
            expect(other.y >= box.y + box.h || box.y >= other.y + other.h).toBe(true);
      }
    },
  );

  it('counts every node once, draws many batches by their lot and the smallest of many patches as one', () => {
    const { boxes, columns } = layFlow(many(80, 200), 1000, 380);
    expect(columns.map(({ count }) => count)).toEqual([1, 80, 3, 1, 200]);
    const batches = boxes.filter(({ column }) => column === 1);
    expect(batches.map(({ nodes }) => nodes.length)).toEqual([27, 27, 26]);
    expect(boxes.filter(({ column }) => column === 4)).toHaveLength(34);
    expect(boxes.at(-1)?.nodes.length).toBe(167);
  });

  it('gives ways widths by mass, and orders patches by number', () => {
    const { bands, boxes } = layFlow(many(3, 12), 1000, 380);
    const widthOf = (to: string) => bands.find((band) => band.to === to)?.width ?? 0;
    expect(widthOf('batch 260512-1/0') / widthOf('batch 260512-2/1')).toBeCloseTo(1, 6);
    expect(boxes.filter(({ column }) => column === 4).map(({ nodes }) => nodes[0]?.id)).toEqual(
      Array.from({ length: 12 }, (_, i) => `PL/${i}`),
    );
  });

  it('follows a thread up and down and leaves the rest', () => {
    const { bands } = layFlow(many(6, 4), 1000, 380);
    const thread = threadOf(bands, 'lot 260512-1');
    for (const there of ['delivery D', 'batch 260512-1/0', 'load L', 'patch PL/3'])
      expect(thread.has(there)).toBe(true);
    for (const gone of ['lot 260512-2', 'batch 260512-2/1']) expect(thread.has(gone)).toBe(false);
  });
});
