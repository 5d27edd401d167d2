/** What stands within an archived shift but belongs to another one: seals made late, countersignatures, changes of key. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { archiveShift, dueForArchive, restoreShift } from '../../server/archive/archive.ts';
import { archivedEntriesAtHand } from '../../server/archive/archived-entries.ts';
import { writeExport } from '../../server/archive/write-export.ts';
import { main } from '../../server/cli.ts';
import type { PlantRunner } from '../../server/runner/runner.types.ts';
import { openKey } from '../../server/seal/key-file.ts';
import { countersignatureOf, lateSealOf } from '../../server/seal/seal-shift.ts';
import { countersignaturesOf, expectedKey, rotationsOf, sealsOf } from '../../server/seal/seals-of.ts';
import { shiftRows } from '../../server/seal/shift-rows.ts';
import { withRecord } from '../../server/store/exclusive.ts';
import { rebuild } from '../../server/store/rebuild.ts';
import { openSqliteStore, storeOn } from '../../server/store/sqlite.ts';
import { verifyFile } from '../../server/verify/verify-file.ts';
import { verifyRecord } from '../../server/verify/verify-record.ts';
import { commandOf, scratchFolder, startLine, until } from './support/tools.ts';

const KIM = { id: 'kim', name: 'Kim', role: 'operator' } as const;

/** Opens the store of a folder only to see which key the record expects, and gives that key. */
const keyOf = async (folder: string) => {
  const store = openSqliteStore(folder);
  const key = openKey(folder, await expectedKey(store));
  await store.close();
  return key;
};

/**
 * Four shifts: the first breaks off; in the second it is closed late and countersigned, and the key is changed;
 * the third and the fourth are ended in order.
 */
const made = async (): Promise<string> => {
  const folder = scratchFolder();
  await (await startLine(folder, { key: await keyOf(folder) })).close();
  const key = await keyOf(folder);
  const second = await startLine(folder, { key, newShift: true });
  const { store } = second;
  const runner = second.runner as PlantRunner;
  await runner.append((own) => lateSealOf(store, own, 1, { person: 'kim', role: 'operator' }, 'power cut'));
  await runner.append((own) =>
    countersignatureOf(store, own, 1, { person: 'noor', role: 'supervisor' }, 'looked through'),
  );
  await second.close();
  expect(await main(['key', '--rotate', '--reason', 'a person left', '--data', folder])).toBe(0);
  const third = await startLine(folder, { key: await keyOf(folder) });
  for (const seals of [2, 3, 4]) {
    await third.runner.command(commandOf({ do: 'takeControls' }));
    expect(await third.runner.command(commandOf({ do: 'endShift', notes: '' }))).toEqual({ ok: true });
    await until('the seal', async () => (await sealsOf(third.store)).length === seals);
    if (seals === 4) break;
    await third.runner.run({ do: 'nextShift' }, KIM);
    await until('the next shift', () => !third.runner.shown().view.shift.ended);
  }
  await third.close();
  return folder;
};

const archiveAll = (folder: string, out: string) =>
  withRecord(folder, async (db) => {
    const store = storeOn(folder, db);
    const files: string[] = [];
    for (const summary of dueForArchive(await store.shifts(), Number.POSITIVE_INFINITY))
      files.push((await archiveShift(db, store, summary, out, writeExport)).file);
    return files;
  });

/** Everything the record says about seals, keys and shifts. */
const told = async (folder: string) =>
  withRecord(folder, async (db) => {
    const store = storeOn(folder, db);
    return {
      seals: await sealsOf(store),
      countersignatures: await countersignaturesOf(store),
      rotations: await rotationsOf(store),
      rows: (await shiftRows(store)).map(({ archivedIn: _archived, ...row }) => row),
    };
  });

it('is still known and checked when its surroundings are archived, and back in its place after a restore', async () => {
  const [folder, out] = [scratchFolder(), scratchFolder()];
  const from = await made();
  const before = await told(from);
  expect(before.rotations).toHaveLength(1);
  expect(before.countersignatures).toHaveLength(1);
  const files = await archiveAll(from, out);
  expect(files).toHaveLength(3);
  expect(await told(from)).toEqual(before);
  expect(await verifyRecord(from)).toMatchObject({ result: 'intact', seals: 4, archived: 3 });
  expect(await verifyRecord(from, before.seals[0]?.body.key ?? '')).toMatchObject({ result: 'intact' });
  await withRecord(from, async (db) => {
    const { entriesOf, missing } = await archivedEntriesAtHand(db);
    expect(missing).toEqual([]);
    expect(await rebuild(db, true, entriesOf)).toMatchObject({ differences: 0, takenOver: [] });
  });
  // The first shift alone comes back: its seal and countersignature lie in the second, which is away.
  await withRecord(from, (db) => restoreShift(db, files[0] ?? ''));
  expect(await told(from)).toEqual(before);
  const again = join(folder, 'first.zip');
  expect(await main(['export', '--shift', '1', '--out', again, '--data', from])).toBe(0);
  expect(existsSync(again)).toBe(true);
  expect(await verifyFile(again)).toMatchObject({ result: 'intact', countersigned: ['noor'] });
  for (const file of files.slice(1)) await withRecord(from, (db) => restoreShift(db, file));
  expect(await told(from)).toEqual(before);
  expect(await verifyRecord(from)).toMatchObject({ result: 'intact', seals: 4, archived: 0 });
});
