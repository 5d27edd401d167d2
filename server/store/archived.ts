/** Takes the entries of a sealed shift out of the record once a verified file holds them, and puts them back. */
import type Database from 'better-sqlite3';
import { type ChainEnd, whyNotNext } from '../../machines/record/chain.ts';
import { sha256 } from '../digest.ts';
import { PlainError } from '../plain-error.ts';
import { keepHeard } from './heard.ts';
import { createReader } from './rows.ts';
import type { StoredText } from './store.ts';
import { columnsOf, entryOf } from './tables.ts';
import type { ArchivedRow } from './verify-rows.ts';

/** Entries that are about more than the shift they lie in. */
const STAYS = `(kind IN ('seal', 'countersignature', 'keyRotated') OR (kind = 'note' AND json LIKE '%"newKey":%'))`;

/**
 * The opening, the seal and what stands behind it stay, and a copy of seals, countersignatures and changes of key; entries behind the opening up to `last` go. All or
 * nothing. The index is not touched. Throws when the record does not end the shift as the stub says.
 */
export const moveOut = (db: Database.Database, stub: ArchivedRow): void => {
  const { hashAt } = createReader(db);
  if (hashAt(stub.shift) !== stub.firstHash || hashAt(stub.last) !== stub.lastHash)
    throw new Error(`the archive file of shift ${stub.shift} does not end as the record does`);
  db.transaction(() => {
    db.prepare(
      `INSERT INTO archived (shift, last, first_hash, last_hash, last_at_ms, file, bytes, sha256, wall)
       VALUES (@shift, @last, @firstHash, @lastHash, @lastAtMs, @file, @bytes, @sha256, @wall)`,
    ).run(stub);
    db.prepare(
      `INSERT INTO kept SELECT seq, shift, kind, hash, json FROM entries WHERE seq > ? AND seq <= ? AND ${STAYS}`,
    ).run(stub.shift, stub.last);
    keepHeard(db, stub.shift, stub.last);
    db.prepare('DELETE FROM entries WHERE seq > ? AND seq <= ?').run(stub.shift, stub.last);
    for (const table of ['chunks', 'packed', 'checkpoints'])
      db.prepare(`DELETE FROM ${table} WHERE shift = ?`).run(stub.shift);
  })();
};

/** Puts entries back behind their opening. All or nothing; each must follow the one before, up to the stub's end. */
export const moveIn = (db: Database.Database, stub: ArchivedRow, rows: Iterable<StoredText>): void => {
  const insert = db.prepare(
    'INSERT INTO entries (seq, shift, kind, at_ms, fact, lot, batch, hash, json) VALUES (?,?,?,?,?,?,?,?,?)',
  );
  db.transaction(() => {
    let end: ChainEnd = { seq: stub.shift, hash: stub.firstHash };
    for (const row of rows) {
      const entry = entryOf(row);
      const why = whyNotNext(end, entry, sha256);
      if (why !== null) throw new PlainError(`Entry ${row.seq} of the file does not belong there: ${why}.`);
      const { fact, lot, batch } = columnsOf(entry);
      insert.run(entry.seq, stub.shift, entry.kind, entry.atMs, fact, lot, batch, row.hash, row.json);
      end = { seq: row.seq, hash: row.hash };
    }
    if (end.seq !== stub.last || end.hash !== stub.lastHash)
      throw new PlainError(
        `The file ends at entry ${end.seq}, and the shift ended at ${stub.last} with another hash: it is not the file this shift was moved to.`,
      );
    for (const table of ['archived', 'kept', 'heard'])
      db.prepare(`DELETE FROM ${table} WHERE shift = ?`).run(stub.shift);
  })();
};

/** One entry by its number, wherever it is kept; undefined when it lies in an archive file only. */
export const textAt = (db: Database.Database, seq: number): StoredText | undefined =>
  db
    .prepare(
      `SELECT seq, hash, json FROM entries WHERE seq = @seq
       UNION ALL SELECT seq, hash, json FROM kept WHERE seq = @seq`,
    )
    .get({ seq }) as StoredText | undefined;
