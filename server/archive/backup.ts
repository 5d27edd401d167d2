/** A copy of the record while the line writes on, whole as of one moment, and checked before it gets its name. */
import { closeSync, existsSync, fsyncSync, openSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { codeOf, messageOf, PlainError } from '../plain-error.ts';
import { RECORD_FILE, versionOf } from '../store/database.ts';
import { verifyRows } from '../store/verify-rows.ts';
import { cannotRead } from '../store/why.ts';

/** Pages copied at a time: 4 MiB. */
const PAGES_A_STEP = 1024;

export type BackedUp = { readonly bytes: number; readonly entries: number; readonly head: string };

const sync = (path: string): void => {
  const handle = openSync(path, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
};

const cannotWrite = (file: string, error: unknown): PlainError => {
  if (error instanceof PlainError) return error;
  const code = codeOf(error);
  const why =
    code === 'SQLITE_FULL' || code === 'ENOSPC' ? 'there is no room for it' : code || messageOf(error);
  return new PlainError(`The backup ${file} cannot be written (${why}): name another place with --out.`);
};

/** Copies in steps from one snapshot: a reading that stays open keeps later commits out of the copy. */
const copy = async (
  db: Database.Database,
  to: string,
  onProgress: (share: number) => void,
  pagesAStep: number,
): Promise<void> => {
  db.exec('BEGIN');
  db.prepare('SELECT count(*) FROM sqlite_schema').get();
  await db.backup(to, {
    progress: ({ totalPages, remainingPages }) => {
      if (totalPages > 0) onProgress(1 - remainingPages / totalPages);
      return pagesAStep;
    },
  });
  onProgress(1);
};

/** Sets a copy to stand alone: one file, no write-ahead log beside it. */
const checkCopy = (file: string, onProgress: (share: number) => void): { entries: number; head: string } => {
  const db = new Database(file);
  try {
    db.pragma('journal_mode = DELETE');
    const sound = db.pragma('integrity_check(1)', { simple: true });
    if (sound !== 'ok') throw new PlainError(`The copy is not a whole database: ${String(sound)}`);
    const verdict = verifyRows(db, onProgress);
    if (!verdict.ok)
      throw new PlainError(
        `The record is not whole at entry ${verdict.seq} (${verdict.why}); so its copy is not either, and it was thrown away. Verify the data folder.`,
      );
    return { entries: verdict.end.seq, head: verdict.end.hash };
  } finally {
    db.close();
  }
};

/**
 * Writes `out`, which must not be there yet. Until the copy has been verified it bears another name. Throws
 * PlainError; nothing is left behind then.
 */
export const backUp = async (
  folder: string,
  out: string,
  onProgress: (share: number) => void,
  pagesAStep = PAGES_A_STEP,
  onVerified: (share: number) => void = () => undefined,
): Promise<BackedUp> => {
  const from = join(folder, RECORD_FILE);
  if (!existsSync(from)) throw new PlainError(`There is no record to back up in ${folder}.`);
  if (existsSync(out))
    throw new PlainError(`${out} is there already: a backup never writes over another file.`);
  const part = `${out}.part`;
  rmSync(part, { force: true });
  let db: Database.Database;
  try {
    db = new Database(from, { readonly: true, fileMustExist: true, timeout: 5000 });
    versionOf(db);
  } catch (error) {
    throw cannotRead(from, error);
  }
  try {
    await copy(db, part, onProgress, pagesAStep);
    const found = checkCopy(part, onVerified);
    sync(part);
    renameSync(part, out);
    sync(dirname(resolve(out)));
    return { ...found, bytes: statSync(out).size };
  } catch (error) {
    throw cannotWrite(out, error);
  } finally {
    db.close();
    for (const left of [part, `${part}-journal`, `${part}-wal`, `${part}-shm`]) rmSync(left, { force: true });
  }
};
