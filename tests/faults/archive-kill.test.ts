/** Killing the archiving of a shift at each of its steps: every entry is in the record or in a verified file, and it goes on. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { ArchiveStep } from '../../server/archive/archive.ts';
import { restoreShift } from '../../server/archive/archive.ts';
import { withRecord } from '../../server/store/exclusive.ts';
import { storeOn, verifyFolder } from '../../server/store/sqlite.ts';
import type { Store, StoredText } from '../../server/store/store.ts';
import { DAYS } from '../server/support/sealed-record.ts';
import { scratchFolder } from '../server/support/tools.ts';
import { trulySealed } from '../server/support/true-seals.ts';
import { bundle } from './support/bundle.ts';

const textsOf = async (store: Store): Promise<StoredText[]> => {
  const texts: StoredText[] = [];
  for await (const text of store.texts(1, (await store.tail()).seq)) texts.push(text);
  return texts;
};

let archiver: string;
let made: string;
let texts: StoredText[];
beforeAll(async () => {
  archiver = await bundle('tests/faults/support/archiver.ts', 'archiver');
  made = mkdtempSync(join(tmpdir(), 'patchyard-archive-'));
  const store = await trulySealed(made, DAYS, 400);
  texts = await textsOf(store);
  await store.close();
});
afterAll(() => rmSync(made, { recursive: true, force: true }));

const archive = (folder: string, out: string, at: ArchiveStep | 'never') =>
  spawnSync(process.execPath, [archiver, folder, out, at], { encoding: 'utf8' });

it.each(['written', 'verified', 'named', 'moved'] as const)('killed when it is %s', async (at) => {
  const folder = scratchFolder();
  const out = scratchFolder();
  cpSync(made, folder, { recursive: true });
  expect(archive(folder, out, at).signal).toBe('SIGKILL');
  expect(verifyFolder(folder)).toMatchObject({ ok: true, end: { seq: texts.length } });
  if (at !== 'moved') {
    await withRecord(folder, async (db) => expect(await textsOf(storeOn(folder, db))).toEqual(texts));
    const again = archive(folder, out, 'never');
    expect(again.stderr).toBe('');
    expect(again.status).toBe(0);
  }
  const files = readdirSync(out);
  expect(files).toEqual([expect.stringMatching(/^2026-05-04-.*\.zip$/)]);
  await withRecord(folder, async (db) => {
    const store = storeOn(folder, db);
    expect((await store.keeping()).archived).toBe(1);
    await restoreShift(db, join(out, files[0] ?? ''));
    expect(await textsOf(store)).toEqual(texts);
  });
});
