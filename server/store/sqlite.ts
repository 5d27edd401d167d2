/** The record on embedded SQLite: one file, write-ahead log, synced at every commit. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { CHAIN_START, type Sealed, type Verdict, whyNotNext } from '../../machines/record/chain.ts';
import type { Entry } from '../../machines/record/entry.ts';
import { sha256 } from '../digest.ts';
import { messageOf, PlainError } from '../plain-error.ts';
import { missingEnd, readHighWater, writeHighWater } from './high-water.ts';
import { type Lock, lockFolder } from './lock.ts';
import { type Watch, watchFiles } from './still-there.ts';
import type { Checkpoint, KnownAnswer, RecordQuery, Store, Tail } from './store.ts';
import { columnsOf, entryOf, type Row, TABLES, TABLES_VERSION } from './tables.ts';
import { inspectTail } from './tail.ts';
import { cannotOpen, cannotRead } from './why.ts';

/** Entries looked at when a record is opened. */
const TAIL_ENTRIES = 500;
const CHECKPOINTS_KEPT = 3;
/** How SQLite numbers synchronous = FULL. */
const SYNC_FULL = 2;
const FILE = 'record.sqlite';

export type SqliteOptions = {
  /** Largest size of the file in pages of 4 KiB; past it appends fail as on a full disk. */
  readonly pagesAtMost?: number;
};

const openDatabase = (folder: string, { pagesAtMost }: SqliteOptions): Database.Database => {
  const db = new Database(join(folder, FILE), { timeout: 2000 });
  const journal = db.pragma('journal_mode = WAL', { simple: true });
  db.pragma('synchronous = FULL');
  if (journal !== 'wal' || db.pragma('synchronous', { simple: true }) !== SYNC_FULL)
    throw new PlainError(
      `The disk under ${folder} cannot keep a write-ahead log (a network folder?): name a folder on a local disk with --data.`,
    );
  if (pagesAtMost !== undefined) db.pragma(`max_page_count = ${pagesAtMost}`);
  const version = db.pragma('user_version', { simple: true }) as number;
  if (version === 0) db.transaction(() => db.exec(TABLES).pragma(`user_version = ${TABLES_VERSION}`))();
  else if (version !== TABLES_VERSION)
    throw new PlainError(
      `The record in ${folder} has tables of version ${version} and this program knows ${TABLES_VERSION}: use the program that wrote it, or name another folder with --data.`,
    );
  return db;
};

/** Cuts a half-written tail (its rows move to table cut); says what it did, or null. */
const mendTail = (db: Database.Database, folder: string): string | null => {
  const last = db.prepare('SELECT max(seq) FROM entries').pluck().get() as number | null;
  if (last === null) return null;
  const first = Math.max(1, last - TAIL_ENTRIES + 1);
  const rows = db
    .prepare('SELECT seq, hash, json FROM entries WHERE seq >= ? ORDER BY seq')
    .all(first) as Row[];
  const before = db.prepare('SELECT seq, hash FROM entries WHERE seq = ?').get(first - 1) as Row | undefined;
  const finding = inspectTail(rows, first === 1 ? CHAIN_START : (before ?? { seq: first - 1, hash: '' }));
  if (finding.is === 'whole') return null;
  if (finding.is === 'damaged')
    throw new PlainError(
      `The record in ${folder} is damaged at entry ${finding.at} (${finding.why}): keep the folder as it is for whoever looks into it, and start with another one (--data).`,
    );
  const { from, why } = finding;
  db.transaction(() => {
    db.prepare('INSERT INTO cut SELECT seq, kind, hash, json FROM entries WHERE seq >= ?').run(from);
    for (const table of ['entries', 'answers', 'checkpoints'])
      db.prepare(`DELETE FROM ${table} WHERE seq >= ?`).run(from);
  })();
  return `entries ${from} to ${last} were cut off the end of the record: ${why}`;
};

