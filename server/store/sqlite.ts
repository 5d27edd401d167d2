/** The record on embedded SQLite: one file, write-ahead log, synced at every commit. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { Listening } from '../../machines/ledger/listen.ts';
import { CHAIN_START, type Sealed, type Verdict } from '../../machines/record/chain.ts';
import type { Entry } from '../../machines/record/entry.ts';
import { PlainError } from '../plain-error.ts';
import { answerOf } from './answers.ts';
import { type Books, createBooks, type OnHearingTrouble } from './books.ts';
import { mendTail, openDatabase, RECORD_FILE, type SqliteOptions } from './database.ts';
import { createFinder } from './find.ts';
import { missingEnd, readHighWater, writeHighWater } from './high-water.ts';
import { keepingOf } from './keeping.ts';
import { type Lock, lockFolder } from './lock.ts';
import { createPacker } from './pack.ts';
import { createProjector } from './projections.ts';
import { createReader, NO_END, PAGE, type Reader, take } from './rows.ts';
import { type Watch, watchFiles } from './still-there.ts';
import type {
  Checkpoint,
  FindQuery,
  Found,
  IndexKind,
  Keeping,
  KnownAnswer,
  Mention,
  RecordQuery,
  ShiftSummary,
  Store,
  StoredText,
  Tail,
  Traces,
} from './store.ts';
import { columnsOf, entryOf, type Row } from './tables.ts';
import { createReach } from './trace-reach.ts';
import { createTraceReader } from './trace-tables.ts';
import { verifyRows } from './verify-rows.ts';
import { cannotOpen, cannotRead } from './why.ts';

export type { SqliteOptions } from './database.ts';

const CHECKPOINTS_KEPT = 3;
const FILE = RECORD_FILE;

const prepareAll = (db: Database.Database) => ({
  insert: db.prepare(
    'INSERT INTO entries (seq, shift, kind, at_ms, fact, lot, batch, hash, json) VALUES (?,?,?,?,?,?,?,?,?)',
  ),
  tail: db.prepare('SELECT seq, hash, at_ms AS atMs, shift FROM entries ORDER BY seq DESC LIMIT 1'),
  isThere: db.prepare('SELECT hash FROM entries WHERE seq = ?').pluck(),
  putAnswer: db.prepare('INSERT OR IGNORE INTO answers (id, seq, command, because) VALUES (?,?,?,?)'),
  getAnswer: db.prepare('SELECT command, because FROM answers WHERE id = ?'),
  decisionsAfter: db.prepare(
    `SELECT seq, hash, json FROM entries WHERE kind IN ('opening','command','fact') AND kind <> 'readings' AND seq > ? ORDER BY seq`,
  ),
  ofKind: db.prepare(
    `SELECT seq, hash, json FROM entries WHERE seq > @after AND kind = @kind AND kind <> 'readings'
     UNION ALL SELECT seq, hash, json FROM kept WHERE seq > @after AND kind = @kind ORDER BY seq LIMIT @limit`,
  ),
  lastReadings: db.prepare(
    `SELECT seq, hash, json FROM entries WHERE kind = 'readings' AND seq > ? ORDER BY seq DESC LIMIT 1`,
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

/** Until the tables are there (a record of an older version that is only looked at) nothing is asked. */
const tracesOn = (db: Database.Database): Traces => {
  let reader: ReturnType<typeof createTraceReader> | null = null;
  let reach: ReturnType<typeof createReach> | null = null;
  const asked = () => {
    reach ??= createReach(db);
    return reach;
  };
  const ask = () => {
    reader ??= createTraceReader(db);
    return reader;
  };
  return {
    has: async (node) => ask().has(node),
    below: async (origins) => asked().below(origins),
    above: async (target, level) => asked().above(target, level),
    edgesFrom: async (node) => ask().edgesFrom(node),
    edgesTo: async (node) => ask().edgesTo(node),
    named: async (kind, text, limit) => ask().named(kind, text, limit),
    batchOf: async (lot, batch) => ask().batchOf(lot, batch),
    batches: async (query) => ask().batches(query),
    scales: async (limit) => ask().scales(limit),
    laid: async (patch) => ask().laid(patch),
    laidNewest: async (limit) => ask().laidNewest(limit),
    people: async () => ask().people(),
  };
};

class SqliteStore implements Store {
  readonly where: string;
  readonly cut: string | null;
  #db: Database.Database;
  #lock: Lock | null;
  #sql: ReturnType<typeof prepareAll>;
  #tail: Tail;
  #watch: Watch;
  #reader: Reader;
  #projector: ReturnType<typeof createProjector>;
  #finder: ReturnType<typeof createFinder>;
  #packNext: () => Promise<boolean>;
  #books: Books;
  readonly traces: Traces;

