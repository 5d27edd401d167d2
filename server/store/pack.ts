/** Moves the readings of sealed shifts into chunks, one chunk a step, each step whole or not at all. */
import type Database from 'better-sqlite3';
import type { ChunkDigest } from '../../machines/record/entry.ts';
import { sha256 } from '../digest.ts';
import { PlainError } from '../plain-error.ts';
import { textAt } from './archived.ts';
import { chunkText, pack } from './packed-readings.ts';
import { entryOf, type Row } from './tables.ts';

type Sealed = { readonly shift: number; readonly seal: number };

export const createPacker = (db: Database.Database) => {
  const waiting = db.prepare(`
    SELECT shift, seal FROM shifts WHERE seal IS NOT NULL
      AND shift NOT IN (SELECT shift FROM packed) AND shift NOT IN (SELECT shift FROM archived) ORDER BY shift`);
  const isThere = db.prepare('SELECT 1 FROM chunks WHERE first = ?').pluck();
  const readings = db.prepare(
    `SELECT seq, hash, json FROM entries WHERE seq >= ? AND seq <= ? AND kind = 'readings' ORDER BY seq`,
  );
  const put = db.prepare(
    'INSERT INTO chunks (first, last, shift, count, sha256, method, bytes) VALUES (?,?,?,?,?,?,?)',
  );
  const remove = db.prepare(`DELETE FROM entries WHERE seq >= ? AND seq <= ? AND kind = 'readings'`);
  const finish = db.prepare('INSERT OR IGNORE INTO packed (shift) VALUES (?)');
  /** Shifts whose readings are not what their seal says: left as they lie, for whoever looks into it. */
  const leftAlone = new Set<number>();

  const chunksOf = (seal: number): readonly ChunkDigest[] => {
    const row = textAt(db, seal);
    const entry = row === undefined ? null : entryOf(row);
    return entry?.kind === 'seal' ? entry.body.chunks : [];
  };

  const move = async (shift: number, { first, last, count, sha256: digest }: ChunkDigest): Promise<void> => {
    const rows = readings.all(first, last) as Row[];
    if (rows.length !== count || sha256(chunkText(rows)) !== digest) {
      leftAlone.add(shift);
      throw new PlainError(
        `The readings of entries ${first} to ${last} are not what the seal of the shift that began with entry ${shift} says: they are left as they lie; verify the record.`,
      );
    }
    const { method, bytes } = await pack(rows);
    db.transaction(() => {
      put.run(first, last, shift, count, digest, method, bytes);
      if (remove.run(first, last).changes !== count)
        throw new Error(`entries ${first} to ${last} changed while they were packed`);
    })();
  };

  /** True when something was moved; PlainError for readings that are not what their seal says. */
  return async (): Promise<boolean> => {
    for (const { shift, seal } of waiting.all() as Sealed[]) {
      if (leftAlone.has(shift)) continue;
      const next = chunksOf(seal).find(({ first }) => isThere.get(first) === undefined);
      if (next === undefined) {
        finish.run(shift);
        continue;
      }
      await move(shift, next);
      return true;
    }
    return false;
  };
};
