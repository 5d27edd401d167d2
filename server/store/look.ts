/** Looks into a record without taking it over: a server may be running on it. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { PlainError } from '../plain-error.ts';
import { RECORD_FILE, versionOf } from './database.ts';
import { storeOn } from './sqlite.ts';
import type { Store } from './store.ts';
import { TABLES_VERSION } from './tables.ts';
import { cannotRead } from './why.ts';

/** Gives `use` the record as it stands at this moment. Throws PlainError when it cannot be read. */
export const withStore = async <T>(folder: string, use: (store: Store) => Promise<T>): Promise<T> => {
  const file = join(folder, RECORD_FILE);
  if (!existsSync(file)) throw new PlainError(`There is no record to read in ${folder}.`);
  let db: Database.Database | null = null;
  try {
    db = new Database(file, { readonly: true, fileMustExist: true });
    // One reading of it all: what is packed or appended meanwhile must not be met twice or not at all.
    db.exec('BEGIN');
    if (versionOf(db) < TABLES_VERSION)
      throw new PlainError(
        `The record in ${folder} was left by an older version of the program: start the server on it once (patchyard serve --data ${folder}), which brings it up to date.`,
      );
    return await use(storeOn(folder, db));
  } catch (error) {
    throw error instanceof PlainError ? error : cannotRead(file, error);
  } finally {
    db?.close();
  }
};
