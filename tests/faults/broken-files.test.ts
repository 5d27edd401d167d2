/** Data folders that were damaged, emptied, filled up or taken away: said in one line, and never passed over. */
import { existsSync, mkdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { serve } from '../../server/main.ts';
import { openSqliteStore, verifyFolder } from '../../server/store/sqlite.ts';
import { sampleRecord } from '../record/samples.ts';
import { fakeLine } from '../server/support/fake-line.ts';
import { fakeScenario } from '../server/support/fake-scenario.ts';
import { freePort } from '../server/support/serve-fake.ts';
import { commandOf, scratchFolder, startLine, until } from '../server/support/tools.ts';

/** What is thrown, as one line; fails when nothing is. */
const wordsOf = (work: () => unknown): string => {
  try {
    work();
  } catch (error) {
    const { name, message } = error as Error;
    expect(name).toBe('PlainError');
    expect(message).not.toContain('\n');
    return message;
  }
  throw new Error('nothing was thrown');
};

const recordIn = async (folder: string): Promise<string> => {
  const store = openSqliteStore(folder);
  await store.append(sampleRecord(300));
  await store.close();
  return join(folder, 'record.sqlite');
};

describe('a record whose file is broken', () => {
  it('cut in half is called damaged, on opening and on verifying', async () => {
    const folder = scratchFolder();
    const file = await recordIn(folder);
    truncateSync(file, Math.floor(readFileSync(file).length / 8192) * 4096);
    expect(wordsOf(() => openSqliteStore(folder))).toMatch(/is damaged \(SQLITE_CORRUPT\): keep its folder/);
    expect(wordsOf(() => verifyFolder(folder))).toMatch(/is damaged: its file is no longer a whole database/);
  });

  it('overwritten by something else is called damaged', () => {
    const folder = scratchFolder();
    writeFileSync(join(folder, 'record.sqlite'), 'no database at all, '.repeat(400));
    expect(wordsOf(() => openSqliteStore(folder))).toMatch(/is damaged \(SQLITE_NOTADB\)/);
    expect(wordsOf(() => verifyFolder(folder))).toMatch(/is damaged/);
  });

  it('being a folder cannot be opened', () => {
    const folder = scratchFolder();
    mkdirSync(join(folder, 'record.sqlite'));
    expect(wordsOf(() => openSqliteStore(folder))).toMatch(/cannot be opened/);
    expect(wordsOf(() => verifyFolder(folder))).toMatch(/cannot be read where it lies/);
  });

  it('with a lock that is none says which file to delete', () => {
    const folder = scratchFolder();
    writeFileSync(join(folder, 'lock.sqlite'), 'no lock at all, '.repeat(400));
    expect(wordsOf(() => openSqliteStore(folder))).toMatch(/lock\.sqlite is not the lock it should be/);
  });
});

it('a write-ahead log that was deleted is noticed, noted in the record and told at the terminal', async () => {
  const folder = scratchFolder();
  const first = await startLine(folder, { speed: 60 });
  await until('a checkpoint', () => existsSync(join(folder, 'reached.json')));
  // The copy is what a power cut leaves behind, less its log.
  const left = scratchFolder();
  for (const name of ['record.sqlite', 'reached.json'])
    writeFileSync(join(left, name), readFileSync(join(folder, name)));
  await first.close();
  const log: string[] = [];
  const serving = await serve({
    engine: fakeLine,
    scenario: fakeScenario(),
    host: '127.0.0.1',
    port: 0,
    dataFolder: left,
    speed: 1,
    newShift: false,
    log: (line) => log.push(line),
  });
  await serving.close();
  expect(log.join()).toMatch(/the record had reached entry \d+ and now ends at \d+: its end is lost/);
  const store = openSqliteStore(left);
  const [note] = await store.read({ after: 0, limit: 10, kind: 'note' });
  expect(JSON.stringify(note)).toContain('its end is lost');
  expect(store.cut).toBeNull();
  await store.close();
});

it('files deleted under a running line hold it: nothing is written into nowhere', async () => {
  const folder = scratchFolder();
  const log: string[] = [];
  const { runner } = await startLine(folder, { speed: 10, log: (line) => log.push(line) });
  expect(await runner.command(commandOf({ do: 'takeControls' }))).toEqual({ ok: true });
  for (const name of ['record.sqlite', 'record.sqlite-wal', 'record.sqlite-shm']) rmSync(join(folder, name));
  await until('the trouble shows', () => runner.shown().run.trouble !== null);
  expect(runner.shown().run.trouble).toContain('record.sqlite was deleted while the line ran');
  expect(await runner.command(commandOf({ do: 'hold' }))).toMatchObject({ ok: false });
});

it('a record that cannot be begun ends the start in one line and lets the port go', async () => {
  const port = await freePort();
  const start = (dataFolder: string) =>
    serve({
      engine: fakeLine,
      scenario: fakeScenario(),
      host: '127.0.0.1',
      port,
      dataFolder,
      speed: 1,
      newShift: false,
      log: () => undefined,
    });
  const folder = scratchFolder();
  const engine = {
    ...fakeLine,
    // Between opening the record and its first entry somebody takes the file away.
    viewOf: (world: Parameters<typeof fakeLine.viewOf>[0]) => {
      rmSync(join(folder, 'record.sqlite'), { force: true });
      return fakeLine.viewOf(world);
    },
  };
  await expect(
    serve({
      engine,
      scenario: fakeScenario(),
      host: '127.0.0.1',
      port,
      dataFolder: folder,
      speed: 1,
      newShift: false,
      log: () => undefined,
    }),
  ).rejects.toThrow(/^The record in .* cannot be written: .*was deleted/);
  const serving = await start(scratchFolder());
  await serving.close();
});
