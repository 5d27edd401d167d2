/** Gathers from the trace tables the edges a trace needs, and no more: everything below its origins and what that is made of. */
import type Database from 'better-sqlite3';
import { isSource } from '../../machines/yard/trace/colour.ts';
import type { Edge, NodeKind, NodeRef } from '../../machines/yard/trace/edges.ts';
import { PlainError } from '../plain-error.ts';

/** A picture or list of more is of no use to anybody, and would hold up the line. */
export const EDGES_AT_MOST = 200_000;

/** As the table has it: from, to, seq, material, grams. Rows come as lists: names are looked up once a node. */
type Row = readonly [from: number, to: number, seq: number, material: string, grams: number];

/** Nodes asked for in one statement: few enough to stop soon when there is too much, many enough to be quick. */
const NODES_AT_ONCE = 500;

export const createReach = (db: Database.Database) => {
  const number = db.prepare('SELECT node FROM trace_nodes WHERE kind = ? AND id = ?').pluck();
  const names = db.prepare(
    'SELECT n.node, n.kind, n.id FROM json_each(?) AS asked CROSS JOIN trace_nodes n ON n.node = asked.value',
  );
  const edgesBy = (end: 'from_node' | 'to_node'): Database.Statement =>
    db
      .prepare(
        `SELECT e.from_node, e.to_node, e.seq, e.material, e.grams
         FROM json_each(?) AS asked CROSS JOIN trace_edges e ON e.${end} = asked.value`,
      )
      .raw();
  const [from, to] = [edgesBy('from_node'), edgesBy('to_node')];

  /** One gathering: what is known of nodes, and each edge once. */
  const gather = () => {
    const refs = new Map<number, NodeRef>();
    const rows: Row[] = [];
    const [outDone, inDone] = [new Set<number>(), new Set<number>()];
    const inParts = (nodes: readonly number[], ask: (json: string) => void): void => {
      for (let i = 0; i < nodes.length; i += NODES_AT_ONCE)
        ask(JSON.stringify(nodes.slice(i, i + NODES_AT_ONCE)));
    };
    const learn = (nodes: Iterable<number>): void =>
      inParts(
        [...new Set(nodes)].filter((node) => !refs.has(node)),
        (asked) => {
          for (const { node, kind, id } of names.all(asked) as (NodeRef & { readonly node: number })[])
            refs.set(node, { kind, id });
        },
      );
    const count = (): void => {
      if (rows.length > EDGES_AT_MOST)
        throw new PlainError(
          `This leads to more than ${EDGES_AT_MOST} movements: ask for something narrower, a batch, a lot or a shorter time.`,
        );
    };
    /** Edges at one end of nodes not asked for there before, and the nodes at their other end. */
    const edgesAt = (nodes: readonly number[], end: 0 | 1): readonly number[] => {
      const [done, other] = end === 0 ? [outDone, inDone] : [inDone, outDone];
      const fresh = [...new Set(nodes)].filter((node) => !done.has(node));
      const found = new Set<number>();
      for (const node of fresh) done.add(node);
      inParts(fresh, (asked) => {
        for (const row of (end === 0 ? from : to).all(asked) as Row[]) {
          const there = row[1 - end] as number;
          found.add(there);
          // Edges of a node that has been asked for at its own end are here already.
          if (!other.has(there)) rows.push(row);
        }
        count();
      });
      return [...found];
    };
    const edges = (): readonly Edge[] => {
      learn(rows.flatMap(([a, b]) => [a, b]));
      return rows.map(([a, b, seq, material, grams]) => ({
        from: refs.get(a) as NodeRef,
        to: refs.get(b) as NodeRef,
        grams,
        seq,
        ...(material === '' ? {} : { material }),
      }));
    };
    return {
      learn,
      kindOf: (node: number): NodeKind => (refs.get(node) as NodeRef).kind,
      /** Where the ways out of these nodes lead. */
      out: (nodes: readonly number[]) => edgesAt(nodes, 0),
      /** Where the ways into these nodes come from. */
      into: (nodes: readonly number[]) => edgesAt(nodes, 1),
      edges,
    };
  };

  /** Adds what the nodes are made of, down to sources and nodes of kind `level`. */
  const addAbove = (
    { learn, kindOf, out, into }: ReturnType<typeof gather>,
    nodes: readonly number[],
    level: NodeKind,
  ): void => {
    const done = new Set<number>();
    for (let waiting = nodes; waiting.length > 0; ) {
      learn(waiting);
      const made = waiting.filter((node) => {
        const kind = kindOf(node);
        return !done.has(node) && kind !== level && !isSource(kind);
      });
      for (const node of made) done.add(node);
      // What left them matters as well: shares are rounded in the order they were drawn.
      out(made);
      waiting = into(made);
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
      const seen = new Set(numbersOf(origins));
      const below: number[] = [];
      for (let waiting: readonly number[] = [...seen]; waiting.length > 0; ) {
        const next = gathering.out(waiting).filter((node) => !seen.has(node));
        for (const node of next) seen.add(node);
        below.push(...next);
        waiting = next;
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
