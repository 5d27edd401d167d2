/** Killing a process while it packs readings: every entry is there afterwards, byte for byte, and packing goes on. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { setTimeout as pause } from 'node:timers/promises';
import { beforeAll, expect, it } from 'vitest';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import { sealedRecord } from '../server/support/sealed-record.ts';
import { scratchFolder } from '../server/support/tools.ts';
import { bundle } from './support/bundle.ts';
import { createPrng } from './support/prng.ts';

const ROUNDS = 8;
const SEED = Number(process.env.SEED ?? Math.floor(Math.random() * 1e9));
/** Four shifts of 2,000 s: 12 chunks. */
const DAYS = ['2026-05-04', '2026-05-05', '2026-05-06', '2026-05-07'];

let packer: string;
beforeAll(async () => {
  packer = await bundle('tests/faults/support/packer.ts', 'packer');
});

/** Kills the packer `afterMs` after it has opened the record; says whether it was done by then. */
const killOnce = async (folder: string, afterMs: number): Promise<boolean> => {
  const child = spawn(process.execPath, [packer, folder], { stdio: ['ignore', 'pipe', 'inherit'] });
  let out = '';
  child.stdout.on('data', (bytes: Buffer) => {
    out += bytes.toString();
  });
  await once(child.stdout, 'data');
  await pause(afterMs);
  child.kill('SIGKILL');
  await once(child, 'close');
  return out.includes('done');
};

it(`no entry is missing or changed after ${ROUNDS} kills (SEED=${SEED})`, async () => {
  const random = createPrng(SEED);
  const folder = scratchFolder();
  const record = sealedRecord(DAYS, 2000);
  const want = record.map(({ entry, text }) => ({ seq: entry.seq, hash: entry.hash, json: text }));
  const store = openSqliteStore(folder);
  await store.append(record);
  await store.close();
  let interrupted = 0;
  for (let round = 1; round <= ROUNDS; round++) {
    if (!(await killOnce(folder, random() * 40))) interrupted += 1;
    const after = openSqliteStore(folder);
    expect(after.cut, `round ${round}`).toBeNull();
    expect(await after.verify(), `round ${round}`).toMatchObject({ ok: true, entries: record.length });
    await after.close();
  }
  expect(interrupted).toBeGreaterThan(1);
  const last = openSqliteStore(folder);
  while (await last.packNext());
  const texts: object[] = [];
  for await (const text of last.texts(1, record.length)) texts.push(text);
  expect(texts).toEqual(want);
  expect((await last.keeping()).packed).toBe(DAYS.length);
  await last.close();
});
