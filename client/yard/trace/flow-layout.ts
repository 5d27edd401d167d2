/** Where nodes and ways of the flow stand in its picture: a column a kind, heights and widths by mass. Pure. */
import type { NodeKind } from '../../../machines/yard/trace/edges.ts';
import type { Traced, TracedEdge, TracedNode } from '../../../machines/yard/trace/traced.types.ts';

export type Box = {
  readonly key: string;
  readonly column: number;
  /** Nodes it stands for; several where there are too many for one each. */
  readonly nodes: readonly TracedNode[];
  readonly grams: number;
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
};
export type Band = {
  readonly key: string;
  readonly from: string;
  readonly to: string;
  readonly grams: number;
  readonly path: string;
  readonly width: number;
};
export type Picture = {
  readonly boxes: readonly Box[];
  readonly bands: readonly Band[];
  readonly columns: readonly { readonly words: string; readonly x: number; readonly count: number }[];
  readonly height: number;
};

const COLUMN: { readonly [K in NodeKind]: number } = {
  delivery: 0,
  adjustment: 0,
  batch: 1,
  lot: 2,
  load: 3,
  returned: 3,
  patch: 4,
  waste: 4,
  air: 4,
};
/** What a stock-take missed has left, as waste has; what it found too much came in. */
const columnOf = ({ kind, shareInGrams, shareOutGrams }: TracedNode): number =>
  kind === 'adjustment' && shareInGrams > shareOutGrams ? COLUMN.waste : COLUMN[kind];
/** The kind a column is named after: only these are counted in its words. */
const KIND = ['delivery', 'batch', 'lot', 'load', 'patch'] as const;
const WORDS = ['Deliveries', 'Batches', 'Lots', 'Loads', 'Patches'] as const;
const COLUMNS = WORDS.length;
/** More than this in a column are drawn as one box for the smallest of them. */
const BOXES_AT_MOST = 34;
const BATCHES_AT_MOST = 20;
const NODE_W = 16;
const GAP = 7;
const LEAST_H = 5;
const TOP = 34;

const keyOf = ({ kind, id }: { readonly kind: NodeKind; readonly id: string }): string => `${kind} ${id}`;
const massOf = (node: TracedNode): number => Math.max(node.shareInGrams, node.shareOutGrams);

type Group = { readonly key: string; readonly column: number; readonly nodes: TracedNode[]; grams: number };

/** 'PL-1/9' before 'PL-1/10'. */
const byName = (a: TracedNode, b: TracedNode): number => {
  const [left, right] = [a.id, b.id].map((id) => id.replace(/\d+/g, (digits) => digits.padStart(9, '0')));
  return (left as string) < (right as string) ? -1 : 1;
};

/** Too many batches to tell apart are drawn by the lot they went into. */
const batchesByLot = (batches: readonly TracedNode[]): readonly Group[] => {
  const lots = new Map<string, Group>();
  for (const node of [...batches].sort(byName)) {
    const lot = node.id.slice(0, node.id.lastIndexOf('/'));
    const known = lots.get(lot) ?? { key: `batches ${lot}`, column: COLUMN.batch, nodes: [], grams: 0 };
    known.nodes.push(node);
    known.grams += massOf(node);
    lots.set(lot, known);
  }
  return [...lots.values()];
};

/** One group a node, the smallest of a crowded column together. A way that stays in its column is drawn a column on. */
const groupsOf = (nodes: readonly TracedNode[]): readonly Group[] => {
  const groups: Group[] = [];
  for (let column = 0; column < COLUMNS; column++) {
    const own = nodes
      .filter((node) => columnOf(node) === column)
      .sort((a, b) => massOf(b) - massOf(a) || byName(a, b));
    if (column === COLUMN.batch && own.length > BATCHES_AT_MOST) {
      groups.push(...batchesByLot(own));
      continue;
    }
    const alone = own.length > BOXES_AT_MOST ? own.slice(0, BOXES_AT_MOST - 1) : own;
    const rest = own.slice(alone.length);
    for (const node of alone.sort(byName))
      groups.push({ key: keyOf(node), column, nodes: [node], grams: massOf(node) });
    if (rest.length > 0)
      groups.push({
        key: `rest ${column}`,
        column,
        nodes: rest,
        grams: rest.reduce((sum, node) => sum + massOf(node), 0),
      });
  }
  return groups;
};

