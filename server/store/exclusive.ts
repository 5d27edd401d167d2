/** Opens a record to work on it as a whole: alone, with no server on the folder. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { PlainError } from '../plain-error.ts';
import { mendTail, openDatabase, RECORD_FILE } from './database.ts';
import { lockFolder } from './lock.ts';
import { cannotOpen } from './why.ts';

/** Runs `work` on the record of a folder and lets go of it, however it ends. Throws PlainError when it cannot be had. */
export const withRecord = async <T>(
  folder: string,
  work: (db: Database.Database) => Promise<T> | T,
): Promise<T> => {
  const file = join(folder, RECORD_FILE);
  if (!existsSync(file)) throw new PlainError(`There is no record in ${folder}.`);
  const lock = lockFolder(folder);
  let db: Database.Database | null = null;
  try {
    try {
      db = openDatabase(folder, {});
      mendTail(db, folder);
    } catch (error) {
      throw cannotOpen(file, error);
    }
    return await work(db);
  } finally {
    db?.close();
    lock.release();
  }
};
