/** The server as a program: what stands in its way is said in one line, and it ends in good order. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { constants } from 'node:os';
import { beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { prepare } from '../../server/bin/support/prepare.mjs';
import { openSqliteStore, verifyFolder } from '../../server/store/sqlite.ts';
import { freePort } from './support/serve-fake.ts';
import { scratchFolder, until } from './support/tools.ts';

let entry: string;
beforeAll(async () => {
  entry = await prepare({ client: false });
});

type Running = { readonly child: ChildProcess; readonly out: () => string; readonly err: () => string };

const start = (...args: string[]): Running => {
  const child = spawn(process.execPath, [entry, ...args], { stdio: ['ignore', 'pipe', 'pipe'] });
  onTestFinished(() => void child.kill('SIGKILL'));
  let out = '';
  let err = '';
  child.stdout.on('data', (bytes: Buffer) => {
    out += bytes.toString();
  });
  child.stderr.on('data', (bytes: Buffer) => {
    err += bytes.toString();
  });
  return { child, out: () => out, err: () => err };
};

/** Exit code of a program that is expected to end by itself. */
const ended = async ({ child }: Running): Promise<number | null> => {
  if (child.exitCode === null) await once(child, 'close');
  return child.exitCode;
};

describe('serve', () => {
  it('refuses a taken port and a folder in use in one line each, and ends in good order', async () => {
    const port = String(await freePort());
    const folder = scratchFolder();
    const first = start('serve', '--port', port, '--data', folder);
    await until('the first is up', () => first.out().includes(`http://127.0.0.1:${port}`), 20_000);

    const samePort = start('serve', '--port', port, '--data', scratchFolder());
    expect(await ended(samePort)).toBe(1);
    expect(samePort.err()).toMatch(new RegExp(`^Port ${port} on 127.0.0.1 is taken: .*\n$`));

    const sameFolder = start('serve', '--port', '0', '--data', folder);
    expect(await ended(sameFolder)).toBe(1);
    expect(sameFolder.err()).toMatch(/^Data folder .* is in use by another server: .*\n$/);

    first.child.kill('SIGTERM');
    expect(await ended(first)).toBe(0);
    expect(first.err()).toBe('');
    const store = openSqliteStore(folder);
    const notes = await store.read({ after: 0, limit: 10, kind: 'note' });
    expect(notes.at(-1)).toMatchObject({ body: { what: 'stopped' } });
    expect(await store.verify()).toMatchObject({ ok: true });
    await store.close();
  }, 60_000);
});

it('serve ends at once when it is asked to while it still runs a long record again', async () => {
  const folder = scratchFolder();
  const shift = 'scenarios/shifts/emulsion-day.yaml';
  // A headless run leaves no checkpoints: broken off, it leaves everything to be run again.
  const run = start('run', shift, '--data', folder);
  const entries = () => {
    try {
      return verifyFolder(folder).ok ? (verifyFolder(folder) as { entries: number }).entries : 0;
    } catch {
      return 0;
    }
  };
  await until('a long record', () => entries() > 8000, 60_000);
  run.child.kill('SIGKILL');
  await once(run.child, 'close');
  const before = entries();

  const serving = start('serve', shift, '--port', '0', '--data', folder);
  await until('it says what it is at', () => serving.err().includes('are run again from the record'), 20_000);
  serving.child.kill('SIGTERM');
  expect(await ended(serving)).toBe(128 + constants.signals.SIGTERM);
  // It broke off in the middle: it never came so far as to name its address.
  expect(serving.out()).toBe('');
  expect(entries()).toBe(before);
}, 120_000);

describe('a program without a terminal', () => {
  it('prints help and errors where they belong', async () => {
    const help = start('check', '--help');
    expect(await ended(help)).toBe(0);
    expect(help.out()).toContain('patchyard check <file.yaml>');
    const wrong = start('check', 'no-such.yaml');
    expect(await ended(wrong)).toBe(1);
    expect(wrong.out()).toBe('');
    expect(wrong.err()).toBe('no-such.yaml:1:1 there is no such file\n');
  });
});
