/** A plant key that is gone for good: nothing seals silently with another one, and the way on is put on record. */
import { existsSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { main } from '../../server/cli.ts';
import { KEY_FILE, keyInfoOf, NEXT_KEY_FILE, openKey } from '../../server/seal/key-file.ts';
import { lostKeysOf } from '../../server/seal/lost-key.ts';
import { countersignatureOf } from '../../server/seal/seal-shift.ts';
import { expectedKey, sealsOf } from '../../server/seal/seals-of.ts';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import { verifyFile } from '../../server/verify/verify-file.ts';
import { verifyRecord } from '../../server/verify/verify-record.ts';
import { commandOf, scratchFolder, startLine, until } from './support/tools.ts';

const keyOf = async (folder: string) => {
  const store = openSqliteStore(folder);
  try {
    return openKey(folder, await expectedKey(store));
  } finally {
    await store.close();
  }
};

/** Runs a shift to its seal. */
const oneShift = async (folder: string): Promise<void> => {
  const { runner, store, close } = await startLine(folder, { key: await keyOf(folder) });
  const before = (await sealsOf(store)).length;
  await runner.command(commandOf({ do: 'takeControls' }));
  await runner.command(commandOf({ do: 'endShift', notes: '' }));
  await until('the seal', async () => (await sealsOf(store)).length === before + 1);
  await close();
};

it('stops the start with words, is replaced on record, and both lines of keys stay checkable apart', async () => {
  const folder = scratchFolder();
  await oneShift(folder);
  expect(await main(['key', '--rotate', '--reason', 'a person left', '--data', folder])).toBe(0);
  await oneShift(folder);
  const old = keyInfoOf(folder)?.fingerprint ?? '';
  expect(await main(['key', '--new', '--reason', 'no need', '--data', folder])).toBe(1);
  renameSync(join(folder, KEY_FILE), join(folder, 'away'));
  await expect(keyOf(folder)).rejects.toThrow(/is gone.*patchyard key --new --reason/);
  expect(await main(['key', '--new', '--data', folder])).toBe(2);
  expect(await main(['key', '--new', '--reason', 'the disk broke', '--data', folder])).toBe(0);
  const now = keyInfoOf(folder)?.fingerprint ?? '';
  expect(now).not.toBe(old);
  expect(statSync(join(folder, KEY_FILE)).mode & 0o777).toBe(0o600);
  expect(existsSync(join(folder, NEXT_KEY_FILE))).toBe(false);
  await oneShift(folder);
  await oneShift(folder);
  expect(await main(['key', '--rotate', '--reason', 'once more', '--data', folder])).toBe(0);
  await oneShift(folder);

  const verdict = await verifyRecord(folder);
  expect(verdict).toMatchObject({ result: 'intact', seals: 5 });
  expect(verdict.remarks?.join()).toContain('was lost (the disk broke)');
  const store = openSqliteStore(folder);
  const seals = await sealsOf(store);
  expect(seals.map(({ body }) => body.remark.includes('the disk broke'))).toEqual([
    false,
    false,
    true,
    false,
    false,
  ]);
  expect(await lostKeysOf(store)).toMatchObject([{ lost: old, key: now }]);
  await expect(
    countersignatureOf(store, await keyOfOpen(folder, store), 1, { person: 'noor', role: 'supervisor' }, ''),
  ).rejects.toThrow(/has been lost since/);
  await store.close();

  const keyOfShift = seals.map(({ body }) => body.key);
  for (const shift of [1, 2, 3, 5]) {
    const out = join(folder, `${shift}.zip`);
    expect(await main(['export', '--shift', String(shift), '--out', out, '--data', folder])).toBe(0);
    expect(await verifyFile(out, { key: keyOfShift[shift - 1] ?? '' })).toMatchObject({ result: 'intact' });
    // A change that was signed leads to either side of it; a loss leads nowhere.
    const isOld = shift <= 2;
    expect(await verifyFile(out, { key: old })).toMatchObject({ result: isOld ? 'intact' : 'altered' });
    expect(await verifyFile(out, { key: now })).toMatchObject({ result: isOld ? 'altered' : 'intact' });
  }
  // Without the note the same record is one that somebody else went on with.
  rmSync(join(folder, KEY_FILE));
  expect(await main(['key', '--data', folder])).toBe(1);
});

const keyOfOpen = async (folder: string, store: ReturnType<typeof openSqliteStore>) =>
  openKey(folder, await expectedKey(store));

it('that changes with no word about it on record is a finding', async () => {
  const folder = scratchFolder();
  await oneShift(folder);
  const { runner, store, close } = await startLine(folder, { key: await keyOf(scratchFolder()) });
  await runner.command(commandOf({ do: 'takeControls' }));
  await runner.command(commandOf({ do: 'endShift', notes: '' }));
  await until('the seal', async () => (await sealsOf(store)).length === 2);
  await close();
  const verdict = await verifyRecord(folder);
  expect(verdict.result).toBe('altered');
  expect(verdict.findings.map(({ kind, detail }) => [kind, detail])).toEqual([
    ['wrong key', expect.stringContaining('no change or loss of the key is on record')],
  ]);
});
