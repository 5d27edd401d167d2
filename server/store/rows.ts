/** Reads entries in order wherever they lie: in their own rows, or packed in chunks. */
import type Database from 'better-sqlite3';
import { messageOf, PlainError } from '../plain-error.ts';
import { type PackMethod, unpack } from './packed-readings.ts';
import type { Row } from './tables.ts';

/** Rows fetched at a time: a few hundred kilobytes. */
export const PAGE = 1000;
export const NO_END = Number.MAX_SAFE_INTEGER;

export type ChunkRow = {
  readonly first: number;
  readonly last: number;
  readonly shift: number;
  readonly count: number;
  readonly sha256: string;
  readonly method: PackMethod;
  readonly bytes: Buffer;
};

/** A chunk that does not unpack to what it should hold. */
export class ChunkDamaged extends PlainError {
  readonly chunk: ChunkRow;
  /** What is damaged, as part of a sentence. */
  readonly what: string;
  constructor(chunk: ChunkRow, why: string) {
    const what = `packed readings of entries ${chunk.first} to ${chunk.last}, in the shift that began with entry ${chunk.shift}, are damaged (${why})`;
    super(`The ${what}: keep the data folder as it is, and fetch that shift from the last backup.`);
    this.chunk = chunk;
    this.what = `the ${what}`;
  }
}

/** Throws ChunkDamaged when it does not unpack or holds other entries than it says. */
export const openChunk = (chunk: ChunkRow): Row[] => {
  let rows: Row[];
  try {
    rows = unpack(chunk);
  } catch (error) {
    throw new ChunkDamaged(chunk, messageOf(error));
  }
  if (rows.length !== chunk.count || rows[0]?.seq !== chunk.first || rows.at(-1)?.seq !== chunk.last)
    throw new ChunkDamaged(
      chunk,
      `it holds ${rows.length} entries, ${rows[0]?.seq} to ${rows.at(-1)?.seq}, and should hold ${chunk.count}`,
    );
  return rows;
};

export type Reader = {
  /** Entries after `after` up to `upTo` inclusive, in order; pages are fetched as they are asked for. */
  readonly all: (after: number, upTo?: number, page?: number) => Generator<Row>;
  /** The same, readings only. */
  readonly readings: (after: number, upTo?: number, page?: number) => Generator<Row>;
  readonly hashAt: (seq: number) => string | undefined;
};

function* merged(left: Generator<Row>, right: Generator<Row>): Generator<Row> {
  let a = left.next();
  let b = right.next();
  while (a.done !== true || b.done !== true) {
    if (b.done === true || (a.done !== true && a.value.seq < b.value.seq)) {
      if (a.done !== true) yield a.value;
      a = left.next();
    } else {
      yield b.value;
      b = right.next();
    }
  }
}

const hasChunks = (db: Database.Database): boolean =>
  (db.pragma('user_version', { simple: true }) as number) >= 2;

/** `onChunk` sees every chunk once before its rows are given. */
export const createReader = (
  db: Database.Database,
  onChunk?: (chunk: ChunkRow, rows: readonly Row[]) => void,
): Reader => {
  const anyPage = db.prepare(
    'SELECT seq, hash, json FROM entries WHERE seq > ? AND seq <= ? ORDER BY seq LIMIT ?',
  );
  const readingsPage = db.prepare(
    `SELECT seq, hash, json FROM entries WHERE seq > ? AND seq <= ? AND kind = 'readings' ORDER BY seq LIMIT ?`,
  );
  // A record of version 1 that is only being looked at has no chunks.
  const chunkAfter = hasChunks(db)
    ? db.prepare('SELECT * FROM chunks WHERE last > ? ORDER BY last LIMIT 1')
    : null;
  const hashAt = db.prepare('SELECT hash FROM entries WHERE seq = ?').pluck();
  // Shifts whose readings are still rows of their own: a search for readings must not wade through the others.
  const unpacked = `
    SELECT shift, (SELECT min(next.shift) FROM shifts next WHERE next.shift > s.shift) AS next FROM shifts s
    WHERE shift NOT IN (SELECT shift FROM packed) AND shift NOT IN (SELECT shift FROM archived)
    ORDER BY shift`;
  let kept: { first: number; rows: Row[] } | null = null;
  const rowsOf = (chunk: ChunkRow): Row[] => {
    if (kept?.first !== chunk.first) {
      kept = { first: chunk.first, rows: openChunk(chunk) };
      onChunk?.(chunk, kept.rows);
    }
    return kept.rows;
  };

  function* paged(statement: Database.Statement, after: number, upTo: number, page: number): Generator<Row> {
    let from = after;
    for (;;) {
      const rows = statement.all(from, upTo, page) as Row[];
      yield* rows;
      const last = rows.at(-1);
      if (last === undefined || rows.length < page) return;
      from = last.seq;
    }
  }

  function* packed(after: number, upTo: number): Generator<Row> {
    let from = after;
    for (;;) {
      const chunk = chunkAfter?.get(from) as ChunkRow | undefined;
      if (chunk === undefined || chunk.first > upTo) return;
      for (const row of rowsOf(chunk)) if (row.seq > after && row.seq <= upTo) yield row;
      from = chunk.last;
    }
  }

  function* looseReadings(after: number, upTo: number, page: number): Generator<Row> {
    for (const { shift, next } of db.prepare(unpacked).all() as { shift: number; next: number | null }[]) {
      const last = Math.min(upTo, next === null ? NO_END : next - 1);
      if (last > after && shift <= upTo) yield* paged(readingsPage, Math.max(after, shift), last, page);
    }
  }

  return {
    all: (after, upTo = NO_END, page = PAGE) =>
      merged(paged(anyPage, after, upTo, page), packed(after, upTo)),
    readings: (after, upTo = NO_END, page = PAGE) =>
      merged(looseReadings(after, upTo, page), packed(after, upTo)),
    hashAt: (seq) => {
      const hash = hashAt.get(seq) as string | undefined;
      if (hash !== undefined) return hash;
      const [row] = packed(seq - 1, seq);
      return row?.hash;
    },
  };
};

/** The first `limit` of what a generator gives. */
export const take = (rows: Generator<Row>, limit: number): Row[] => {
  const taken: Row[] = [];
  if (limit < 1) return taken;
  for (const row of rows) {
    taken.push(row);
    if (taken.length >= limit) break;
  }
  return taken;
};
