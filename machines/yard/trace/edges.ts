/**
 * The edges mass is traced along: whole grams that went from one node to the next, at one entry of the record.
 *
 * The book of stock makes them while it hears: its state has `edges`, those made by the newest thing it heard and
 * nothing older (each bears that thing's seq). What comes to a node and what leaves it differ only by what is still there.
 */

/**
 * delivery: what came in on one ticket ('OPENING:<material>' for the stock a plant began with, 'MAINS' for water).
 * batch: '<lot>/<n>', or '<shift>/<n>' for one that was dumped before it had a lot. lot, load, patch: their ids. returned: what came
 * back of a load, a layer of its own. waste, air: where mass left for good (one node a lot, batch or delivery).
 * adjustment: what a stock-take or a dip found too much (from it) or too little (to it).
 */
export const NODE_KINDS = [
  'delivery',
  'batch',
  'lot',
  'load',
  'returned',
  'patch',
  'waste',
  'air',
  'adjustment',
] as const;
export type NodeKind = (typeof NODE_KINDS)[number];
export type NodeRef = { readonly kind: NodeKind; readonly id: string };

export type Edge = {
  readonly from: NodeRef;
  readonly to: NodeRef;
  /** Whole grams, more than 0. */
  readonly grams: number;
  /** Entry of the record it was made by; edges of a node are taken in this order. */
  readonly seq: number;
  /** What it is, as the plant's files call it; left out when it is mixed. */
  readonly material?: string;
};

export const nodeKey = ({ kind, id }: NodeRef): string => `${kind} ${id}`;
/** `nodeKey` for going over many edges of few nodes: each node is spelled once. */
export const keysOnce = (): ((node: NodeRef) => string) => {
  const known = new Map<NodeRef, string>();
  return (node) => {
    const here = known.get(node);
    if (here !== undefined) return here;
    const key = nodeKey(node);
    known.set(node, key);
    return key;
  };
};
export const nodeOf = (key: string): NodeRef => {
  const cut = key.indexOf(' ');
  return { kind: key.slice(0, cut) as NodeKind, id: key.slice(cut + 1) };
};
