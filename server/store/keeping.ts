/** Sizes and counts of a record, for whoever keeps it. */
import { statSync } from 'node:fs';
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { RECORD_FILE } from './database.ts';
import type { Keeping } from './store.ts';

const sizeOf = (file: string): number => {
  try {
    return statSync(file).size;
  } catch {
    return 0;
  }
};

/** `tail` is the newest seq: there are no gaps, so it is the number of entries, archived ones included. */
export const keepingOf = (db: Database.Database, folder: string, tail: number): Keeping => {
  const count = (sql: string): number => db.prepare(sql).pluck().get() as number;
  const file = join(folder, RECORD_FILE);
  return {
    bytes: sizeOf(file) + sizeOf(`${file}-wal`),
    entries: tail,
    shifts: count('SELECT count(*) FROM shifts'),
    sealed: count('SELECT count(*) FROM shifts WHERE seal IS NOT NULL'),
    packed: count('SELECT count(*) FROM packed'),
    archived: count('SELECT count(*) FROM archived'),
    freeBytes:
      (db.pragma('freelist_count', { simple: true }) as number) *
      (db.pragma('page_size', { simple: true }) as number),
  };
};
