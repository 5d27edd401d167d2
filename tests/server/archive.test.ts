/** Old shifts move into verified export files and back: nothing is lost at any step, and nothing is forgotten. */
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  archiveName,
  archiveShift,
  daysBefore,
  dueForArchive,
  restoreShift,
} from '../../server/archive/archive.ts';
import { archivedEntriesAtHand } from '../../server/archive/archived-entries.ts';
import { packAll } from '../../server/archive/packing.ts';
import { writeExport } from '../../server/archive/write-export.ts';
import { withRecord } from '../../server/store/exclusive.ts';
import { rebuild } from '../../server/store/rebuild.ts';
import { storeOn, verifyFolder } from '../../server/store/sqlite.ts';
import type { Store, StoredText } from '../../server/store/store.ts';
import { DAYS } from './support/sealed-record.ts';
import { scratchFolder, startLine, until } from './support/tools.ts';
import { trulySealed } from './support/true-seals.ts';

const SECONDS = 950;

const textsOf = async (store: Store): Promise<StoredText[]> => {
  const texts: StoredText[] = [];
  for await (const text of store.texts(1, (await store.tail()).seq)) texts.push(text);
  return texts;
};

/** Made once and copied: sealing and packing take their time. */
let made: { folder: string; texts: StoredText[] };
let foreign: string;
beforeAll(async () => {
  const make = async (seconds: number) => {
    const folder = mkdtempSync(join(tmpdir(), 'patchyard-archive-'));
    const store = await trulySealed(folder, DAYS, seconds);
    const texts = await textsOf(store);
    await store.close();
    return { folder, texts };
  };
  made = await make(SECONDS);
  foreign = (await make(SECONDS - 50)).folder;
});
afterAll(() => {
  for (const folder of [made.folder, foreign]) rmSync(folder, { recursive: true, force: true });
});

const recordIn = (from = made.folder): { folder: string; out: string; texts: StoredText[] } => {
  const folder = scratchFolder();
  cpSync(from, folder, { recursive: true });
  return { folder, out: scratchFolder(), texts: made.texts };
};

const archiveFirst = (folder: string, out: string) =>
  withRecord(folder, async (db) => {
    const store = storeOn(folder, db);
    const [summary] = await store.shifts();
    if (summary === undefined) throw new Error('no shift');
    return archiveShift(db, store, summary, out, writeExport);
  });

