/** From where mass came forward to where it is: every node it may have reached, and how much of it by share. */
import { type ColouredEdge, colourEdges } from './colour.ts';
import { type Edge, keysOnce, type NodeKind, type NodeRef, nodeKey } from './edges.ts';

/** An edge that carried some of it. */
export type FlowEdge = {
  readonly from: NodeRef;
  readonly to: NodeRef;
  readonly seq: number;
  readonly material?: string;
  /** All that went this way, grams. */
  readonly grams: number;
  /** Of what is traced, by share, grams; may be 0 where a share rounds to nothing. */
  readonly share: number;
};

export type FlowNode = {
  readonly node: NodeRef;
  /**
   * Grams that may hold some of it. In a batch, a lot and a load that is everything from the moment some came to it, as
   * they are mixed; in a patch, which is laid in layers, only what came from something affected.
   */
  readonly affectedGrams: number;
  /** Of that, what went on from here. */
  readonly affectedOut: number;
  /** Of what is traced, by share: came in, went out again, grams. What is left is still there. */
  readonly shareIn: number;
  readonly shareOut: number;
};

export type Flow = {
  readonly edges: readonly FlowEdge[];
  readonly nodes: readonly FlowNode[];
  /** Grams that left the origins. */
  readonly grams: number;
};

/** What comes to these is mixed with what is there. */
const isMixed = (kind: NodeKind): boolean => kind === 'batch' || kind === 'lot' || kind === 'load';

const shareOf = ({ colours }: ColouredEdge, origins: ReadonlySet<string>): number => {
  let share = 0;
  for (const [colour, grams] of colours) if (origins.has(colour)) share += grams;
  return share;
};

export type Sum = {
  node: NodeRef;
  affectedGrams: number;
  affectedOut: number;
  shareIn: number;
  shareOut: number;
};

/**
 * Flow from the origins on, all of one kind (deliveries and adjustments count as one). `edges`: every edge into and out of
 * each node below them. A node is reached as of the entry in which something of an origin first came to it; what left it
 * before is not affected.
 */
export const flowForward = (edges: readonly Edge[], origins: readonly NodeRef[]): Flow => {
  const keys = new Set(origins.map(nodeKey));
  const level: NodeKind = origins[0]?.kind ?? 'delivery';
  const keyOf = keysOnce();
  const reached = new Set<string>(keys);
  const sums = new Map<string, Sum>();
  const sumOf = (node: NodeRef): Sum => {
    const key = keyOf(node);
    const known = sums.get(key) ?? { node, affectedGrams: 0, affectedOut: 0, shareIn: 0, shareOut: 0 };
    if (!sums.has(key)) sums.set(key, known);
    return known;
  };
  const held = new Map<string, number>();
  const out: FlowEdge[] = [];
  let grams = 0;
  for (const one of colourEdges(edges, level).edges) {
    const { edge } = one;
    const from = keyOf(edge.from);
    const into = keyOf(edge.to);
    const before = held.get(into) ?? 0;
    held.set(into, before + edge.grams);
    held.set(from, (held.get(from) ?? 0) - edge.grams);
    const isTouched = reached.has(from);
    if (isTouched || (reached.has(into) && isMixed(edge.to.kind))) sumOf(edge.to).affectedGrams += edge.grams;
    if (!isTouched) continue;
    const share = shareOf(one, keys);
    const to = sumOf(edge.to);
    if (!reached.has(into) && isMixed(edge.to.kind)) to.affectedGrams += before;
    reached.add(into);
    to.shareIn += share;
    const above = sumOf(edge.from);
    above.affectedOut += edge.grams;
    above.shareOut += share;
    if (keys.has(from)) grams += edge.grams;
    out.push({ ...edge, share });
  }
  return { edges: out, nodes: [...sums.values()], grams };
};
