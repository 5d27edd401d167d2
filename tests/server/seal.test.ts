/** Closing and sealing as the server does it: at the end, at a later start, late by a person, countersigned, over HTTP. */
import { chmodSync, existsSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { main } from '../../server/cli.ts';
import { KEY_FILE, keyInfoOf, makeKeyFile, NEXT_KEY_FILE, openKey } from '../../server/seal/key-file.ts';
import { countersignaturesOf, expectedKey, sealsOf } from '../../server/seal/seals-of.ts';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import { verifyFile } from '../../server/verify/verify-file.ts';
import { verifyRecord } from '../../server/verify/verify-record.ts';
import { testKey } from '../record/support/made-export.ts';
import { serveFake } from './support/serve-fake.ts';
import { commandOf, failing, scratchFolder, startLine, until } from './support/tools.ts';

const KEY = testKey(3);

const endShift = async (runner: Awaited<ReturnType<typeof startLine>>['runner']): Promise<void> => {
  await runner.command(commandOf({ do: 'takeControls' }));
  expect(await runner.command(commandOf({ do: 'endShift', notes: 'all quiet' }))).toEqual({ ok: true });
};

describe('the end of a shift', () => {
  it('is followed by its seal at once, and the next seal names it', async () => {
    const folder = scratchFolder();
    const { runner, store, close } = await startLine(folder, { key: KEY });
    for (const n of [1, 2]) {
      await endShift(runner);
      await until('the seal', async () => (await sealsOf(store)).length === n);
      if (n === 1) await runner.run({ do: 'nextShift' }, { id: 'kim', name: 'Kim', role: 'operator' });
      await until('the next shift', () => n === 2 || !runner.shown().view.shift.ended);
    }
    const [first, second] = await sealsOf(store);
    expect(first?.body).toMatchObject({
      shift: 1,
      first: 1,
      prevSeal: null,
      closed: 'in order',
      key: KEY.fingerprint,
    });
    expect(first?.seq).toBe((first?.body.last ?? 0) + 1);
    expect(second?.body.prevSeal).toEqual({ seq: first?.seq, root: first?.body.root });
    await close();
    expect(await verifyRecord(folder)).toMatchObject({ result: 'intact', seals: 2 });
    expect(await verifyRecord(folder, testKey(4).fingerprint)).toMatchObject({ result: 'altered' });
  });

  it('waits for its seal while the record cannot be written, and gets it then', async () => {
    const store = failing(openSqliteStore(scratchFolder()));
    const { runner } = await startLine('', { key: KEY, store });
    await runner.command(commandOf({ do: 'takeControls' }));
    const ended = runner.command(commandOf({ do: 'endShift' }));
    store.failWith(new Error('no room'));
    await until('the trouble', () => runner.shown().run.trouble !== null);
    expect(await sealsOf(store)).toEqual([]);
    store.failWith(null);
    await ended;
    await until('the seal', async () => (await sealsOf(store)).length === 1);
  });

  it('that stopped before its seal is sealed at the next start', async () => {
    const folder = scratchFolder();
    const before = await startLine(folder);
    await endShift(before.runner);
    await before.close();
    const said: string[] = [];
    const { store } = await startLine(folder, { key: KEY, log: (line) => said.push(line) });
    const [seal] = await sealsOf(store);
    expect(seal?.body).toMatchObject({
      shift: 1,
      closed: 'in order',
      remark: 'sealed at a later start of the program',
    });
    expect(said.join()).toContain('had ended without its seal');
  });
});

describe('a shift that broke off', () => {
  it('is named at the next start, closed late by a person over HTTP, and countersigned by another', async () => {
    const folder = scratchFolder();
    await (await serveFake({ dataFolder: folder })).close();
    const { url, log, close } = await serveFake({ dataFolder: folder, newShift: true });
    expect(log.join()).toContain('broke off and was never closed');
    const post = async (
      path: string,
      person: string,
      remark = '',
    ): Promise<{ ok: boolean; because?: string[] }> =>
      (
        await fetch(`${url}/api/shifts/${path}`, {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify({ by: { person, console: 'console-a' }, remark }),
        })
      ).json();
    const rows = async () => (await fetch(`${url}/api/shifts`)).json();
    expect(await rows()).toMatchObject([
      { ordinal: 1, shift: 1, running: false, endedWall: null, sealed: false, seal: null },
      { ordinal: 2, running: true, sealed: false },
    ]);
    expect((await post('1/seal', 'nobody', 'power cut')).because?.[0]).toContain('not on the list');
    expect((await post('1/seal', 'ola', 'power cut')).because?.[0]).toContain('auditor');
    expect((await post('1/seal', 'kim')).because?.[0]).toContain('how the shift broke off');
    expect((await post('9/seal', 'kim', 'power cut')).because?.[0]).toContain('no shift that entry 9 opens');
    const [, second] = await rows();
    expect((await post(`${second.shift}/seal`, 'kim', 'why not')).because?.[0]).toContain('still runs');
    expect((await post('1/countersignature', 'noor')).because?.[0]).toContain('not sealed yet');
    expect(await post('1/seal', 'kim', 'power cut')).toEqual({ ok: true });
    expect((await post('1/seal', 'kim', 'again')).because?.[0]).toContain('sealed already');
    expect((await post('1/countersignature', 'kim')).because?.[0]).toContain('supervisor');
    expect(await post('1/countersignature', 'noor', 'looked through')).toEqual({ ok: true });
    expect((await post('1/countersignature', 'noor')).because?.[0]).toContain('already');
    const [first] = await rows();
    expect(first).toMatchObject({
      sealed: true,
      seal: {
        closed: 'late',
        by: { person: 'kim' },
        remark: 'power cut',
        countersigned: [{ by: { person: 'noor' }, remark: 'looked through' }],
      },
    });
    const { fingerprint } = await (await fetch(`${url}/api/key`)).json();
    expect(first.seal.key).toBe(fingerprint);
    const response = await fetch(`${url}/api/shifts/1/export`);
    expect(response.headers.get('content-type')).toBe('application/zip');
    expect(response.headers.get('content-disposition')).toMatch(/shift-1-.*\.zip/);
    const file = join(folder, 'one.zip');
    writeFileSync(file, Buffer.from(await response.arrayBuffer()));
    expect(await verifyFile(file, { key: fingerprint })).toMatchObject({
      result: 'intact',
      countersigned: ['noor'],
    });
    // The running shift too, as far as it goes; and what is not there is said.
    const running = await fetch(`${url}/api/shifts/${second.shift}/export`);
    writeFileSync(file, Buffer.from(await running.arrayBuffer()));
    expect(await verifyFile(file)).toMatchObject({ result: 'not sealed' });
    expect((await fetch(`${url}/api/shifts/77/export`)).status).toBe(404);
    expect((await fetch(`${url}/api/shifts/x/export`)).status).toBe(400);
    await close();
    expect(await verifyRecord(folder)).toMatchObject({ result: 'intact', seals: 1 });
  });

  it('is not countersigned by the supervisor who closed it', async () => {
    const folder = scratchFolder();
    await (await serveFake({ dataFolder: folder })).close();
    const { url } = await serveFake({ dataFolder: folder, newShift: true });
    const by = { person: 'noor', console: 'console-a' };
    const headers = { 'content-type': 'application/json' };
    const post = async (what: string) =>
      (
        await fetch(`${url}/api/shifts/1/${what}`, {
          method: 'POST',
          headers,
          body: JSON.stringify({ by, remark: 'power cut' }),
        })
      ).json();
    expect(await post('seal')).toEqual({ ok: true });
    expect((await post('countersignature')).because[0]).toContain('You closed this shift yourself');
  });
});

describe('the key', () => {
  it('is made once, for its owner alone, and named by what openssl would name it', () => {
    const folder = scratchFolder();
    expect(keyInfoOf(folder)).toBeNull();
    const key = openKey(folder, null);
    expect(statSync(join(folder, KEY_FILE)).mode & 0o777).toBe(0o600);
    expect(openKey(folder, null).fingerprint).toBe(key.fingerprint);
    expect(keyInfoOf(folder)).toEqual({ fingerprint: key.fingerprint, publicKey: key.publicKey });
  });

  it('is refused when others may read it, when it is no key, gone, or another one', () => {
    const folder = scratchFolder();
    const { fingerprint } = openKey(folder, null);
    const path = join(folder, KEY_FILE);
    chmodSync(path, 0o644);
    expect(() => openKey(folder, null)).toThrow(/may be read by others \(mode 644\).*chmod 600/);
    chmodSync(path, 0o600);
    expect(() => openKey(folder, 'f'.repeat(64))).toThrow(/the record names ffffffffffffffff/);
    writeFileSync(path, 'hello');
    expect(() => openKey(folder, null)).toThrow(/is not the key it should be/);
    rmSync(path);
    expect(() => openKey(folder, fingerprint)).toThrow(/is gone.*bring the file back/);
  });

  it('of a change that broke off is taken up when it is on record, and taken back when it is not', () => {
    const folder = scratchFolder();
    const old = openKey(folder, null);
    const next = makeKeyFile(join(folder, NEXT_KEY_FILE));
    expect(openKey(folder, old.fingerprint).fingerprint).toBe(old.fingerprint);
    expect(existsSync(join(folder, NEXT_KEY_FILE))).toBe(false);
    const again = makeKeyFile(join(folder, NEXT_KEY_FILE));
    expect(again.fingerprint).not.toBe(next.fingerprint);
    expect(openKey(folder, again.fingerprint).fingerprint).toBe(again.fingerprint);
    expect(existsSync(join(folder, NEXT_KEY_FILE))).toBe(false);
  });
});

describe('on the command line', () => {
  let out: string[] = [];
  let err: string[] = [];
  beforeEach(() => {
    out = [];
    err = [];
    vi.spyOn(console, 'log').mockImplementation((line) => void out.push(String(line)));
    vi.spyOn(console, 'error').mockImplementation((line) => void err.push(String(line)));
  });
  afterEach(() => vi.restoreAllMocks());

  /** A record of one shift, sealed with the folder's own key. */
  const sealedFolder = async (): Promise<string> => {
    const folder = scratchFolder();
    const { runner, store, close } = await startLine(folder, { key: openKey(folder, null) });
    await endShift(runner);
    await until('the seal', async () => (await sealsOf(store)).length === 1);
    await close();
    return folder;
  };

  it('exports, verifies, proves, and refuses what is not there', async () => {
    const folder = await sealedFolder();
    const [zip, proof] = [join(folder, 'one.zip'), join(folder, 'proof.json')];
    expect(await main(['export', '--data', folder, '--shift', '1', '--out', zip])).toBe(0);
    expect(await main(['export', '--data', folder, '--shift', '1', '--out', zip])).toBe(1);
    expect(err.join()).toContain('is there already');
    expect(await main(['export', '--data', folder, '--shift', '#1', '--out', zip, '--replace'])).toBe(0);
    expect(existsSync(`${zip}.part`)).toBe(false);
    expect(await main(['export', '--data', folder, '--shift', '2', '--out', join(folder, 'two.zip')])).toBe(
      1,
    );
    expect(err.at(-1)).toContain('holds one shift; there is no 2');
    expect(await main(['export', '--data', folder, '--shift', 'x', '--out', zip])).toBe(1);
    expect(await main(['verify', zip])).toBe(0);
    expect(out.at(-1)).toMatch(/^INTACT/);
    const { fingerprint } = keyInfoOf(folder) ?? { fingerprint: '' };
    expect(await main(['verify', zip, '--key', fingerprint.replace(/(.{4})/g, '$1 '), '--json'])).toBe(0);
    expect(JSON.parse(out.at(-1) ?? '')).toMatchObject({ result: 'intact', keyPinned: true, exitCode: 0 });
    expect(await main(['verify', zip, '--key', 'a'.repeat(64)])).toBe(1);
    expect(err.at(-1)).toContain('wrong key');
    expect(await main(['verify', zip, '--key', 'abc'])).toBe(2);
    expect(await main(['verify', zip, '--redecide'])).toBe(4);
    expect(out.at(-1)).toContain('Not decided again');
    expect(await main(['verify', join(folder, 'none.zip')])).toBe(2);
    expect(await main(['verify', join(folder, 'record.sqlite')])).toBe(2);
    expect(await main(['prove', '--data', folder, '--entry', '2', '--out', proof])).toBe(0);
    expect(await main(['verify', proof, '--key', fingerprint])).toBe(0);
    const bent = readFileSync(proof, 'utf8').replace('hopperKg', 'hopperKh');
    writeFileSync(proof, bent);
    expect(await main(['verify', proof])).toBe(1);
    expect(err.at(-1)).toContain('do not lead to the sealed root');
    expect(await main(['prove', '--data', folder, '--batch', '99', '--shift', '1', '--out', proof])).toBe(1);
    expect(await main(['prove', '--data', folder, '--lot', 'none', '--out', proof])).toBe(1);
    expect(await main(['prove', '--data', folder, '--batch', '1', '--out', proof])).toBe(2);
  });

  it('changes the key; old seals stay good, and a pinned old or new key leads to either', async () => {
    const folder = await sealedFolder();
    const zip = join(folder, 'one.zip');
    const old = keyInfoOf(folder)?.fingerprint ?? '';
    expect(await main(['key', '--data', folder, '--rotate'])).toBe(2);
    expect(await main(['key', '--data', folder, '--rotate', '--reason', 'new keeper'])).toBe(0);
    const now = keyInfoOf(folder)?.fingerprint ?? '';
    expect(now).not.toBe(old);
    expect(statSync(join(folder, KEY_FILE)).mode & 0o777).toBe(0o600);
    const store = openSqliteStore(folder);
    expect(await expectedKey(store)).toBe(now);
    expect(await countersignaturesOf(store)).toEqual([]);
    await store.close();
    expect(await main(['verify', folder])).toBe(0);
    expect(await main(['export', '--data', folder, '--shift', '1', '--out', zip])).toBe(0);
    for (const key of [old, now]) expect(await main(['verify', zip, '--key', key])).toBe(0);
    expect(await main(['verify', zip, '--key', 'b'.repeat(64)])).toBe(1);
    // The old key file brought back is not the key any more.
    renameSync(join(folder, KEY_FILE), join(folder, 'kept'));
    makeKeyFile(join(folder, KEY_FILE));
    expect(await main(['key', '--data', folder, '--rotate', '--reason', 'forged'])).toBe(1);
    expect(err.at(-1)).toContain('the record names');
  });
});