describe('archiving', () => {
  it('picks sealed shifts by their end, never the newest', async () => {
    const folder = scratchFolder();
    const store = await trulySealed(folder, DAYS, 60);
    const shifts = await store.shifts();
    const now = Date.parse('2026-05-16T00:00:00Z');
    const days = (older: number) => dueForArchive(shifts, daysBefore(now, older)).map(({ day }) => day);
    expect(days(0)).toEqual(['2026-05-04', '2026-05-05']);
    expect(days(11)).toEqual(['2026-05-04']);
    expect(days(12)).toEqual([]);
    await store.close();
  });

  it('leaves opening, seal and index; queries say in which file a lot lies; the chain is still checked', async () => {
    const { folder, out, texts } = recordIn();
    const stub = await archiveFirst(folder, out);
    expect(readdirSync(out)).toEqual(['2026-05-04-fake-day-shift-1.zip']);
    expect(verifyFolder(folder)).toMatchObject({ ok: true, end: { seq: texts.length } });
    await withRecord(folder, async (db) => {
      const store = storeOn(folder, db);
      const [found] = await store.find({ lot: '260504-1' });
      expect(found?.shift.archivedIn).toBe(stub.file);
      expect(found?.mentions[0]).toMatchObject({ kind: 'lot', count: 5 });
      const left = await textsOf(store);
      expect(left).toEqual(texts.filter(({ seq }) => seq === 1 || seq > stub.last));
      expect(await store.keeping()).toMatchObject({ shifts: 3, sealed: 3, archived: 1, packed: 2 });
    });
    // Another record's shift in its place, or a changed stub, is found.
    await withRecord(folder, (db) => db.exec(`UPDATE archived SET last_hash = '${'ab'.repeat(32)}'`));
    expect(verifyFolder(folder)).toMatchObject({ ok: false, seq: stub.last + 1 });
  });

  it('is undone by restore, to the last byte', async () => {
    const { folder, out, texts } = recordIn();
    const { file } = await archiveFirst(folder, out);
    await withRecord(folder, async (db) => {
      await restoreShift(db, file);
      const store = storeOn(folder, db);
      expect(await packAll(store)).toBe(2);
      expect(await textsOf(store)).toEqual(texts);
      expect((await store.shifts())[0]?.archivedIn).toBeNull();
      expect(await rebuild(db, false)).toMatchObject({ differences: 0 });
      await expect(restoreShift(db, file)).rejects.toThrow(/is in this record already/);
    });
    expect(verifyFolder(folder)).toMatchObject({ ok: true, entries: texts.length });
  });

  it('lets the line go on, and the next shift follow', async () => {
    const { folder, out } = recordIn();
    await archiveFirst(folder, out);
    const { runner, store } = await startLine(folder, { speed: 60 });
    await until('the line runs', () => runner.shown().view.shift.atMs > 5000);
    expect(await store.shifts()).toHaveLength(4);
    // The openings that stay tell which day is next.
    expect(runner.scenario.shift.date).toBe('2026-05-07');
    expect(await store.verify()).toMatchObject({ ok: true });
  });

  it('takes nothing out of the record for a file that is damaged, foreign or absent', async () => {
    const { folder, out, texts } = recordIn();
    const other = recordIn(foreign);
    const { file: theirs } = await archiveFirst(other.folder, other.out);
    const name = await withRecord(folder, async (db) => {
      const [summary] = await storeOn(folder, db).shifts();
      return summary === undefined ? '' : archiveName(summary);
    });
    // Another plant's file of the same name lies where this one would go.
    writeFileSync(join(out, name), readFileSync(theirs));
    await expect(archiveFirst(folder, out)).rejects.toThrow(/holds another shift than the record has/);
    const bytes = readFileSync(join(out, name));
    bytes[Math.floor(bytes.length / 2)] = (bytes[Math.floor(bytes.length / 2)] ?? 0) ^ 1;
    writeFileSync(join(out, name), bytes);
    await expect(archiveFirst(folder, out)).rejects.toThrow(/is not intact|cannot be read as an export/);
    rmSync(join(out, name));
    await expect(archiveFirst(folder, '/proc/nowhere')).rejects.toThrow(
      /cannot be written|could not be written/,
    );
    expect(verifyFolder(folder)).toMatchObject({ ok: true, entries: texts.length });
    await withRecord(folder, async (db) => {
      await expect(restoreShift(db, theirs)).rejects.toThrow(/was never archived from this record/);
      await expect(restoreShift(db, join(out, 'none.zip'))).rejects.toThrow(/cannot be (opened|read)/);
    });
  });

  it('keeps the index true: made again with the files, and taken over where a file is not at hand', async () => {
    const { folder, out } = recordIn();
    const { file } = await archiveFirst(folder, out);
    const compare = () =>
      withRecord(folder, async (db) => {
        const { entriesOf, missing } = await archivedEntriesAtHand(db);
        return { missing, ...(await rebuild(db, false, entriesOf)) };
      });
    expect(await compare()).toMatchObject({ differences: 0, missing: [], takenOver: [] });
    await withRecord(folder, (db) => db.exec(`UPDATE mentions SET count = 1 WHERE key = '260504-1'`));
    // Read from the file, the planted difference shows; without the file it cannot, and that is said.
    expect(await compare()).toMatchObject({ differences: 2, missing: [] });
    rmSync(file);
    expect(existsSync(file)).toBe(false);
    expect(await compare()).toMatchObject({ differences: 0, missing: [file], takenOver: [1] });
  });
});
