/** Walks the whole chain of a record: rows, packed chunks, and over the gaps that archived shifts leave. */
import type Database from 'better-sqlite3';
import { CHAIN_START, type ChainEnd, type Verdict, whyNotNext } from '../../machines/record/chain.ts';
import type { ChunkDigest, SealBody } from '../../machines/record/entry.ts';
import { sha256 } from '../digest.ts';
import { messageOf } from '../plain-error.ts';
import { versionOf } from './database.ts';
import { chunkText } from './packed-readings.ts';
import { ChunkDamaged, type ChunkRow, createReader } from './rows.ts';
import { entryOf, type Row } from './tables.ts';

/** What is kept of a shift whose entries lie in an export file. */
export type ArchivedRow = {
  readonly shift: number;
  readonly last: number;
  readonly firstHash: string;
  readonly lastHash: string;
  readonly lastAtMs: number;
  readonly file: string;
  readonly bytes: number;
  readonly sha256: string;
  readonly wall: string;
};

export const archivedRows = (db: Database.Database): ArchivedRow[] =>
  versionOf(db) < 2
    ? []
    : (db
        .prepare(
          `SELECT shift, last, first_hash AS firstHash, last_hash AS lastHash, last_at_ms AS lastAtMs, file, bytes, sha256, wall
           FROM archived ORDER BY shift`,
        )
        .all() as ArchivedRow[]);

const checkChunk = (chunk: ChunkRow, rows: readonly Row[]): void => {
  if (sha256(chunkText(rows)) !== chunk.sha256)
    throw new ChunkDamaged(chunk, 'its content does not match its digest');
};

const PROGRESS_ENTRIES = 50_000;
const NOTHING: ReadonlySet<Row> = new Set();

/** Chunks that were met, held against what each seal says of them. */
const createChunkCheck = () => {
  const met = new Map<number, ChunkRow>();
  let rowsMet = NOTHING;
  return {
    meet: (chunk: ChunkRow, rows: readonly Row[]): void => {
      checkChunk(chunk, rows);
      met.set(chunk.first, { ...chunk, bytes: Buffer.alloc(0) });
      rowsMet = new Set(rows);
    },
    /** The row came out of the chunk that was opened last, whose digest held and which hashed each text anew. */
    isHashed: (row: Row): boolean => rowsMet.has(row),
    /** Words against a seal, or null. */
    whyNotSealed: (chunks: readonly ChunkDigest[]): string | null => {
      for (const { first, last, sha256: digest } of chunks) {
        const chunk = met.get(first);
        if (chunk !== undefined && (chunk.last !== last || chunk.sha256 !== digest))
          return `the packed readings of entries ${first} to ${last} are not those it covers`;
      }
      met.clear();
      return null;
    },
  };
};

/** What follows a readings entry's body in its canonical text. */
const READINGS_END = /,"kind":"readings","prev":"([0-9a-f]{64})","seq":(\d+),"wall":"[^"]*"\}$/;
const LONGEST_END = 200;

/** For a text whose hash has just been taken and whose form its chunk's digest vouches for: only its place is open. */
const whyNotPlace = (end: ChainEnd, row: Row): string | null => {
  const [, prev, seq] = READINGS_END.exec(row.json.slice(-LONGEST_END)) ?? [];
  if (seq === undefined) return 'it is not an entry of readings';
  if (Number(seq) !== row.seq) return `it stands in the place of entry ${row.seq}`;
  if (row.seq !== end.seq + 1) return `entry ${end.seq + 1} is missing: ${row.seq} stands in its place`;
  return prev === end.hash ? null : 'it does not name the entry before it';
};

const whyNotText = (
  end: ChainEnd,
  row: Row,
  whyNotSealed: (seal: SealBody) => string | null,
): string | null => {
  try {
    const entry = entryOf(row);
    if (entry.seq !== row.seq) return `it stands in the place of entry ${row.seq}`;
    if (sha256(row.json) !== row.hash) return 'its content does not match its hash';
    const why = whyNotNext(end, entry, sha256);
    return why ?? (entry.kind === 'seal' ? whyNotSealed(entry.body) : null);
  } catch (error) {
    return `it cannot be read: ${messageOf(error)}`;
  }
};

/** Where the chain goes on behind an archived shift, or words against it. */
const overArchived = (end: ChainEnd, stub: ArchivedRow): ChainEnd | string =>
  stub.firstHash === end.hash
    ? { seq: stub.last, hash: stub.lastHash }
    : `its archived shift was moved from behind another opening entry (see ${stub.file})`;

/** The first copy of an entry within an archived shift that is not what it was, in words; null when all are sound. */
const whyNotKept = (
  db: Database.Database,
  whyNotSealed: (seal: SealBody) => string | null,
): { readonly seq: number; readonly why: string } | null => {
  if (versionOf(db) < 3) return null;
  for (const row of db.prepare('SELECT seq, hash, json FROM kept ORDER BY seq').all() as Row[]) {
    let why = sha256(row.json) === row.hash ? null : 'its content does not match its hash';
    try {
      const entry = entryOf(row);
      if (entry.seq !== row.seq) why ??= `it stands in the place of entry ${row.seq}`;
      if (entry.kind === 'seal') why ??= whyNotSealed(entry.body);
    } catch (error) {
      why ??= `it cannot be read: ${messageOf(error)}`;
    }
    if (why !== null) return { seq: row.seq, why };
  }
  return null;
};

/** `entries` of the verdict counts those that were read here, not those in archive files. */
export const verifyRows = (
  db: Database.Database,
  onProgress: (share: number) => void = () => undefined,
): Verdict => {
  const newest = (db.prepare('SELECT max(seq) FROM entries').pluck().get() as number | null) ?? 0;
  const archived = new Map(archivedRows(db).map((stub) => [stub.shift, stub]));
  const chunks = createChunkCheck();
  const whyNotSealed = (seal: SealBody): string | null => {
    const stub = archived.get(seal.shift);
    if (stub === undefined) return chunks.whyNotSealed(seal.chunks);
    const same = seal.last === stub.last && seal.head === stub.lastHash;
    return same ? null : `it covers another end than the shift that was moved to ${stub.file}`;
  };
  let end: ChainEnd = CHAIN_START;
  let entries = 0;
  const bad = (seq: number, why: string): Verdict => ({ ok: false, seq, why });
  try {
    for (const row of createReader(db, chunks.meet).all(0)) {
      const why = chunks.isHashed(row) ? whyNotPlace(end, row) : whyNotText(end, row, whyNotSealed);
      if (why !== null) return bad(row.seq, why);
      end = { seq: row.seq, hash: row.hash };
      entries += 1;
      if (entries % PROGRESS_ENTRIES === 0) onProgress(row.seq / newest);
      const stub = archived.get(row.seq);
      if (stub === undefined) continue;
      const over = overArchived(end, stub);
      if (typeof over === 'string') return bad(row.seq, over);
      end = over;
    }
  } catch (error) {
    if (error instanceof ChunkDamaged) return bad(error.chunk.first, error.what);
    throw error;
  }
  const kept = whyNotKept(db, whyNotSealed);
  if (kept !== null) return bad(kept.seq, kept.why);
  return { ok: true, end, entries };
};
