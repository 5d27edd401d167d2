/** The tables mass is traced in: edges, batches and scales, written in the transaction that appends what they come from. */
import type Database from 'better-sqlite3';
import type { Heard } from '../../machines/record/book.types.ts';
import type { Edge, NodeKind, NodeRef } from '../../machines/yard/trace/edges.ts';
import { nodeKey } from '../../machines/yard/trace/edges.ts';
import { type Note, noteOf } from '../../machines/yard/trace/nodes.ts';

/** Tables of the same form under another schema or name, to compare with: `temp.again_` instead of nothing. */
export const TRACE_TABLES = [
  'trace_nodes',
  'trace_edges',
  'trace_batches',
  'trace_scales',
  'trace_laid',
] as const;

export type TraceWriter = {
  /** `leader`: who leads the line. */
  readonly write: (heard: Heard | null, edges: readonly Edge[], leader: string) => void;
  /** After a transaction that failed. */
  readonly forget: () => void;
};

/** `into` stands before every table's name. */
export const createTraceWriter = (db: Database.Database, into = ''): TraceWriter => {
  const getNode = db.prepare(`SELECT node FROM ${into}trace_nodes WHERE kind = ? AND id = ?`).pluck();
  const putNode = db.prepare(`INSERT INTO ${into}trace_nodes (kind, id) VALUES (?,?)`);
  // The same way taken twice at one entry is one edge.
  const putEdge = db.prepare(
    `INSERT INTO ${into}trace_edges (from_node, seq, to_node, material, grams) VALUES (?,?,?,?,?)
     ON CONFLICT (from_node, seq, to_node, material) DO UPDATE SET grams = grams + excluded.grams`,
  );
  const putBatch = db.prepare(
    `INSERT OR REPLACE INTO ${into}trace_batches (shift, batch, lot, mix, mix_version, person, seq, at)
     VALUES (?,?,?,?,?,?,?,?)`,
  );
  const endBatch = db.prepare(
    `UPDATE ${into}trace_batches SET ended_seq = ?, ended_at = ?, bay = ?, grams = ? WHERE shift = ? AND batch = ?`,
  );
  const putScale = db.prepare(
    `INSERT OR REPLACE INTO ${into}trace_scales (seq, shift, scale, what, person, at) VALUES (?,?,?,?,?,?)`,
  );
  const putLaid = db.prepare(
    `INSERT OR REPLACE INTO ${into}trace_laid (load, n, seq, patch, place, grams, layers, person, at)
     VALUES (?,?,?,?,?,?,?,?,?)`,
  );
  const takeBack = db.prepare(`UPDATE ${into}trace_laid SET reversed = ? WHERE load = ? AND n = ?`);
  const known = new Map<string, number>();
  const KNOWN_AT_MOST = 20_000;

  const nodeNumber = (ref: NodeRef): number => {
    const key = nodeKey(ref);
    const here = known.get(key);
    if (here !== undefined) return here;
    if (known.size >= KNOWN_AT_MOST) known.clear();
    const found = getNode.get(ref.kind, ref.id) as number | undefined;
    const node = found ?? Number(putNode.run(ref.kind, ref.id).lastInsertRowid);
    known.set(key, node);
    return node;
  };

  const note = (one: Note): void => {
    if (one.is === 'batch')
      putBatch.run(one.shift, one.batch, one.lot, one.mix, one.mixVersion, one.by, one.seq, one.at);
    else if (one.is === 'batchEnd') endBatch.run(one.seq, one.at, one.bay, one.grams, one.shift, one.batch);
    else if (one.is === 'laid')
      putLaid.run(
        one.load,
        one.n,
        one.seq,
        one.patch,
        one.place,
        one.grams,
        one.layers.join(' '),
        one.by,
        one.at,
      );
    else if (one.is === 'laidBack') takeBack.run(one.seq, one.load, one.n);
    else putScale.run(one.seq, one.shift, one.scale, one.what, one.by, one.at);
  };

  return {
    write: (heard, edges, leader) => {
      const one = heard === null ? null : noteOf(heard, leader);
      if (one !== null) note(one);
      for (const { from, to, grams, seq, material = '' } of edges)
        putEdge.run(nodeNumber(from), seq, nodeNumber(to), material, grams);
    },
    forget: () => known.clear(),
  };
};

/** What entries from `seq` on left in the tables is taken out of them. */
export const cutTrace = (db: Database.Database, seq: number): void => {
  db.prepare('DELETE FROM trace_edges WHERE seq >= ?').run(seq);
  db.prepare('DELETE FROM trace_batches WHERE seq >= ?').run(seq);
  db.prepare(
    'UPDATE trace_batches SET ended_seq = NULL, ended_at = NULL, bay = NULL, grams = NULL WHERE ended_seq >= ?',
  ).run(seq);
  db.prepare('DELETE FROM trace_scales WHERE seq >= ?').run(seq);
  db.prepare('DELETE FROM trace_laid WHERE seq >= ?').run(seq);
  db.prepare('UPDATE trace_laid SET reversed = NULL WHERE reversed >= ?').run(seq);
};

type EdgeRow = {
  readonly fromKind: NodeKind;
  readonly fromId: string;
  readonly toKind: NodeKind;
  readonly toId: string;
  readonly seq: number;
  readonly material: string;
  readonly grams: number;
};

