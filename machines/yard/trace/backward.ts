/** From a patch (or any node) back to what is in it: lots, batches and deliveries by grams, and the ways they came. */
import { apportion } from './apportion.ts';
import { type Colours, colourEdges, inOrder } from './colour.ts';
import { type Edge, type NodeKind, type NodeRef, nodeKey, nodeOf } from './edges.ts';
import type { Flow, FlowEdge, FlowNode, Sum } from './forward.ts';

export type Part = { readonly node: NodeRef | null; readonly grams: number };

const partsOf = (colours: Colours): readonly Part[] =>
  [...colours]
    .map(([key, grams]): Part => ({ node: key.includes(' ') ? nodeOf(key) : null, grams }))
    .sort((a, b) => b.grams - a.grams || ((a.node?.id ?? '') < (b.node?.id ?? '') ? -1 : 1));

/**
 * What came into a node, by the sources of one kind; node null is what nothing on record explains. Sums to what came in,
 * for a patch to what lies in it: what was entered by mistake and taken back is not in it.
 */
export const madeOf = (edges: readonly Edge[], target: NodeRef, level: NodeKind): readonly Part[] => {
  const key = nodeKey(target);
  if (target.kind === 'patch') return partsOf(colourEdges(edges, level).left.get(key) ?? new Map());
  const sum = new Map<string, number>();
  for (const { edge, colours } of colourEdges(edges, level).edges) {
    if (nodeKey(edge.to) !== key) continue;
    for (const [colour, grams] of colours) sum.set(colour, (sum.get(colour) ?? 0) + grams);
  }
  return partsOf(sum);
};

/** Ways there and back taken against each other, whatever entry they stand at: only what stayed is drawn. */
const netted = (edges: readonly Edge[]): readonly Edge[] => {
  const ways = new Map<string, { edge: Edge; grams: number }>();
  for (const edge of edges) {
    const [there, back] = [
      `${nodeKey(edge.from)} > ${nodeKey(edge.to)}`,
      `${nodeKey(edge.to)} > ${nodeKey(edge.from)}`,
    ];
    const against = ways.get(back);
    let left = edge.grams;
    if (against !== undefined) {
      const taken = Math.min(against.grams, left);
      against.grams -= taken;
      left -= taken;
    }
    const known = ways.get(there);
    if (known !== undefined) known.grams += left;
    else if (left > 0) ways.set(there, { edge, grams: left });
  }
  return [...ways.values()].filter(({ grams }) => grams > 0).map(({ edge, grams }) => ({ ...edge, grams }));
};

/** What came to a lot after the last of it had left for the target cannot be in the target. */
const inTime = (edges: readonly Edge[], target: NodeRef): readonly Edge[] => {
  const lastOut = new Map<string, number>([[nodeKey(target), Number.POSITIVE_INFINITY]]);
  for (const { from, seq } of edges) {
    const key = nodeKey(from);
    if (from.kind === 'lot') lastOut.set(key, Math.max(lastOut.get(key) ?? 0, seq));
  }
  return edges.filter(({ to, seq }) => to.kind !== 'lot' || seq <= (lastOut.get(nodeKey(to)) ?? 0));
};

/** Of these edges only the ways that lead to this node, as far as they were gone in time. */
export const waysTo = (edges: readonly Edge[], target: NodeRef): readonly Edge[] =>
  leadingTo(inTime(leadingTo(edges, target), target), target);

const leadingTo = (edges: readonly Edge[], target: NodeRef): readonly Edge[] => {
  const into = new Map<string, Edge[]>();
  for (const edge of edges) {
    const key = nodeKey(edge.to);
    const known = into.get(key);
    if (known === undefined) into.set(key, [edge]);
    else known.push(edge);
  }
  const out: Edge[] = [];
  const seen = new Set<string>();
  const waiting = [nodeKey(target)];
  for (let key = waiting.pop(); key !== undefined; key = waiting.pop()) {
    if (seen.has(key)) continue;
    seen.add(key);
    for (const edge of into.get(key) ?? []) {
      out.push(edge);
      waiting.push(nodeKey(edge.from));
    }
  }
  return out;
};

type Need = { readonly edges: Edge[]; need: number };

/**
 * The ways what is in `target` came, for the picture: at every node what is needed is drawn from all that ever came in,
 * in proportion and to the gram. Follows the newest edges first, so that a node is asked only when all that need it have.
 */
export const flowBackward = (edges: readonly Edge[], target: NodeRef): Flow => {
  const into = new Map<string, Need>();
  const ways = netted(inOrder(edges));
  for (const edge of ways) {
    const key = nodeKey(edge.to);
    const known = into.get(key) ?? { edges: [], need: 0 };
    known.edges.push(edge);
    into.set(key, known);
  }
  const order = topological(ways, target);
  const out: FlowEdge[] = [];
  const sums = new Map<string, Sum>();
  const sumOf = (node: NodeRef) => {
    const key = nodeKey(node);
    const known = sums.get(key) ?? { node, affectedGrams: 0, affectedOut: 0, shareIn: 0, shareOut: 0 };
    sums.set(key, known);
    return known;
  };
  const own = into.get(nodeKey(target));
  const grams = own?.edges.reduce((sum, edge) => sum + edge.grams, 0) ?? 0;
  if (own !== undefined) own.need = grams;
  for (const key of order) {
    const here = into.get(key);
    if (here === undefined || here.need === 0) continue;
    const amounts = here.edges.map((edge) => edge.grams);
    const all = amounts.reduce((sum, amount) => sum + amount, 0);
    const shares = apportion(amounts, Math.min(here.need, all));
    here.edges.forEach((edge, i) => {
      const share = shares[i] as number;
      if (share === 0) return;
      out.push({ ...edge, share });
      const to = sumOf(edge.to);
      to.affectedGrams += edge.grams;
      to.shareIn += share;
      const from = sumOf(edge.from);
      from.affectedOut += edge.grams;
      from.shareOut += share;
      const above = into.get(nodeKey(edge.from));
      if (above !== undefined) above.need += share;
    });
  }
  const nodes: FlowNode[] = [...sums.values()];
  return { edges: out, nodes, grams };
};

/** Nodes above the target, each behind everything below it; a way that leads back to where it came from is cut there. */
const topological = (edges: readonly Edge[], target: NodeRef): readonly string[] => {
  const above = new Map<string, string[]>();
  for (const { from, to } of edges) {
    const key = nodeKey(to);
    above.set(key, [...(above.get(key) ?? []), nodeKey(from)]);
  }
  const done: string[] = [];
  const state = new Map<string, 'open' | 'done'>();
  const visit = (first: string): void => {
    const stack: { readonly key: string; readonly next: string[] }[] = [];
    const open = (key: string): void => {
      state.set(key, 'open');
      stack.push({ key, next: [...new Set(above.get(key) ?? [])] });
    };
    open(first);
    for (let top = stack.at(-1); top !== undefined; top = stack.at(-1)) {
      const next = top.next.pop();
      if (next === undefined) {
        state.set(top.key, 'done');
        done.push(top.key);
        stack.pop();
      } else if (!state.has(next)) open(next);
    }
  };
  visit(nodeKey(target));
  return done.reverse();
};
