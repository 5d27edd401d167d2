/** Keeping as a person meets it: packing while the line runs, the figures on the page, and the commands. */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { noteLastBackup } from '../../server/archive/last-backup.ts';
import { startPacking } from '../../server/archive/packing.ts';
import { roomState } from '../../server/archive/room.ts';
import { main } from '../../server/cli.ts';
import { openSqliteStore, verifyFolder } from '../../server/store/sqlite.ts';
import { DAYS, sealedRecord } from './support/sealed-record.ts';
import { serveFake } from './support/serve-fake.ts';
import { scratchFolder, startLine, until } from './support/tools.ts';
import { trulySealed } from './support/true-seals.ts';

afterEach(() => vi.restoreAllMocks());

const QUICK = { stepMs: 1, lookMs: 1, troubleMs: 5 };

describe('packing while a line runs', () => {
  it('puts the sealed shifts away and leaves the line its pace', async () => {
    const folder = scratchFolder();
    const first = openSqliteStore(folder);
    await first.append(sealedRecord(DAYS, 1500));
    await first.close();
    const { runner, store } = await startLine(folder, { speed: 10 });
    const packing = startPacking(store, () => undefined, QUICK);
    const fromMs = runner.shown().view.shift.atMs;
    await until('all is packed', async () => (await store.keeping()).packed === 3);
    await packing.stop();
    await until('the line goes on', () => runner.shown().view.shift.atMs > fromMs + 1000);
    expect(runner.shown().run.trouble).toBeNull();
    expect(await store.verify()).toMatchObject({ ok: true });
  });

  it('tells once what it cannot pack, and tries the rest', async () => {
    const folder = scratchFolder();
    const first = openSqliteStore(folder);
    await first.append(sealedRecord(DAYS, 300));
    await first.close();
    const db = new Database(join(folder, 'record.sqlite'));
    db.prepare(`UPDATE entries SET json = replace(json, '"rows":[', '"rows":[[') WHERE seq = 30`).run();
    db.close();
    const store = openSqliteStore(folder);
    const log: string[] = [];
    const packing = startPacking(store, (line) => log.push(line), QUICK);
    await until('the others are packed', async () => (await store.keeping()).packed === 2);
    await packing.stop();
    expect(log).toEqual([
      expect.stringMatching(/^Packing readings of sealed shifts: The readings of entries/),
    ]);
    await store.close();
  });
});

describe('the figures of keeping', () => {
  it('are told over HTTP', async () => {
    const folder = scratchFolder();
    await (await trulySealed(folder, DAYS, 60)).close();
    noteLastBackup(folder, { wall: '2026-05-10T12:00:00.000Z', file: '/b.sqlite', bytes: 5, entries: 9 });
    const { url } = await serveFake({ dataFolder: folder });
    const response = await fetch(`${url}/api/keeping`);
    expect(response.status).toBe(200);
    const kept = (await response.json()) as { bytes: number; entries: number; room: { freeBytes: number } };
    expect(kept).toMatchObject({
      folder,
      shifts: 4,
      sealed: 3,
      packed: 3,
      archived: 0,
      lastBackup: { file: '/b.sqlite', entries: 9 },
    });
    expect(kept.bytes).toBeGreaterThan(50_000);
    expect(kept.room.freeBytes).toBeGreaterThan(0);
  });

  it('call the room little below a gigabyte and nearly none below a hundred megabytes', () => {
    const of = (freeBytes: number) => roomState({ freeBytes, totalBytes: 1e12 });
    expect([of(1e9), of(1e9 - 1), of(1e8), of(1e8 - 1)]).toEqual([
      'enough',
      'little',
      'little',
      'nearly none',
    ]);
    expect(roomState(null)).toBe('enough');
  });
});

describe('the commands', () => {
  const run = async (...args: string[]): Promise<{ code: number; out: string; err: string }> => {
    const out: string[] = [];
    const err: string[] = [];
    vi.spyOn(console, 'log').mockImplementation((line: string) => void out.push(line));
    vi.spyOn(console, 'error').mockImplementation((line: string) => void err.push(line));
    const code = await main(args);
    vi.restoreAllMocks();
    return { code, out: out.join('\n'), err: err.join('\n') };
  };

  it('archive, restore and rebuild go round, and end with the record as it was', async () => {
    const folder = scratchFolder();
    await (await trulySealed(folder, DAYS, 120)).close();
    const before = verifyFolder(folder);
    const files = join(scratchFolder(), 'old shifts');
    const archived = await run('archive', '--data', folder, '--older-than', '1', '--out', files);
    expect(archived).toMatchObject({ code: 0, err: '' });
    expect(archived.out).toMatch(/2 shifts archived, \d+\.\d MB/);
    const names = readdirSync(files).sort();
    expect(names).toHaveLength(2);
    expect(verifyFolder(folder)).toMatchObject({ ok: true, end: before.ok ? before.end : {} });
    const checked = await run('rebuild', '--data', folder, '--check');
    expect(checked).toMatchObject({ code: 0, err: '' });
    expect(checked.out).toMatch(/3 shifts, .* made again[\s\S]*They are the same as what was there\./);
    for (const name of names) {
      const restored = await run('restore', join(files, name), '--data', folder);
      expect(restored).toMatchObject({ code: 0, err: '' });
    }
    expect(verifyFolder(folder)).toEqual(before);
    expect((await run('archive', '--data', folder, '--older-than', '90000', '--out', files)).out).toMatch(
      /^Nothing to archive/,
    );
  });

  it('rebuild --check ends with 1 when something differs, and without it puts it right', async () => {
    const folder = scratchFolder();
    await (await trulySealed(folder, DAYS.slice(0, 1), 120)).close();
    const db = new Database(join(folder, 'record.sqlite'));
    db.exec(`DELETE FROM mentions WHERE kind = 'lot'`);
    db.close();
    const checked = await run('rebuild', '--data', folder, '--check');
    expect(checked.code).toBe(1);
    expect(checked.err).toMatch(
      /missing in mentions: .*"260504-1"[\s\S]*1 difference; run it again without --check/,
    );
    expect(await run('rebuild', '--data', folder)).toMatchObject({
      code: 0,
      err: expect.stringMatching(/1 difference, put right/),
    });
    expect((await run('rebuild', '--data', folder, '--check')).code).toBe(0);
  });

  it('say how they are called, and refuse a folder a server runs on', async () => {
    const { folder } = await serveFake();
    for (const args of [
      ['archive', '--older-than', '0', '--out', join(folder, 'out')],
      ['rebuild'],
      ['restore', 'any.zip'],
    ]) {
      const { code, err } = await run(...args, '--data', folder);
      expect(code, args[0]).toBe(1);
      expect(err, args[0]).toMatch(/is in use by another server: stop that one/);
    }
    expect(existsSync(join(folder, 'out'))).toBe(false);
    for (const args of [
      ['archive'],
      ['archive', '--older-than', 'x', '--out', 'y'],
      ['restore'],
      ['backup'],
      ['rebuild', 'x'],
    ])
      expect((await run(...args)).code, args.join(' ')).toBe(2);
    for (const name of ['archive', 'restore', 'backup', 'rebuild']) {
      const { code, out } = await run(name, '--help');
      expect(code).toBe(0);
      expect(out).toContain(`patchyard ${name} `);
    }
    expect(await run('rebuild', '--data', scratchFolder())).toMatchObject({
      code: 1,
      err: expect.stringMatching(/^There is no record in/),
    });
  });
});