const prepareAll = (db: Database.Database) => ({
  insert: db.prepare(
    'INSERT INTO entries (seq, shift, kind, at_ms, fact, lot, batch, hash, json) VALUES (?,?,?,?,?,?,?,?,?)',
  ),
  tail: db.prepare('SELECT seq, hash, at_ms AS atMs, shift FROM entries ORDER BY seq DESC LIMIT 1'),
  hashAt: db.prepare('SELECT hash FROM entries WHERE seq = ?').pluck(),
  putAnswer: db.prepare('INSERT OR IGNORE INTO answers (id, seq, command, because) VALUES (?,?,?,?)'),
  getAnswer: db.prepare('SELECT command, because FROM answers WHERE id = ?'),
  decisionsAfter: db.prepare(
    `SELECT seq, hash, json FROM entries WHERE kind IN ('opening','command','fact') AND kind <> 'readings' AND seq > ? ORDER BY seq`,
  ),
  lastReadings: db.prepare(
    `SELECT seq, hash, json FROM entries WHERE kind = 'readings' ORDER BY seq DESC LIMIT 1`,
  ),
  putCheckpoint: db.prepare(
    'INSERT OR REPLACE INTO checkpoints (seq, shift, hash, tick, world) VALUES (?,?,?,?,?)',
  ),
  dropCheckpoints: db.prepare(
    'DELETE FROM checkpoints WHERE seq NOT IN (SELECT seq FROM checkpoints ORDER BY seq DESC LIMIT ?)',
  ),
  getCheckpoints: db.prepare('SELECT * FROM checkpoints WHERE shift = ? ORDER BY seq DESC'),
  putScenario: db.prepare('INSERT OR IGNORE INTO scenarios (digest, json) VALUES (?,?)'),
  getScenario: db.prepare('SELECT json FROM scenarios WHERE digest = ?').pluck(),
});

class SqliteStore implements Store {
  readonly where: string;
  readonly cut: string | null;
  #db: Database.Database;
  #lock: Lock | null;
  #sql: ReturnType<typeof prepareAll>;
  #tail: Tail;
  #watch: Watch;

  constructor(where: string, db: Database.Database, lock: Lock | null, cut: string | null) {
    this.where = where;
    this.#db = db;
    this.#lock = lock;
    this.#sql = prepareAll(db);
    this.#tail = (this.#sql.tail.get() as Tail | undefined) ?? { ...CHAIN_START, atMs: 0, shift: 0 };
    const hashAt = (seq: number) => this.#sql.hashAt.get(seq) as string | undefined;
    // What was cut off here was noted as reached before: one finding is enough.
    this.cut = cut ?? missingEnd(readHighWater(where), this.#tail.seq, hashAt);
    this.#watch = watchFiles([join(where, FILE), join(where, `${FILE}-wal`)]);
    this.#watch.check();
  }

  async tail(): Promise<Tail> {
    return this.#tail;
  }

  async append(batch: readonly Sealed[]): Promise<void> {
    const last = batch.at(-1);
    if (last === undefined) return;
    this.#watch.check();
    // A commit may have gone through although its caller heard an error; asking again is then harmless.
    if (this.#sql.hashAt.get(last.entry.seq) === last.entry.hash) {
      this.#tail = this.#sql.tail.get() as Tail;
      return;
    }
    let shift = this.#tail.shift;
    this.#db.transaction(() => {
      for (const { entry, text } of batch) {
        if (entry.kind === 'opening') shift = entry.seq;
        const { fact, lot, batch: batchNo } = columnsOf(entry);
        this.#sql.insert.run(entry.seq, shift, entry.kind, entry.atMs, fact, lot, batchNo, entry.hash, text);
        this.#keepAnswer(entry);
      }
    })();
    this.#tail = { seq: last.entry.seq, hash: last.entry.hash, atMs: last.entry.atMs, shift };
  }

  #keepAnswer(entry: Entry): void {
    if (entry.kind !== 'fact') return;
    const fact = entry.body.fact;
    if (fact.is === 'commandDone') this.#sql.putAnswer.run(fact.id, entry.seq, fact.command, null);
    if (fact.is === 'commandRefused')
      this.#sql.putAnswer.run(fact.id, entry.seq, fact.command, JSON.stringify(fact.because));
  }

  async read(query: RecordQuery): Promise<readonly Entry[]> {
    // The kind is written into the text, so that SQLite can see which partial index serves.
    const where = ['seq > @after'];
    if (query.kind === 'readings') where.push(`kind = 'readings'`);
    else if (query.kind !== undefined) where.push(`kind = @kind AND kind <> 'readings'`);
    if (query.fact !== undefined) where.push('fact = @fact AND fact IS NOT NULL');
    if (query.lot !== undefined) where.push('lot = @lot AND lot IS NOT NULL');
    const rows = this.#db
      .prepare(`SELECT seq, hash, json FROM entries WHERE ${where.join(' AND ')} ORDER BY seq LIMIT @limit`)
      .all(query) as Row[];
    return rows.map(entryOf);
  }

  async inputsAfter(after: number): Promise<{ entries: readonly Entry[]; lastTick: number }> {
    const entries = (this.#sql.decisionsAfter.all(after) as Row[]).map(entryOf);
    const row = this.#sql.lastReadings.get() as Row | undefined;
    const readings = row === undefined ? null : entryOf(row);
    const inShift = readings?.kind === 'readings' && readings.seq > this.#tail.shift;
    return { entries, lastTick: inShift ? readings.body.to : 0 };
  }

  async answerTo(id: string): Promise<KnownAnswer | null> {
    const row = this.#sql.getAnswer.get(id) as { command: string; because: string | null } | undefined;
    if (row === undefined) return null;
    const answer =
      row.because === null
        ? ({ ok: true } as const)
        : ({ ok: false, because: JSON.parse(row.because) as string[] } as const);
    return { command: row.command, answer };
  }

  async saveCheckpoint(c: Checkpoint): Promise<void> {
    const world = JSON.stringify(c.world);
    this.#db.transaction(() => {
      this.#sql.putCheckpoint.run(c.seq, c.shift, c.hash, c.tick, world);
      this.#sql.dropCheckpoints.run(CHECKPOINTS_KEPT);
    })();
    writeHighWater(this.where, this.#tail);
  }

  async loadCheckpoint(shift: number): Promise<Checkpoint | null> {
    for (const row of this.#sql.getCheckpoints.all(shift) as (Omit<Checkpoint, 'world'> & {
      world: string;
    })[]) {
      if (this.#sql.hashAt.get(row.seq) !== row.hash) continue;
      try {
        return { ...row, world: JSON.parse(row.world) as unknown };
      } catch {
        // A checkpoint only saves time: the one before it, or the record alone, will do.
      }
    }
    return null;
  }

  async saveScenario(digest: string, scenario: unknown): Promise<void> {
    this.#sql.putScenario.run(digest, JSON.stringify(scenario));
  }

  async loadScenario(digest: string): Promise<unknown> {
    const json = this.#sql.getScenario.get(digest) as string | undefined;
    return json === undefined ? null : JSON.parse(json);
  }

  async verify(): Promise<Verdict> {
    return verifyRows(this.#db);
  }

  async close(): Promise<void> {
    this.#db.close();
    this.#lock?.release();
    this.#lock = null;
  }
}

