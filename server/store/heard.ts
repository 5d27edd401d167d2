/** What the books heard of the record, wherever it lies: in entries, or in the blob kept of an archived shift. */
import { brotliCompressSync, brotliDecompressSync, constants } from 'node:zlib';
import type Database from 'better-sqlite3';
import { type HeardEntry, heardEntryOf } from '../../machines/ledger/listen.ts';
import { messageOf } from '../plain-error.ts';
import { entryOf, type Row } from './tables.ts';

const PAGE = 2000;
const QUALITY = 6;

const pack = (heard: readonly HeardEntry[]): Buffer =>
  brotliCompressSync(heard.map((one) => JSON.stringify(one)).join('\n'), {
    params: { [constants.BROTLI_PARAM_QUALITY]: QUALITY },
  });

const unpack = (bytes: Buffer): HeardEntry[] => {
  const text = brotliDecompressSync(bytes).toString('utf8');
  return text === '' ? [] : text.split('\n').map((line) => JSON.parse(line) as HeardEntry);
};

/** Told of an entry that cannot be read any more; the books go on without it. */
export type OnBadRow = (seq: number, why: string) => void;

const readRow = (row: Row, onBad: OnBadRow): HeardEntry | null => {
  try {
    return heardEntryOf(entryOf(row));
  } catch (error) {
    onBad(row.seq, messageOf(error));
    return null;
  }
};

/** What is kept of an archived shift; nothing, and told, when it is damaged. */
const unpacked = (shift: number, bytes: Buffer, onBad: OnBadRow): HeardEntry[] => {
  try {
    return unpack(bytes);
  } catch (error) {
    onBad(shift, `what is kept of its archived shift is damaged, ${messageOf(error)}`);
    return [];
  }
};

/** Entries after `after` up to `upTo` that lie in table entries, as the books hear them. */
export function* heardRows(
  db: Database.Database,
  after: number,
  upTo: number,
  onBad: OnBadRow = () => undefined,
): Generator<HeardEntry> {
  const page = db.prepare(
    `SELECT seq, hash, json FROM entries
     WHERE kind IN ('opening', 'fact', 'ledger') AND kind <> 'readings' AND seq > ? AND seq <= ? ORDER BY seq LIMIT ${PAGE}`,
  );
  let from = after;
  for (;;) {
    const rows = page.all(from, upTo) as Row[];
    for (const row of rows) {
      const heard = readRow(row, onBad);
      if (heard !== null) yield heard;
    }
    const last = rows.at(-1);
    if (last === undefined || rows.length < PAGE) return;
    from = last.seq;
  }
}

/** Keeps what the books need of a shift that is about to be moved away; call it inside that transaction. */
export const keepHeard = (db: Database.Database, shift: number, last: number): void => {
  const bytes = pack([...heardRows(db, shift, last)]);
  db.prepare('INSERT OR REPLACE INTO heard (shift, bytes) VALUES (?,?)').run(shift, bytes);
};

export type ArchivedUnheard = { readonly shift: number; readonly last: number };

/** The whole record after `after` as the books hear it, archived shifts from what is kept of them. */
export function* heardOfRecord(
  db: Database.Database,
  after: number,
  onBad: OnBadRow = () => undefined,
): Generator<HeardEntry> {
  const archived = db
    .prepare(
      `SELECT a.shift, a.last, h.bytes FROM archived a LEFT JOIN heard h ON h.shift = a.shift
       WHERE a.last > ? ORDER BY a.shift`,
    )
    .all(after) as { readonly shift: number; readonly last: number; readonly bytes: Buffer | null }[];
  let from = after;
  for (const { shift, last, bytes } of archived) {
    yield* heardRows(db, from, shift, onBad);
    if (bytes !== null) for (const heard of unpacked(shift, bytes, onBad)) if (heard.seq > after) yield heard;
    from = last;
  }
  yield* heardRows(db, from, Number.MAX_SAFE_INTEGER, onBad);
}

/** Archived shifts of which nothing is kept for the books: archived by a program that had none. */
export const unheardShifts = (db: Database.Database): readonly ArchivedUnheard[] =>
  db
    .prepare('SELECT shift, last FROM archived WHERE shift NOT IN (SELECT shift FROM heard) ORDER BY shift')
    .all() as ArchivedUnheard[];

/** Keeps what is found in the archive file of such a shift. */
export const putHeard = (db: Database.Database, shift: number, heard: readonly HeardEntry[]): void => {
  db.prepare('INSERT OR REPLACE INTO heard (shift, bytes) VALUES (?,?)').run(shift, pack(heard));
};
