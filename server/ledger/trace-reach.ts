/** Gathers from the trace tables the edges a trace needs, and no more: everything below its origins and what that is made of. */
import { isSource } from '../../machines/yard/trace/colour.ts';
import { type Edge, type NodeKind, type NodeRef, nodeKey } from '../../machines/yard/trace/edges.ts';
import { PlainError } from '../plain-error.ts';
import type { Traces } from '../store/store.ts';

/** A picture or list of more is of no use to anybody, and would hold up the line. */
export const EDGES_AT_MOST = 200_000;

class Gathered {
  readonly edges = new Map<string, Edge>();
  add(edges: readonly Edge[]): void {
    for (const edge of edges) {
      const { from, to, seq, material = '' } = edge;
      this.edges.set(`${seq} ${nodeKey(from)} > ${nodeKey(to)} ${material}`, edge);
    }
    if (this.edges.size > EDGES_AT_MOST)
      throw new PlainError(
        `This leads to more than ${EDGES_AT_MOST} movements: ask for something narrower, a batch, a lot or a shorter time.`,
      );
  }
  list(): readonly Edge[] {
    return [...this.edges.values()];
  }
}

/** Adds to `gathered` what the nodes are made of, down to sources and nodes of kind `level`. */
const gatherAbove = async (
  traces: Traces,
  gathered: Gathered,
  nodes: readonly NodeRef[],
  level: NodeKind,
  done: Set<string>,
): Promise<void> => {
  const waiting = [...nodes];
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    const key = nodeKey(node);
    if (done.has(key) || node.kind === level || isSource(node.kind)) continue;
    done.add(key);
    // What left it matters as well: shares are rounded in the order they were drawn.
    gathered.add(await traces.edgesFrom(node));
    const into = await traces.edgesTo(node);
    gathered.add(into);
    waiting.push(...into.map(({ from }) => from));
  }
};

/** Every edge that flowForward needs for these origins, all of one kind. */
export const reachForward = async (traces: Traces, origins: readonly NodeRef[]): Promise<readonly Edge[]> => {
  const level = origins[0]?.kind ?? 'delivery';
  const gathered = new Gathered();
  const below: NodeRef[] = [];
  const seen = new Set(origins.map(nodeKey));
  const waiting = [...origins];
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    const out = await traces.edgesFrom(node);
    gathered.add(out);
    for (const { to } of out) {
      const key = nodeKey(to);
      if (seen.has(key)) continue;
      seen.add(key);
      below.push(to);
      waiting.push(to);
    }
  }
  await gatherAbove(traces, gathered, below, level, new Set());
  return gathered.list();
};

/** Every edge that madeOf needs for this node. */
export const reachBackward = async (
  traces: Traces,
  target: NodeRef,
  level: NodeKind,
): Promise<readonly Edge[]> => {
  const gathered = new Gathered();
  await gatherAbove(traces, gathered, [target], level, new Set());
  return gathered.list();
};

/** Only the ways that lead to this node, for flowBackward. */
export const waysTo = (edges: readonly Edge[], target: NodeRef): readonly Edge[] => {
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
