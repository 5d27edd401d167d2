/** Gathers from the trace tables the edges a trace needs, and no more: everything below its origins and what that is made of. */
import type Database from 'better-sqlite3';
import { isSource } from '../../machines/yard/trace/colour.ts';
import type { Edge, NodeKind, NodeRef } from '../../machines/yard/trace/edges.ts';
import { PlainError } from '../plain-error.ts';

/** A picture or list of more is of no use to anybody, and would hold up the line. */
export const EDGES_AT_MOST = 200_000;

/** As the table has it: from, to, seq, material, grams. Rows come as lists: names are looked up once a node. */
type Row = readonly [from: number, to: number, seq: number, material: string, grams: number];

export const createReach = (db: Database.Database) => {
  const number = db.prepare('SELECT node FROM trace_nodes WHERE kind = ? AND id = ?').pluck();
  const name = db.prepare('SELECT kind, id FROM trace_nodes WHERE node = ?');
  const from = db
    .prepare('SELECT from_node, to_node, seq, material, grams FROM trace_edges WHERE from_node = ?')
    .raw();
  const to = db
    .prepare('SELECT from_node, to_node, seq, material, grams FROM trace_edges WHERE to_node = ?')
    .raw();

  /** One gathering: what is known of nodes, and each edge once. */
  const gather = () => {
    const refs = new Map<number, NodeRef>();
    const rows: Row[] = [];
    const [outDone, inDone] = [new Set<number>(), new Set<number>()];
    const refOf = (node: number): NodeRef => {
      const known = refs.get(node) ?? (name.get(node) as NodeRef);
      refs.set(node, known);
      return known;
    };
    const count = (): void => {
      if (rows.length > EDGES_AT_MOST)
        throw new PlainError(
          `This leads to more than ${EDGES_AT_MOST} movements: ask for something narrower, a batch, a lot or a shorter time.`,
        );
    };
    /** Edges out of a node; those into a node that has been asked for are here already. */
    const out = (node: number): readonly Row[] => {
      if (outDone.has(node)) return [];
      outDone.add(node);
      const all = from.all(node) as Row[];
      for (const row of all) if (!inDone.has(row[1])) rows.push(row);
      count();
      return all;
    };
    const into = (node: number): readonly Row[] => {
      if (inDone.has(node)) return [];
      inDone.add(node);
      const all = to.all(node) as Row[];
      for (const row of all) if (!outDone.has(row[0])) rows.push(row);
      count();
      return all;
    };
    const edges = (): readonly Edge[] =>
      rows.map(([a, b, seq, material, grams]) => ({
        from: refOf(a),
        to: refOf(b),
        grams,
        seq,
        ...(material === '' ? {} : { material }),
      }));
    return { refOf, out, into, edges };
  };

  /** Adds what the nodes are made of, down to sources and nodes of kind `level`. */
  const addAbove = (
    { refOf, out, into }: ReturnType<typeof gather>,
    nodes: readonly number[],
    level: NodeKind,
  ): void => {
    const waiting = [...nodes];
    const done = new Set<number>();
    for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
      const { kind } = refOf(node);
      if (done.has(node) || kind === level || isSource(kind)) continue;
      done.add(node);
      // What left it matters as well: shares are rounded in the order they were drawn.
      out(node);
      for (const row of into(node)) waiting.push(row[0]);
    }
  };

  const numbersOf = (refs: readonly NodeRef[]): number[] =>
    refs
      .map(({ kind, id }) => number.get(kind, id) as number | undefined)
      .filter((node) => node !== undefined);

  return {
    /** Every edge that flowForward needs for these origins, all of one kind. */
    below: (origins: readonly NodeRef[]): readonly Edge[] => {
      const gathering = gather();
      const waiting = numbersOf(origins);
      const seen = new Set(waiting);
      const below: number[] = [];
      for (let node = waiting.pop(); node !== undefined; node = waiting.pop())
        for (const [, next] of gathering.out(node)) {
          if (seen.has(next)) continue;
          seen.add(next);
          below.push(next);
          waiting.push(next);
        }
      addAbove(gathering, below, origins[0]?.kind ?? 'delivery');
      return gathering.edges();
    },
    /** Every edge that madeOf needs for this node. */
    above: (target: NodeRef, level: NodeKind): readonly Edge[] => {
      const gathering = gather();
      addAbove(gathering, numbersOf([target]), level);
      return gathering.edges();
    },
  };
};
