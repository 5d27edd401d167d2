/** Looks which archive files of a record are at hand, for making its index again. */
import { existsSync } from 'node:fs';
import type Database from 'better-sqlite3';
import type { ArchivedEntries } from '../store/rebuild.ts';
import { archivedRows } from '../store/verify-rows.ts';
import { archivedDecisions, fileDigest } from './archive-file.ts';

export type AtHand = {
  readonly entriesOf: (shift: number) => Promise<ArchivedEntries>;
  /** Files that are gone or are not those that were written. */
  readonly missing: readonly string[];
};

export const archivedEntriesAtHand = async (db: Database.Database): Promise<AtHand> => {
  const files = new Map<number, string>();
  const missing: string[] = [];
  for (const { shift, file, sha256 } of archivedRows(db)) {
    if (existsSync(file) && (await fileDigest(file)) === sha256) files.set(shift, file);
    else missing.push(file);
  }
  const entriesOf = async (shift: number): Promise<ArchivedEntries> => {
    const file = files.get(shift);
    return file === undefined ? null : archivedDecisions(file);
  };
  return { entriesOf, missing };
};
