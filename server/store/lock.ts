/** One server on one data folder: a lock the operating system lets go of when the process ends, however it ends. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { codeOf, messageOf, PlainError } from '../plain-error.ts';
import { makeFolder } from './make-folder.ts';

export type Lock = { readonly release: () => void };

/** Makes the folder when it is missing. Throws PlainError when it cannot be used or is in use. */
export const lockFolder = (folder: string): Lock => {
  makeFolder(folder);
  let db: Database.Database | null = null;
  try {
    db = new Database(join(folder, 'lock.sqlite'), { timeout: 0 });
    db.pragma('locking_mode = EXCLUSIVE');
    db.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    db?.close();
    if (codeOf(error).startsWith('SQLITE_BUSY'))
      throw new PlainError(
        `Data folder ${folder} is in use by another server: stop that one, or name another folder with --data.`,
      );
    if (codeOf(error) === 'SQLITE_FULL')
      throw new PlainError(
        `Data folder ${folder} cannot be used: the disk is full. Make room, or name another one with --data.`,
      );
    if (codeOf(error) === 'SQLITE_NOTADB')
      throw new PlainError(
        `${join(folder, 'lock.sqlite')} is not the lock it should be: if no server runs on this folder, delete that file.`,
      );
    throw new PlainError(
      `Data folder ${folder} cannot be written (${codeOf(error) || messageOf(error)}): check who owns it, or name another one with --data.`,
    );
  }
  const held = db;
  return { release: () => held.close() };
};
