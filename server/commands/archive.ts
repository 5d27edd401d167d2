/** `archive`: moves old sealed shifts from the record into export files. */
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { archiveShift, daysBefore, dueForArchive, makeArchiveFolder } from '../archive/archive.ts';
import { roomFor } from '../archive/room.ts';
import { writeExport } from '../archive/write-export.ts';
import { PACKAGE_ROOT } from '../package-root.ts';
import { withRecord } from '../store/exclusive.ts';
import { storeOn } from '../store/sqlite.ts';
import type { Store } from '../store/store.ts';
import { numberOption, readOptions, textOption, UsageError } from './options.ts';

export const ARCHIVE_HELP = `patchyard archive --older-than DAYS --out FOLDER [--data FOLDER]

Moves sealed shifts that ended more than DAYS ago into export files, one a shift. Each file is verified before
the shift leaves the record. What stays: its opening, its seal, first and last hash, and the index, so that lots
are still found and the chain can still be checked. The newest shift always stays. Broken off, it loses nothing:
run it again. No server may run on the folder meanwhile.

  --older-than DAYS   days since the shift ended, by the wall clock (0 to 100000)
  --out FOLDER        where the export files go; keep it, and a copy of it
  --data FOLDER       data folder (.data)
  -h, --help          this text

patchyard restore FILE brings a shift back.`;

/** Less than this free inside the record is soon filled again. */
const SHRINK_FROM_BYTES = 64e6;

/** Gives the room the shifts took back to the disk where that is worth while and can be done; says what it did. */
const giveBackRoom = async (db: Database.Database, store: Store, folder: string): Promise<string> => {
  const { bytes, freeBytes } = await store.keeping();
  if (freeBytes < SHRINK_FROM_BYTES) return 'The room they took in the record is used again by new entries.';
  const room = roomFor(folder);
  // The record is written anew beside the old one, once into its log and once into its place.
  if (room !== null && room.freeBytes < 2 * (bytes - freeBytes))
    return `${(freeBytes / 1e6).toFixed(0)} MB in the record are used again by new entries; the disk is too full to give them back to it.`;
  db.exec('VACUUM');
  db.pragma('wal_checkpoint(TRUNCATE)');
  return `${((bytes - (await store.keeping()).bytes) / 1e6).toFixed(0)} MB were given back to the disk.`;
};

export const archiveCommand = async (args: readonly string[]): Promise<number> => {
  const { values, files } = readOptions(args, {
    'older-than': { type: 'string' },
    out: { type: 'string' },
    data: { type: 'string' },
  });
  if (values.help === true) {
    console.log(ARCHIVE_HELP);
    return 0;
  }
  const days = numberOption(values, 'older-than', 0, 100_000);
  const out = textOption(values, 'out');
  if (files.length > 0 || days === undefined || out === undefined)
    throw new UsageError('archive needs --older-than DAYS and --out FOLDER.');
  const data = textOption(values, 'data') ?? join(PACKAGE_ROOT, '.data');
  return withRecord(data, async (db) => {
    const store = storeOn(data, db);
    const due = dueForArchive(await store.shifts(), daysBefore(Date.now(), days));
    if (due.length > 0) makeArchiveFolder(out);
    let bytes = 0;
    for (const summary of due) {
      const stub = await archiveShift(db, store, summary, out, writeExport);
      bytes += stub.bytes;
      console.log(`${summary.day} ${summary.scenario}, entries ${stub.shift} to ${stub.last}: ${stub.file}`);
    }
    console.log(
      due.length === 0
        ? `Nothing to archive: no sealed shift other than the newest ended more than ${days} days ago.`
        : `${due.length === 1 ? '1 shift' : `${due.length} shifts`} archived, ${(bytes / 1e6).toFixed(1)} MB.`,
    );
    if (due.length > 0) console.log(await giveBackRoom(db, store, data));
    return 0;
  });
};