const joined = (edges: readonly TracedEdge[], groupOf: ReadonlyMap<string, string>) => {
  const ways = new Map<string, { from: string; to: string; grams: number }>();
  for (const { from, to, shareGrams } of edges) {
    const [a, b] = [groupOf.get(keyOf(from)), groupOf.get(keyOf(to))];
    if (a === undefined || b === undefined || a === b) continue;
    const known = ways.get(`${a} > ${b}`);
    if (known === undefined) ways.set(`${a} > ${b}`, { from: a, to: b, grams: shareGrams });
    else known.grams += shareGrams;
  }
  return [...ways.values()];
};

/** Lays the flow out in `width` px; about `room` px high, more when a column needs it. */
export const layFlow = ({ nodes, edges }: Traced, width: number, room: number): Picture => {
  const groups = groupsOf(nodes);
  const groupOf = new Map(
    groups.flatMap(({ key, nodes: own }) => own.map((node) => [keyOf(node), key] as const)),
  );
  const ways = joined(edges, groupOf);
  const used = [...new Set(groups.map(({ column }) => column))].sort((a, b) => a - b);
  // Each column gets its share of the width; its words stand to the right of its boxes.
  const step = used.length <= 1 ? 0 : (width - NODE_W - 118) / (used.length - 1);
  const xOf = new Map(used.map((column, i) => [column, i * step]));
  const inColumn = used.map((column) => groups.filter((group) => group.column === column));
  const needed = Math.max(1, ...inColumn.map((own) => own.length * (LEAST_H + GAP)));
  const height = Math.max(room, needed + 40);
  const perGram = Math.min(
    ...inColumn.map(
      (own) =>
        (height - own.length * (GAP + LEAST_H)) /
        Math.max(
          1,
          own.reduce((sum, { grams }) => sum + grams, 0),
        ),
    ),
  );
  const boxes: Box[] = [];
  for (const own of inColumn) {
    const total = own.reduce((sum, { grams }) => sum + LEAST_H + grams * perGram + GAP, -GAP);
    let y = TOP + (height - total) / 2;
    for (const { key, column, nodes: these, grams } of own) {
      const h = LEAST_H + grams * perGram;
      boxes.push({ key, column, nodes: these, grams, x: xOf.get(column) ?? 0, y, w: NODE_W, h });
      y += h + GAP;
    }
  }
  const at = new Map(boxes.map((box) => [box.key, box]));
  const outAt = new Map<string, number>();
  const inAt = new Map<string, number>();
  const bands = ways
    .map((way) => ({ ...way, a: at.get(way.from) as Box, b: at.get(way.to) as Box }))
    .sort((p, q) => p.b.y - q.b.y || p.a.y - q.a.y)
    .map(({ from, to, grams, a, b }): Band => {
      const w = Math.max(0.8, grams * perGram);
      // Within its box a way takes its part of the height, however thin it is drawn.
      const [part0, part1] = [(a.h * grams) / Math.max(1, a.grams), (b.h * grams) / Math.max(1, b.grams)];
      const y0 = a.y + (outAt.get(from) ?? 0) + part0 / 2;
      const y1 = b.y + (inAt.get(to) ?? 0) + part1 / 2;
      outAt.set(from, (outAt.get(from) ?? 0) + part0);
      inAt.set(to, (inAt.get(to) ?? 0) + part1);
      const [x0, x1] = [a.x + a.w, b.x];
      const bend = Math.max(30, Math.abs(x1 - x0) / 2);
      const n = (value: number) => value.toFixed(1);
      const path = `M${n(x0)} ${n(y0)}C${n(x0 + bend)} ${n(y0)} ${n(x1 - bend)} ${n(y1)} ${n(x1)} ${n(y1)}`;
      return { key: `${from} > ${to}`, from, to, grams, path, width: w };
    });
  const columns = used.map((column, i) => ({
    words: WORDS[column] as string,
    x: xOf.get(column) ?? 0,
    count: (inColumn[i] ?? []).reduce(
      (sum, { nodes: these }) => sum + these.filter(({ kind }) => kind === KIND[column]).length,
      0,
    ),
  }));
  return { boxes, bands, columns, height: height + TOP + 10 };
};

/** Everything up and down the flow from a box: its thread. */
export const threadOf = (bands: readonly Band[], key: string): ReadonlySet<string> => {
  const thread = new Set([key]);
  const follow = (from: 'from' | 'to', to: 'from' | 'to'): void => {
    const waiting = [key];
    const seen = new Set(waiting);
    for (let at = waiting.pop(); at !== undefined; at = waiting.pop())
      for (const band of bands) {
        if (band[from] !== at) continue;
        thread.add(band.key);
        if (seen.has(band[to])) continue;
        seen.add(band[to]);
        thread.add(band[to]);
        waiting.push(band[to]);
      }
  };
  follow('from', 'to');
  follow('to', 'from');
  return thread;
};
