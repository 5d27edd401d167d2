/** Killing a process while it appends: whatever it acknowledged is there afterwards, and the chain is whole. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { setTimeout as pause } from 'node:timers/promises';
import { beforeAll, expect, it } from 'vitest';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import { scratchFolder } from '../server/support/tools.ts';
import { bundle } from './support/bundle.ts';
import { createPrng } from './support/prng.ts';

const ROUNDS = 20;
const SEED = Number(process.env.SEED ?? Math.floor(Math.random() * 1e9));

let appender: string;
beforeAll(async () => {
  appender = await bundle('tests/faults/support/appender.ts', 'appender');
});

type Acknowledged = { readonly seq: number; readonly hash: string };

/** Runs the appender until `afterMs` from its first acknowledgement; returns the last it gave. */
const killOnce = async (folder: string, afterMs: number): Promise<Acknowledged> => {
  const child = spawn(process.execPath, [appender, folder], { stdio: ['ignore', 'pipe', 'inherit'] });
  let out = '';
  child.stdout.on('data', (bytes: Buffer) => {
    out += bytes.toString();
  });
  await once(child.stdout, 'data');
  expect(() => openSqliteStore(folder)).toThrow(/in use by another server/);
  await pause(afterMs);
  child.kill('SIGKILL');
  // What was written before the kill is still in the pipe.
  await once(child, 'close');
  // A line without its end was cut short by the kill: it does not count.
  const lines = out.split('\n').slice(0, -1);
  const [seq, hash] = (lines.at(-1) ?? '').split(' ');
  return { seq: Number(seq), hash: hash ?? '' };
};

it(`no acknowledged entry is missing after ${ROUNDS} kills (SEED=${SEED})`, async () => {
  const random = createPrng(SEED);
  const folder = scratchFolder();
  let before = 0;
  for (let round = 1; round <= ROUNDS; round++) {
    const acknowledged = await killOnce(folder, random() * 120);
    const store = openSqliteStore(folder);
    const tail = await store.tail();
    const at = `round ${round}`;
    expect(acknowledged.seq, at).toBeGreaterThan(before);
    expect(tail.seq, at).toBeGreaterThanOrEqual(acknowledged.seq);
    const [entry] = await store.read({ after: acknowledged.seq - 1, limit: 1 });
    expect(entry?.hash, at).toBe(acknowledged.hash);
    expect(await store.verify(), at).toMatchObject({ ok: true, entries: tail.seq });
    await store.close();
    before = tail.seq;
  }
});