const verifyRows = (db: Database.Database): Verdict => {
  let end = CHAIN_START;
  let entries = 0;
  for (const row of db
    .prepare('SELECT seq, hash, json FROM entries ORDER BY seq')
    .iterate() as Iterable<Row>) {
    let why: string | null;
    try {
      const entry = entryOf(row);
      why =
        sha256(row.json) === row.hash
          ? whyNotNext(end, entry, sha256)
          : 'its content does not match its hash';
    } catch (error) {
      why = `it cannot be read: ${messageOf(error)}`;
    }
    if (why !== null) return { ok: false, seq: row.seq, why };
    end = { seq: row.seq, hash: row.hash };
    entries += 1;
  }
  return { ok: true, end, entries };
};

/** Opens the record in a data folder, alone. Throws PlainError when it cannot. */
export const openSqliteStore = (folder: string, options: SqliteOptions = {}): Store => {
  const lock = lockFolder(folder);
  let db: Database.Database | null = null;
  try {
    db = openDatabase(folder, options);
    return new SqliteStore(folder, db, lock, mendTail(db, folder));
  } catch (error) {
    db?.close();
    lock.release();
    throw cannotOpen(join(folder, FILE), error);
  }
};

/** Checks the chain of a record without taking it over; a server may be running on it. */
export const verifyFolder = (folder: string): Verdict => {
  const file = join(folder, FILE);
  if (!existsSync(file)) throw new PlainError(`There is no record to read in ${folder}.`);
  let db: Database.Database | null = null;
  try {
    db = new Database(file, { readonly: true, fileMustExist: true });
    return verifyRows(db);
  } catch (error) {
    throw cannotRead(file, error);
  } finally {
    db?.close();
  }
};
