/** What a power cut may leave: a write-ahead log cut at any byte, a page of rubbish, a folder that may only be read, a second server. */
import { spawnSync } from 'node:child_process';
import { chmodSync, cpSync, mkdirSync, readFileSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { beforeAll, describe, expect, it } from 'vitest';
import { serve } from '../../server/main.ts';
import { openSqliteStore, verifyFolder } from '../../server/store/sqlite.ts';
import { sampleRecord } from '../record/samples.ts';
import { fakeLine } from '../server/support/fake-line.ts';
import { fakeScenario } from '../server/support/fake-scenario.ts';
import { DAYS, sealedRecord } from '../server/support/sealed-record.ts';
import { freePort, serveFake } from '../server/support/serve-fake.ts';
import { scratchFolder } from '../server/support/tools.ts';
import { bundle } from './support/bundle.ts';
import { createPrng } from './support/prng.ts';

const SEED = Number(process.env.SEED ?? Math.floor(Math.random() * 1e9));
const CUTS = 30;

it(`a write-ahead log cut off at any of ${CUTS} places leaves a whole record that goes on (SEED=${SEED})`, async () => {
  const random = createPrng(SEED);
  const folder = scratchFolder();
  const record = sampleRecord(600);
  const store = openSqliteStore(folder);
  for (let i = 0; i < record.length; i += 20) await store.append(record.slice(i, i + 20));
  // The files as they lie while the server still runs: the log has not been taken over.
  const left = scratchFolder();
  for (const name of ['record.sqlite', 'record.sqlite-wal'])
    writeFileSync(join(left, name), readFileSync(join(folder, name)));
  await store.close();
  const walBytes = statSync(join(left, 'record.sqlite-wal')).size;
  expect(walBytes).toBeGreaterThan(100_000);
  const lengths = new Set<number>();
  for (let cut = 0; cut < CUTS; cut++) {
    const here = scratchFolder();
    cpSync(left, here, { recursive: true });
    const at = cut === 0 ? 0 : Math.floor(random() * walBytes);
    truncateSync(join(here, 'record.sqlite-wal'), at);
    const again = openSqliteStore(here);
    const { seq } = await again.tail();
    const words = `cut at ${at} of ${walBytes}`;
    expect(await again.verify(), words).toMatchObject({ ok: true, entries: seq });
    // Commits are whole or not there, and the index has come exactly as far.
    if (seq > 0) {
      expect(seq === record.length || seq % 20 === 0, words).toBe(true);
      expect(await again.shifts(), words).toHaveLength(1);
    }
    await again.append(record.slice(seq));
    expect(await again.verify(), words).toMatchObject({ ok: true, entries: record.length });
    await again.close();
    lengths.add(seq);
  }
  expect(lengths.size).toBeGreaterThan(5);
});

describe('a page of rubbish in the middle of the file', () => {
  it('is found by verify, wherever it lies, and never passed over', async () => {
    const random = createPrng(SEED);
    const folder = scratchFolder();
    const store = openSqliteStore(folder);
    await store.append(sealedRecord(DAYS, 600));
    while (await store.packNext());
    await store.close();
    const file = join(folder, 'record.sqlite');
    // Pages that are free hold nothing that could be lost: without them nearly every page counts.
    const db = new Database(file);
    db.exec('VACUUM');
    db.close();
    const pages = statSync(file).size / 4096;
    const whole = verifyFolder(folder);
    expect(whole.ok).toBe(true);
    let found = 0;
    for (let i = 0; i < 20; i++) {
      const here = scratchFolder();
      const bytes = readFileSync(file);
      const page = 1 + Math.floor(random() * (pages - 1));
      for (let at = page * 4096; at < (page + 1) * 4096; at++) bytes[at] = Math.floor(random() * 256);
      writeFileSync(join(here, 'record.sqlite'), bytes);
      let words = '';
      try {
        const verdict = verifyFolder(here);
        if (verdict.ok) {
          // An index page or a free one: every entry is still there and matches its hash.
          expect(verdict).toEqual(whole);
          continue;
        }
        words = verdict.why;
      } catch (error) {
        words = (error as Error).message;
        expect(words).not.toContain('\n');
      }
      expect(words.length).toBeGreaterThan(10);
      found += 1;
    }
    expect(found).toBeGreaterThan(3);
  });
});

describe('a data folder that may only be read', () => {
  let opener: string;
  beforeAll(async () => {
    opener = await bundle('tests/faults/support/opener.ts', 'opener');
  });

  /** As a user who owns nothing there: the one who builds may be root, for whom every folder can be written. */
  const openAsAnother = (folder: string): { code: number | null; words: string } => {
    const root = process.getuid?.() === 0;
    const { status, stdout, stderr } = spawnSync(process.execPath, [opener, folder], {
      encoding: 'utf8',
      ...(root ? { uid: 65534, gid: 65534 } : {}),
    });
    return { code: status, words: `${stdout}${stderr}`.trim() };
  };

  it('is refused in one line that says what to do; nothing in it is changed', async () => {
    const folder = join(scratchFolder(), 'data');
    mkdirSync(folder);
    const store = openSqliteStore(folder);
    await store.append(sampleRecord(50));
    await store.close();
    chmodSync(join(folder, '..'), 0o755);
    chmodSync(folder, 0o555);
    for (const name of ['record.sqlite', 'lock.sqlite']) chmodSync(join(folder, name), 0o444);
    const before = readFileSync(join(folder, 'record.sqlite'));
    const { code, words } = openAsAnother(folder);
    chmodSync(folder, 0o755);
    expect(words).toMatch(
      /^PlainError: .* cannot be (written|opened) \((SQLITE|E)[A-Z_]+\): check who .* --data\.$/,
    );
    expect(words).not.toContain('\n');
    expect(code).toBe(1);
    expect(readFileSync(join(folder, 'record.sqlite')).equals(before)).toBe(true);
    expect(verifyFolder(folder)).toMatchObject({ ok: true });
  });
});

it('a second server on a data folder is refused in words, and the first goes on', async () => {
  const first = await serveFake();
  await expect(
    serve({
      engine: fakeLine,
      scenario: fakeScenario(),
      host: '127.0.0.1',
      port: await freePort(),
      dataFolder: first.folder,
      speed: 1,
      newShift: false,
      log: () => undefined,
    }),
  ).rejects.toThrow(/is in use by another server: stop that one, or name another folder with --data/);
  const health = await fetch(`${first.url}/api/health`);
  expect(health.status).toBe(200);
});