  constructor(
    where: string,
    db: Database.Database,
    lock: Lock | null,
    cut: string | null,
    onTrouble: OnHearingTrouble,
  ) {
    this.where = where;
    this.#db = db;
    this.#lock = lock;
    this.#sql = prepareAll(db);
    this.#reader = createReader(db);
    this.#projector = createProjector(db);
    this.#finder = createFinder(db);
    this.#packNext = createPacker(db);
    this.#books = createBooks(db, onTrouble);
    this.traces = tracesOn(db);
    this.#tail = (this.#sql.tail.get() as Tail | undefined) ?? { ...CHAIN_START, atMs: 0, shift: 0 };
    const { hashAt } = this.#reader;
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
    if (this.#sql.isThere.get(last.entry.seq) === last.entry.hash) {
      this.#tail = this.#sql.tail.get() as Tail;
      return;
    }
    let shift = this.#tail.shift;
    this.#projector.forget();
    // Whatever they have not heard yet they hear before there is more of it.
    this.#books.now();
    this.#books.forget();
    this.#db.transaction(() => {
      for (const { entry, text } of batch) {
        if (entry.kind === 'opening') shift = entry.seq;
        const { fact, lot, batch: batchNo } = columnsOf(entry);
        this.#sql.insert.run(entry.seq, shift, entry.kind, entry.atMs, fact, lot, batchNo, entry.hash, text);
        this.#keepAnswer(entry);
        this.#projector.take(entry, shift);
        this.#books.take(entry);
      }
      this.#projector.write();
    })();
    this.#books.keep();
    this.#tail = { seq: last.entry.seq, hash: last.entry.hash, atMs: last.entry.atMs, shift };
    this.#books.saveIfDue();
  }

  #keepAnswer(entry: Entry): void {
    const answer = answerOf(entry);
    if (answer !== null) this.#sql.putAnswer.run(answer.id, entry.seq, answer.command, answer.because);
  }

  async read(query: RecordQuery): Promise<readonly Entry[]> {
    const { kind, fact, lot, after, limit } = query;
    if (fact === undefined && lot === undefined) {
      const page = Math.min(limit, PAGE);
      if (kind === undefined) return take(this.#reader.all(after, NO_END, page), limit).map(entryOf);
      if (kind === 'readings') return take(this.#reader.readings(after, NO_END, page), limit).map(entryOf);
    }
    // What lies within archived shifts but is about others has its copy in a table of its own.
    if (fact === undefined && lot === undefined && kind !== undefined && kind !== 'readings')
      return (this.#sql.ofKind.all({ after, kind, limit }) as Row[]).map(entryOf);
    // The kind is written into the text, so that SQLite can see which partial index serves.
    const where = ['seq > @after'];
    if (kind === 'readings') where.push(`kind = 'readings'`);
    else if (kind !== undefined) where.push(`kind = @kind AND kind <> 'readings'`);
    if (fact !== undefined) where.push('fact = @fact AND fact IS NOT NULL');
    if (lot !== undefined) where.push('lot = @lot AND lot IS NOT NULL');
    const rows = this.#db
      .prepare(`SELECT seq, hash, json FROM entries WHERE ${where.join(' AND ')} ORDER BY seq LIMIT @limit`)
      .all(query) as Row[];
    return rows.map(entryOf);
  }

  async inputsAfter(after: number): Promise<{ entries: readonly Entry[]; lastTick: number }> {
    const entries = (this.#sql.decisionsAfter.all(after) as Row[]).map(entryOf);
    const row = this.#sql.lastReadings.get(this.#tail.shift) as Row | undefined;
    const readings = row === undefined ? null : entryOf(row);
    return { entries, lastTick: readings?.kind === 'readings' ? readings.body.to : 0 };
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
      if (this.#reader.hashAt(row.seq) !== row.hash) continue;
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

  async *texts(first: number, last: number): AsyncIterable<StoredText> {
    let after = first - 1;
    while (after < last) {
      const page = take(this.#reader.all(after, last), PAGE);
      yield* page;
      const newest = page.at(-1);
      if (newest === undefined) return;
      after = newest.seq;
    }
  }

  async shifts(): Promise<readonly ShiftSummary[]> {
    return this.#finder.shifts(this.#tail.seq);
  }

  async find(query: FindQuery): Promise<readonly Found[]> {
    return this.#finder.find(query, this.#tail.seq);
  }

  async mentions(kind: IndexKind, shift: number): Promise<readonly Mention[]> {
    return this.#finder.mentions(kind, shift);
  }

  async naming(mention: Mention): Promise<readonly Entry[]> {
    return this.#finder.naming(mention);
  }

  packNext(): Promise<boolean> {
    return this.#packNext();
  }

  async keeping(): Promise<Keeping> {
    return keepingOf(this.#db, this.where, this.#tail.seq);
  }

  async books(): Promise<Listening> {
    return this.#books.now();
  }

  async close(): Promise<void> {
    try {
      this.#books.save();
    } catch {
      // They only save time: the record itself is whole.
    }
    this.#db.close();
    this.#lock?.release();
    this.#lock = null;
  }
}

/** A store on a record that somebody else has opened and will close. */
export const storeOn = (folder: string, db: Database.Database): Store =>
  new SqliteStore(folder, db, null, null, () => undefined);

/** Opens the record in a data folder, alone. Throws PlainError when it cannot. */
export const openSqliteStore = (
  folder: string,
  options: SqliteOptions = {},
  onTrouble: OnHearingTrouble = () => undefined,
): Store => {
  const lock = lockFolder(folder);
  let db: Database.Database | null = null;
  try {
    db = openDatabase(folder, options);
    return new SqliteStore(folder, db, lock, mendTail(db, folder), onTrouble);
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
    // One reading of it all: what is packed meanwhile must not be met twice or not at all.
    db.exec('BEGIN');
    return verifyRows(db);
  } catch (error) {
    throw cannotRead(file, error);
  } finally {
    db?.close();
  }
};
