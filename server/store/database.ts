/** Opens the file of a record: durable settings, its tables brought up to date, a half-written end cut off. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { CHAIN_START } from '../../machines/record/chain.ts';
import { PlainError } from '../plain-error.ts';
import { PROJECTIONS_VERSION } from './mentions.ts';
import { projectionsVersion } from './projections.ts';
import { rebuildInPlace } from './rebuild.ts';
import { createReader, take } from './rows.ts';
import { TABLE_STEPS, TABLES_VERSION } from './tables.ts';
import { inspectTail } from './tail.ts';
import { cutTrace } from './trace-tables.ts';

/** Entries looked at when a record is opened. */
const TAIL_ENTRIES = 500;
/** How SQLite numbers synchronous = FULL. */
const SYNC_FULL = 2;
export const RECORD_FILE = 'record.sqlite';

export type SqliteOptions = {
  /** Largest size of the file in pages of 4 KiB; past it appends fail as on a full disk. */
  readonly pagesAtMost?: number;
};

export const versionOf = (db: Database.Database): number =>
  db.pragma('user_version', { simple: true }) as number;

/** Takes the steps that are missing, all or none. */
const migrate = (db: Database.Database, folder: string): void => {
  const version = versionOf(db);
  if (version > TABLES_VERSION)
    throw new PlainError(
      `The record in ${folder} has tables of version ${version} and this program knows ${TABLES_VERSION}: use the program that wrote it, or name another folder with --data.`,
    );
  if (version < TABLES_VERSION)
    db.transaction(() => {
      for (const step of TABLE_STEPS.slice(version)) db.exec(step);
      db.pragma(`user_version = ${TABLES_VERSION}`);
    })();
  if (projectionsVersion(db) !== PROJECTIONS_VERSION) rebuildInPlace(db);
};

export const openDatabase = (folder: string, { pagesAtMost }: SqliteOptions): Database.Database => {
  const db = new Database(join(folder, RECORD_FILE), { timeout: 2000 });
  try {
    const journal = db.pragma('journal_mode = WAL', { simple: true });
    db.pragma('synchronous = FULL');
    if (journal !== 'wal' || db.pragma('synchronous', { simple: true }) !== SYNC_FULL)
      throw new PlainError(
        `The disk under ${folder} cannot keep a write-ahead log (a network folder?): name a folder on a local disk with --data.`,
      );
    if (pagesAtMost !== undefined) db.pragma(`max_page_count = ${pagesAtMost}`);
    migrate(db, folder);
    return db;
  } catch (error) {
    db.close();
    throw error;
  }
};

/** The entry before the first of a tail: what stands there, or the end of an archived shift. */
const beforeTail = (db: Database.Database, seq: number): { seq: number; hash: string } => {
  if (seq < 1) return CHAIN_START;
  const archived = db.prepare('SELECT last_hash FROM archived WHERE last = ?').pluck();
  const hash = createReader(db).hashAt(seq) ?? (archived.get(seq) as string | undefined);
  return { seq, hash: hash ?? '' };
};

/** Cuts a half-written tail (its rows move to table cut); says what it did, or null. */
export const mendTail = (db: Database.Database, folder: string): string | null => {
  const last = db.prepare('SELECT max(seq) FROM entries').pluck().get() as number | null;
  if (last === null) return null;
  const archivedTo = (db.prepare('SELECT max(last) FROM archived').pluck().get() as number | null) ?? 0;
  const first = Math.max(1, archivedTo + 1, last - TAIL_ENTRIES + 1);
  const rows = take(createReader(db).all(first - 1, last), TAIL_ENTRIES);
  const finding = inspectTail(rows, beforeTail(db, first - 1));
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
    cutTrace(db, from);
    db.prepare('DELETE FROM books WHERE seq >= ?').run(from);
    // What was cut off is in the index too.
    rebuildInPlace(db);
  })();
  return `entries ${from} to ${last} were cut off the end of the record: ${why}`;
};