const edgeOf = ({ fromKind, fromId, toKind, toId, seq, material, grams }: EdgeRow): Edge => ({
  from: { kind: fromKind, id: fromId },
  to: { kind: toKind, id: toId },
  grams,
  seq,
  ...(material === '' ? {} : { material }),
});

export type BatchRow = {
  readonly shift: number;
  readonly batch: number;
  readonly lot: string;
  readonly mix: string;
  readonly mixVersion: number;
  readonly person: string;
  readonly seq: number;
  readonly at: string;
  readonly endedSeq: number | null;
  readonly endedAt: string | null;
  readonly bay: number | null;
  readonly grams: number | null;
};
export type ScaleRow = {
  readonly seq: number;
  readonly shift: number;
  readonly scale: string;
  readonly what: string;
  readonly person: string;
  readonly at: string;
};
export type LaidRow = {
  readonly load: string;
  readonly n: number;
  readonly seq: number;
  readonly patch: string;
  readonly place: string;
  readonly grams: number;
  readonly layers: string;
  readonly person: string;
  readonly at: string;
};
export type LaidPatch = { readonly patch: string; readonly place: string; readonly at: string };
/** Batches between two moments of the plant's clock, both included; each part may be left out. */
export type BatchQuery = {
  readonly person?: string;
  readonly from?: string;
  readonly to?: string;
  readonly limit: number;
};

const EDGES = `SELECT f.kind AS fromKind, f.id AS fromId, t.kind AS toKind, t.id AS toId, e.seq, e.material, e.grams
  FROM trace_edges e JOIN trace_nodes f ON f.node = e.from_node JOIN trace_nodes t ON t.node = e.to_node`;
const BATCHES = `SELECT shift, batch, lot, mix, mix_version AS mixVersion, person, seq, at, ended_seq AS endedSeq,
  ended_at AS endedAt, bay, grams FROM trace_batches`;

/** Questions to the trace tables. */
export const createTraceReader = (db: Database.Database) => {
  const number = db.prepare('SELECT node FROM trace_nodes WHERE kind = ? AND id = ?').pluck();
  const from = db.prepare(`${EDGES} WHERE e.from_node = ? ORDER BY e.seq`);
  const to = db.prepare(`${EDGES} WHERE e.to_node = ? ORDER BY e.seq`);
  const named = db.prepare(
    `SELECT kind, id FROM trace_nodes WHERE kind = @kind AND id LIKE @like ESCAPE '\\' ORDER BY node DESC LIMIT @limit`,
  );
  const byLot = db.prepare(`${BATCHES} WHERE lot = ? AND batch = ?`);
  const scales = db.prepare(
    'SELECT seq, shift, scale, what, person, at FROM trace_scales ORDER BY seq DESC LIMIT ?',
  );
  const laid = db.prepare(
    `SELECT load, n, seq, patch, place, grams, layers, person, at FROM trace_laid
     WHERE patch = ? AND reversed IS NULL ORDER BY seq`,
  );
  const laidNewest = db.prepare(
    `SELECT patch, max(place) AS place, max(at) AS at FROM trace_laid WHERE reversed IS NULL
     GROUP BY patch ORDER BY max(seq) DESC LIMIT ?`,
  );
  const people = db.prepare('SELECT DISTINCT person FROM trace_batches ORDER BY person').pluck();
  const edges = (statement: Database.Statement, ref: NodeRef): Edge[] => {
    const node = number.get(ref.kind, ref.id) as number | undefined;
    return node === undefined ? [] : (statement.all(node) as EdgeRow[]).map(edgeOf);
  };
  return {
    has: (ref: NodeRef): boolean => number.get(ref.kind, ref.id) !== undefined,
    edgesFrom: (ref: NodeRef): Edge[] => edges(from, ref),
    edgesTo: (ref: NodeRef): Edge[] => edges(to, ref),
    /** Nodes whose id contains the text, the newest first. */
    named: (kind: NodeKind, text: string, limit: number): NodeRef[] =>
      named.all({ kind, like: `%${text.replace(/[\\%_]/g, '\\$&')}%`, limit }) as NodeRef[],
    batchOf: (lot: string, batch: number): BatchRow | null =>
      (byLot.get(lot, batch) as BatchRow | undefined) ?? null,
    batches: ({ person, from: since, to: until, limit }: BatchQuery): BatchRow[] => {
      const where = [
        ...(person === undefined ? [] : ['person = @person']),
        ...(since === undefined ? [] : ['coalesce(ended_at, at) >= @since']),
        ...(until === undefined ? [] : ['at <= @until']),
      ];
      const condition = where.length === 0 ? '' : `WHERE ${where.join(' AND ')}`;
      return db
        .prepare(`${BATCHES} ${condition} ORDER BY at DESC LIMIT @limit`)
        .all({ person, since, until, limit }) as BatchRow[];
    },
    scales: (limit: number): ScaleRow[] => scales.all(limit) as ScaleRow[],
    laidNewest: (limit: number): LaidPatch[] => laidNewest.all(limit) as LaidPatch[],
    laid: (patch: string): LaidRow[] => laid.all(patch) as LaidRow[],
    people: (): string[] => people.all() as string[],
  };
};
export type TraceReader = ReturnType<typeof createTraceReader>;
