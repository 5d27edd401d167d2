/** Traces mass through a store: from where it came forward to patches, or from a patch back to deliveries. */
import { flowBackward, madeOf, waysTo } from '../../machines/yard/trace/backward.ts';
import { isSource } from '../../machines/yard/trace/colour.ts';
import { type Edge, keysOnce, type NodeRef, nodeKey } from '../../machines/yard/trace/edges.ts';
import { type Flow, flowForward } from '../../machines/yard/trace/forward.ts';
import type {
  Traced,
  TracedBatch,
  TracedEdge,
  TracedLeft,
  TracedNode,
  TracedPatch,
  TraceFrom,
} from '../../machines/yard/trace/traced.types.ts';
import type { Store, Traces } from '../store/store.ts';
import { originsOf, wordsFor } from './trace-origins.ts';

/** One edge between two nodes, however often the way was taken. */
const joined = (flow: Flow): readonly TracedEdge[] => {
  const ways = new Map<string, { from: NodeRef; to: NodeRef; grams: number; shareGrams: number }>();
  const keyOf = keysOnce();
  for (const { from, to, grams, share } of flow.edges) {
    const key = `${keyOf(from)} > ${keyOf(to)}`;
    const known = ways.get(key);
    if (known === undefined) ways.set(key, { from, to, grams, shareGrams: share });
    else {
      known.grams += grams;
      known.shareGrams += share;
    }
  }
  return [...ways.values()];
};

const splitBatch = (id: string): { lot: string; batch: number } => {
  const cut = id.lastIndexOf('/');
  return { lot: id.slice(0, cut), batch: Number(id.slice(cut + 1)) };
};

const batchOf = async (traces: Traces, id: string, shareGrams: number): Promise<TracedBatch> => {
  const { lot, batch } = splitBatch(id);
  const row = await traces.batchOf(lot, batch);
  return {
    batch: id,
    shift: row?.shift ?? 0,
    number: row?.batch ?? batch,
    lot: row?.lot ?? lot,
    mix: row === null ? '' : `${row.mix} version ${row.mixVersion}`,
    by: row?.person ?? '',
    at: row?.endedAt ?? row?.at ?? '',
    bay: row?.bay ?? null,
    shareGrams,
  };
};

/** Ids of nodes of a kind from which this one was filled, in order met. */
const filledFrom = (
  edges: readonly Edge[],
  kind: NodeRef['kind'],
): ReadonlyMap<string, readonly string[]> => {
  const into = new Map<string, Set<string>>();
  const keyOf = keysOnce();
  for (const { from, to } of edges) {
    if (from.kind !== kind) continue;
    const key = keyOf(to);
    const known = into.get(key);
    if (known === undefined) into.set(key, new Set([from.id]));
    else known.add(from.id);
  }
  return new Map([...into].map(([key, ids]) => [key, [...ids]]));
};

/** 'PL-1/9' before 'PL-1/10'. */
const spread = (id: string): string => id.replace(/\d+/g, (digits) => digits.padStart(9, '0'));
export const byNumber = (a: string, b: string): number =>
  spread(a) < spread(b) ? -1 : spread(a) > spread(b) ? 1 : 0;

const patchesIn = async (
  traces: Traces,
  flow: Flow,
  grams: (patch: NodeRef) => { affectedGrams: number; shareGrams: number },
): Promise<TracedPatch[]> => {
  const loads = filledFrom(flow.edges, 'load');
  const lots = filledFrom(flow.edges, 'lot');
  const out: TracedPatch[] = [];
  for (const { node } of flow.nodes) {
    if (node.kind !== 'patch') continue;
    const { affectedGrams, shareGrams } = grams(node);
    if (affectedGrams === 0) continue;
    const laid = await traces.laid(node.id);
    const own = loads.get(nodeKey(node)) ?? [];
    out.push({
      patch: node.id,
      place: laid[0]?.place ?? '',
      laidAt: laid.at(-1)?.at ?? '',
      by: [...new Set(laid.map(({ person }) => person))].join(', '),
      loads: own,
      lots: [...new Set(own.flatMap((load) => lots.get(`load ${load}`) ?? []))],
      affectedGrams,
      shareGrams,
    });
  }
  return out.sort((a, b) => byNumber(a.patch, b.patch));
};

/** Words of patches and batches are those already found. */
const nodesOf = async (
  store: Store,
  flow: Flow,
  patches: readonly TracedPatch[],
  batches: readonly TracedBatch[],
): Promise<TracedNode[]> => {
  const places = new Map(patches.map(({ patch, place }) => [patch, place]));
  const made = new Map(batches.map(({ batch, mix, by }) => [batch, mix === '' ? '' : `${mix}, by ${by}`]));
  const wordsOf = ({ kind, id }: NodeRef): string | undefined =>
    kind === 'patch' ? (places.get(id) ?? '') : kind === 'batch' ? made.get(id) : undefined;
  const out: TracedNode[] = [];
  for (const one of flow.nodes)
    out.push({
      ...one.node,
      words: wordsOf(one.node) ?? (await wordsFor(store, one.node)),
      affectedGrams: one.affectedGrams - one.affectedOut,
      shareInGrams: one.shareIn,
      shareOutGrams: one.shareOut,
    });
  return out;
};

