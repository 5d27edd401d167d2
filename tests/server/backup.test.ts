/** `backup` while a line writes: one verified file, whole as of one moment, with nothing left out silently. */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { backUp } from '../../server/archive/backup.ts';
import { readLastBackup } from '../../server/archive/last-backup.ts';
import { backupCommand } from '../../server/commands/backup.ts';
import { openSqliteStore, verifyFolder } from '../../server/store/sqlite.ts';
import { readingsAt, sealAll } from '../record/samples.ts';
import { DAYS, sealedRecord } from './support/sealed-record.ts';
import { scratchFolder, startLine, until } from './support/tools.ts';

afterEach(() => vi.restoreAllMocks());

const recordIn = async (folder: string): Promise<void> => {
  const store = openSqliteStore(folder);
  await store.append(sealedRecord(DAYS, 400));
  while (await store.packNext());
  await store.close();
};

describe('backup', () => {
  it('of a running line is whole, and goes on as a record of its own', async () => {
    const folder = scratchFolder();
    await recordIn(folder);
    const { runner, store } = await startLine(folder, { speed: 60 });
    const out = join(scratchFolder(), 'monday.sqlite');
    const shares: number[] = [];
    const { entries, head, bytes } = await backUp(folder, out, (share) => shares.push(share));
    expect(shares.at(-1)).toBe(1);
    expect(readdirSync(join(out, '..'))).toEqual(['monday.sqlite']);
    expect(readFileSync(out)).toHaveLength(bytes);
    await until('the line goes on', () => runner.shown().run.seq > entries + 10);
    expect(await store.verify()).toMatchObject({ ok: true });

    const restored = scratchFolder();
    writeFileSync(join(restored, 'record.sqlite'), readFileSync(out));
    expect(verifyFolder(restored)).toMatchObject({ ok: true, entries, end: { hash: head } });
    const again = await startLine(restored, { speed: 60 });
    const from = again.runner.shown().run.seq;
    await until('the restored line runs', () => again.runner.shown().run.seq > from + 3);
    expect(await again.store.find({ lot: '260505-1' })).toHaveLength(1);
  });

  it('is of one moment: what is written between its steps is not in it, and does not make it begin again', async () => {
    const folder = scratchFolder();
    await recordIn(folder);
    const store = openSqliteStore(folder);
    const { seq: entriesAtFirst, hash } = await store.tail();
    let end = { seq: entriesAtFirst, hash };
    const shares: number[] = [];
    const writeMore = (share: number) => {
      shares.push(share);
      const more = sealAll([readingsAt(1), readingsAt(2)], end);
      // Embedded SQLite has written when append returns its promise.
      void store.append(more);
      end = more.at(-1)?.entry ?? end;
    };
    const { entries } = await backUp(folder, join(scratchFolder(), 'b.sqlite'), writeMore, 2);
    expect(shares.length).toBeGreaterThan(40);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(entries).toBe(entriesAtFirst);
    expect((await store.tail()).seq).toBe(entriesAtFirst + 2 * shares.length);
    expect(await store.verify()).toMatchObject({ ok: true });
    await store.close();
  });

  it('says what it leaves out and how to restore, and notes that it was made', async () => {
    const folder = scratchFolder();
    await recordIn(folder);
    writeFileSync(join(folder, 'plant-key.pem'), 'secret', { mode: 0o600 });
    writeFileSync(join(folder, 'notes.txt'), 'x');
    const out = join(scratchFolder(), 'b.sqlite');
    const said: string[] = [];
    vi.spyOn(console, 'log').mockImplementation((line: string) => void said.push(line));
    expect(await backupCommand(['--data', folder, '--out', out])).toBe(0);
    const words = said.join('\n');
    expect(words).toContain('Left out on purpose: plant-key.pem.');
    expect(words).toContain('Not copied: notes.txt.');
    expect(words).toContain(`cp ${out} NEW/record.sqlite`);
    expect(readFileSync(out).includes('secret')).toBe(false);
    expect(readLastBackup(folder)).toMatchObject({ file: out, bytes: readFileSync(out).length });
  });

  it('never writes over a file, and leaves nothing behind when it fails', async () => {
    const folder = scratchFolder();
    await recordIn(folder);
    const out = join(scratchFolder(), 'b.sqlite');
    writeFileSync(out, 'mine');
    await expect(backUp(folder, out, () => undefined)).rejects.toThrow(/is there already/);
    expect(readFileSync(out, 'utf8')).toBe('mine');
    await expect(backUp(folder, '/proc/nowhere/b.sqlite', () => undefined)).rejects.toThrow(
      /cannot be written .*--out/,
    );
    await expect(backUp(scratchFolder(), `${out}2`, () => undefined)).rejects.toThrow(/no record to back up/);
  });

  it('of a record that is not whole is thrown away, and says at which entry', async () => {
    const folder = scratchFolder();
    await recordIn(folder);
    const db = new Database(join(folder, 'record.sqlite'));
    db.prepare(
      `UPDATE entries SET json = replace(json, 'pen-mix', 'pan-mix') WHERE fact = 'lotOpened'`,
    ).run();
    db.close();
    const out = join(scratchFolder(), 'b.sqlite');
    await expect(backUp(folder, out, () => undefined)).rejects.toThrow(/not whole at entry \d+/);
    expect(existsSync(out)).toBe(false);
    expect(existsSync(`${out}.part`)).toBe(false);
  });
});
