/**
 * Moves sealed shifts out of the record into export files, and back. At every moment each entry is in the record,
 * in a file that has been verified, or in both: whoever pulls the plug loses nothing, and the same command run
 * again goes on where it stopped.
 */
import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type Database from 'better-sqlite3';
import type { ExportManifest } from '../../machines/record/export.types.ts';
import { codeOf, messageOf, PlainError } from '../plain-error.ts';
import { moveIn, moveOut, textAt } from '../store/archived.ts';
import { createReader } from '../store/rows.ts';
import type { ShiftSummary, Store } from '../store/store.ts';
import { entryOf } from '../store/tables.ts';
import { type ArchivedRow, archivedRows } from '../store/verify-rows.ts';
import { archivedTexts, fileDigest, verifiedManifest } from './archive-file.ts';

/** Writes the export of a shift to a file. */
export type WriteExport = (store: Store, shift: number, file: string) => Promise<void>;

/** Tells how far a shift has come; a test stops it there. */
export type ArchiveStep = 'written' | 'verified' | 'named' | 'moved';
export type OnStep = (shift: ShiftSummary, step: ArchiveStep) => void;

const DAY_MS = 24 * 3600_000;

/** Sealed shifts here that ended before `beforeMs` (wall clock). The newest shift always stays: the line goes on from it. */
export const dueForArchive = (shifts: readonly ShiftSummary[], beforeMs: number): ShiftSummary[] =>
  shifts
    .slice(0, -1)
    .filter(
      ({ seal, archivedIn, endedWall, openedWall }) =>
        seal !== null && archivedIn === null && Date.parse(endedWall ?? openedWall) < beforeMs,
    );

export const daysBefore = (nowMs: number, days: number): number => nowMs - days * DAY_MS;

export const archiveName = ({ day, scenario, shift }: ShiftSummary): string =>
  `${day}-${scenario.replace(/[^A-Za-z0-9_-]/g, '-')}-shift-${shift}.zip`;

const sync = (path: string): void => {
  const handle = openSync(path, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
};

const sealOf = (
  db: Database.Database,
  { seal, shift }: ShiftSummary,
): { last: number; head: string; root: string } => {
  const row = seal === null ? undefined : textAt(db, seal);
  const entry = row === undefined ? null : entryOf(row);
  if (entry?.kind !== 'seal')
    throw new PlainError(
      `The seal of the shift that began with entry ${shift} is not there: run patchyard rebuild.`,
    );
  const { last, head, root } = entry.body;
  return { last, head, root };
};

/** Throws PlainError unless the file holds the very shift the record holds. */
const mustBeOf = (
  manifest: ExportManifest,
  shift: number,
  head: string,
  root: string,
  file: string,
): void => {
  const same =
    manifest.shift.opening === shift && manifest.entries.head === head && manifest.seal?.root === root;
  if (!same)
    throw new PlainError(
      `${file} holds another shift than the record has at entry ${shift}: it was left alone, and so was the record.`,
    );
};

/** Moves one shift into `folder`; returns what the record keeps of it. Throws PlainError, with nothing lost. */
export const archiveShift = async (
  db: Database.Database,
  store: Store,
  summary: ShiftSummary,
  folder: string,
  writeExport: WriteExport,
  onStep: OnStep = () => undefined,
): Promise<ArchivedRow> => {
  const { shift } = summary;
  const { last, head, root } = sealOf(db, summary);
  const file = join(resolve(folder), archiveName(summary));
  // One that a broken-off run left behind is as good as a new one, when it holds this shift.
  if (!existsSync(file)) {
    const part = `${file}.part`;
    rmSync(part, { force: true });
    try {
      await writeExport(store, shift, part);
      sync(part);
      onStep(summary, 'written');
      mustBeOf(await verifiedManifest(part), shift, head, root, part);
      onStep(summary, 'verified');
      renameSync(part, file);
      sync(resolve(folder));
    } catch (error) {
      rmSync(part, { force: true });
      if (error instanceof PlainError) throw error;
      const why = codeOf(error) === 'ENOSPC' ? 'the disk is full' : messageOf(error);
      throw new PlainError(`${file} could not be written (${why}); the shift stays in the record.`);
    }
  }
  onStep(summary, 'named');
  mustBeOf(await verifiedManifest(file), shift, head, root, file);
  const firstHash = createReader(db).hashAt(shift) ?? '';
  const lastAtMs = db.prepare('SELECT at_ms FROM entries WHERE seq = ?').pluck().get(last) as
    | number
    | undefined;
  const stub: ArchivedRow = {
    shift,
    last,
    firstHash,
    lastHash: head,
    lastAtMs: lastAtMs ?? 0,
    file,
    bytes: statSync(file).size,
    sha256: await fileDigest(file),
    wall: new Date().toISOString(),
  };
  moveOut(db, stub);
  onStep(summary, 'moved');
  return stub;
};

export const makeArchiveFolder = (folder: string): void => {
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw new PlainError(
      `${folder} cannot be made (${codeOf(error) || messageOf(error)}): name another folder with --out.`,
    );
  }
};

/** Puts a shift back from its file; says which. Throws PlainError, with nothing changed. */
export const restoreShift = async (db: Database.Database, file: string): Promise<ArchivedRow> => {
  const manifest = await verifiedManifest(file);
  const { opening } = manifest.shift;
  const stub = archivedRows(db).find((row) => row.shift === opening);
  if (stub === undefined)
    throw new PlainError(
      createReader(db).hashAt(manifest.entries.last) === manifest.entries.head
        ? `The shift in ${file} is in this record already.`
        : `The shift in ${file} was never archived from this record: an export can be looked at as it is, without restoring it.`,
    );
  if (manifest.entries.last !== stub.last || manifest.entries.head !== stub.lastHash)
    throw new PlainError(
      `${file} holds another shift than the one that was moved from entry ${opening} of this record.`,
    );
  moveIn(db, stub, await archivedTexts(file));
  return stub;
};