/** What has not left a lot, batch or load that is traced itself. */
const leftAtOrigins = async (traces: Traces, origins: readonly NodeRef[]): Promise<TracedLeft[]> => {
  const out: TracedLeft[] = [];
  const sum = (edges: readonly Edge[]): number => edges.reduce((total, { grams }) => total + grams, 0);
  for (const node of origins) {
    if (isSource(node.kind)) continue;
    const grams = sum(await traces.edgesTo(node)) - sum(await traces.edgesFrom(node));
    if (grams > 0) out.push({ ...node, affectedGrams: grams, shareGrams: grams });
  }
  return out;
};

const idsOf = (flow: Flow, kind: NodeRef['kind']): string[] =>
  flow.nodes.filter(({ node }) => node.kind === kind).map(({ node }) => node.id);

const traceForward = async (store: Store, from: TraceFrom): Promise<Traced> => {
  const { traces } = store;
  const { origins, words } = await originsOf(store, from);
  const edges = await traces.below(origins);
  const flow = flowForward(edges, origins);
  const at = new Map(flow.nodes.map((one) => [nodeKey(one.node), one]));
  const patches = await patchesIn(traces, flow, (node) => {
    const one = at.get(nodeKey(node));
    return {
      affectedGrams: (one?.affectedGrams ?? 0) - (one?.affectedOut ?? 0),
      shareGrams: (one?.shareIn ?? 0) - (one?.shareOut ?? 0),
    };
  });
  const own = new Set(origins.map(nodeKey));
  const left = flow.nodes
    .filter(({ node }) => node.kind !== 'patch' && !own.has(nodeKey(node)) && !isSource(node.kind))
    .map(({ node, affectedGrams, affectedOut, shareIn, shareOut }) => ({
      ...node,
      affectedGrams: affectedGrams - affectedOut,
      shareGrams: shareIn - shareOut,
    }))
    .filter((one) => one.affectedGrams > 0 || one.shareGrams > 0);
  left.unshift(...(await leftAtOrigins(traces, origins)));
  const batches: TracedBatch[] = [];
  for (const { node, shareIn, shareOut } of flow.nodes)
    if (node.kind === 'batch')
      batches.push(await batchOf(traces, node.id, own.has(nodeKey(node)) ? shareOut : shareIn));
  return {
    direction: 'forward',
    from,
    words,
    grams: flow.grams,
    patches,
    affectedPatchGrams: patches.reduce((sum, one) => sum + one.affectedGrams, 0),
    left,
    batches,
    lots: idsOf(flow, 'lot'),
    loads: idsOf(flow, 'load'),
    madeOf: [],
    nodes: await nodesOf(store, flow, patches, batches),
    edges: joined(flow),
  };
};

const traceBackward = async (store: Store, from: TraceFrom & { kind: 'patch' }): Promise<Traced> => {
  const { traces } = store;
  const { origins, words } = await originsOf(store, from);
  const target = origins[0] as NodeRef;
  const edges = await traces.above(target, 'delivery');
  const flow = flowBackward(waysTo(edges, target), target);
  const parts = madeOf(edges, target, 'delivery');
  const byBatch = madeOf(edges, target, 'batch');
  const grams = parts.reduce((sum, part) => sum + part.grams, 0);
  const batches: TracedBatch[] = [];
  for (const part of byBatch)
    if (part.node?.kind === 'batch') batches.push(await batchOf(traces, part.node.id, part.grams));
  const patches = await patchesIn(traces, flow, () => ({ affectedGrams: grams, shareGrams: grams }));
  return {
    direction: 'backward',
    from,
    words,
    grams,
    patches,
    affectedPatchGrams: grams,
    left: [],
    batches,
    lots: idsOf(flow, 'lot'),
    loads: idsOf(flow, 'load'),
    madeOf: parts.map(({ node, grams: part }) => ({
      kind: node?.kind ?? null,
      id: node?.id ?? '',
      grams: part,
    })),
    nodes: await nodesOf(store, flow, patches, batches),
    edges: joined(flow),
  };
};

/** Throws PlainError when there is no such thing on record, or it leads to more than anybody can look at. */
export const trace = (store: Store, from: TraceFrom): Promise<Traced> =>
  from.kind === 'patch' ? traceBackward(store, { kind: 'patch', id: from.id }) : traceForward(store, from);
