/**
 * Follows mass by where it came from: every source has a colour, what leaves a node has the colours of what is in it
 * at that moment, in proportion, to the gram. A node is taken as well mixed, since nothing on record says otherwise.
 */
import { apportion } from './apportion.ts';
import { type Edge, keysOnce, NODE_KINDS, type NodeKind, type NodeRef, nodeKey } from './edges.ts';

/** Grams by colour (the key of a source's node). */
export type Colours = ReadonlyMap<string, number>;
export type ColouredEdge = { readonly edge: Edge; readonly colours: Colours };

/** What left a node although nothing on record had put it there. */
export const UNKNOWN = 'unknown';

/** Kinds mass comes from and never goes through. */
export const isSource = (kind: NodeKind): boolean => kind === 'delivery' || kind === 'adjustment';

/** Within one entry mass goes down the line in this order: what comes in before what goes out. */
const RANK: ReadonlyMap<NodeKind, number> = new Map(
  NODE_KINDS.map((kind, i) => [kind, kind === 'adjustment' ? 0 : i]),
);

const byOrder = (a: Edge, b: Edge): number => {
  if (a.seq !== b.seq) return a.seq - b.seq;
  const rank = (RANK.get(a.from.kind) ?? 0) - (RANK.get(b.from.kind) ?? 0);
  if (rank !== 0) return rank;
  const way = ({ from, to, material = '' }: Edge): string => `${nodeKey(from)} > ${nodeKey(to)} ${material}`;
  const [left, right] = [way(a), way(b)];
  return left < right ? -1 : left > right ? 1 : 0;
};

export const inOrder = (edges: readonly Edge[]): readonly Edge[] => [...edges].sort(byOrder);

const add = (into: Map<string, number>, colour: string, grams: number): void => {
  if (grams > 0) into.set(colour, (into.get(colour) ?? 0) + grams);
};

/** Takes grams out of a content in proportion of its colours, ties by name; what it has not is unknown. */
const drawFrom = (content: Map<string, number>, grams: number): Map<string, number> => {
  const colours = content.size > 1 ? [...content.keys()].sort() : [...content.keys()];
  const parts = colours.map((colour) => content.get(colour) as number);
  const total = parts.reduce((sum, part) => sum + part, 0);
  const taken = apportion(parts, Math.min(grams, total));
  const out = new Map<string, number>();
  colours.forEach((colour, i) => {
    const share = taken[i] as number;
    add(out, colour, share);
    const left = (parts[i] as number) - share;
    if (left === 0) content.delete(colour);
    else content.set(colour, left);
  });
  add(out, UNKNOWN, grams - Math.min(grams, total));
  return out;
};

export type Coloured = {
  /** In the order mass moved. */
  readonly edges: readonly ColouredEdge[];
  /** What lies in each node at the end, by colour. */
  readonly left: ReadonlyMap<string, Colours>;
};

/**
 * Colours every edge. Nodes of kind `level` are sources beside deliveries and adjustments; what came to them is not
 * looked at. All edges into and out of every other node that is to be right must be among `edges`.
 */
export const colourEdges = (edges: readonly Edge[], level: NodeKind): Coloured => {
  const contents = new Map<string, Map<string, number>>();
  const contentOf = (key: string): Map<string, number> => {
    const known = contents.get(key);
    if (known !== undefined) return known;
    const fresh = new Map<string, number>();
    contents.set(key, fresh);
    return fresh;
  };
  const emits = ({ kind }: NodeRef): boolean => kind === level || isSource(kind);
  const keyOf = keysOnce();
  const out = inOrder(edges).map((edge): ColouredEdge => {
    const from = keyOf(edge.from);
    const colours = emits(edge.from) ? new Map([[from, edge.grams]]) : drawFrom(contentOf(from), edge.grams);
    if (!emits(edge.to)) {
      const into = contentOf(keyOf(edge.to));
      for (const [colour, grams] of colours) add(into, colour, grams);
    }
    return { edge, colours };
  });
  return { edges: out, left: contents };
};
