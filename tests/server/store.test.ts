/** The embedded store: what it keeps, what it refuses, and what it does with a tail that was never finished. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import type { Sealed } from '../../machines/record/chain.ts';
import { openSqliteStore, verifyFolder } from '../../server/store/sqlite.ts';
import { readingsAt, sampleRecord, sealAll } from '../record/samples.ts';
import { scratchFolder } from './support/tools.ts';

/** A closed record of `n` entries behind its opening. */
const written = async (n: number): Promise<{ folder: string; sealed: Sealed[] }> => {
  const folder = scratchFolder();
  const sealed = sampleRecord(n);
  const store = openSqliteStore(folder);
  await store.append(sealed);
  await store.close();
  return { folder, sealed };
};

const rawly = (folder: string, work: (db: Database.Database) => void): void => {
  const db = new Database(join(folder, 'record.sqlite'));
  work(db);
  db.close();
};

const insertRaw = 'INSERT INTO entries (seq, shift, kind, at_ms, hash, json) VALUES (?,1,?,0,?,?)';

describe('sqlite store', () => {
  it('gives back what was appended, after closing and opening again', async () => {
    const { folder, sealed } = await written(30);
    const store = openSqliteStore(folder);
    expect(await store.read({ after: 0, limit: 100 })).toEqual(sealed.map((s) => s.entry));
    expect(await store.read({ after: 10, limit: 5 })).toEqual(sealed.slice(10, 15).map((s) => s.entry));
    expect(await store.tail()).toMatchObject({ seq: 31, hash: sealed[30]?.entry.hash, shift: 1 });
    expect(await store.verify()).toMatchObject({ ok: true, entries: 31 });
    await store.close();
  });

  it('appends all of a batch or nothing', async () => {
    const { folder, sealed } = await written(3);
    const store = openSqliteStore(folder);
    const more = sealAll([readingsAt(2), readingsAt(3)], { seq: 4, hash: sealed[3]?.entry.hash ?? '' });
    const [first, second] = more as [Sealed, Sealed];
    const clash = { ...second, entry: { ...second.entry, seq: 2 } };
    await expect(store.append([first, clash])).rejects.toThrow();
    expect(await store.tail()).toMatchObject({ seq: 4 });
    expect(await store.read({ after: 4, limit: 10 })).toEqual([]);
    await store.append(more);
    // Asking again, as after an error that came after the commit, changes nothing.
    await store.append(more);
    expect(await store.verify()).toMatchObject({ ok: true, entries: 6 });
    await store.close();
  });

  it('keeps its record in a write-ahead log', async () => {
    const { folder } = await written(3);
    rawly(folder, (db) => expect(db.pragma('journal_mode', { simple: true })).toBe('wal'));
  });

  it('knows the answer to a command again', async () => {
    const { folder } = await written(30);
    const store = openSqliteStore(folder);
    expect(await store.answerTo('command-4')).toEqual({ command: 'hold', answer: { ok: true } });
    expect(await store.answerTo('command-none')).toBeNull();
    await store.close();
  });

  it('finds entries by kind, fact and lot without scanning the record', async () => {
    const { folder } = await written(30);
    rawly(folder, (db) => {
      const plan = (where: string) =>
        (
          db
            .prepare(
              `EXPLAIN QUERY PLAN SELECT seq, hash, json FROM entries WHERE seq > 0 AND ${where} ORDER BY seq LIMIT 5`,
            )
            .all() as { detail: string }[]
        )
          .map((row) => row.detail)
          .join('; ');
      expect(plan("kind = 'fact' AND kind <> 'readings'")).toContain('USING INDEX entries_by_kind');
      expect(plan("fact = 'lotClosed' AND fact IS NOT NULL")).toContain('USING INDEX entries_by_fact');
      expect(plan("lot = 'L1' AND lot IS NOT NULL")).toContain('USING INDEX entries_by_lot');
    });
    const store = openSqliteStore(folder);
    const commands = await store.read({ after: 0, limit: 100, kind: 'command' });
    expect(commands).toHaveLength(10);
    expect(await store.read({ after: 0, limit: 100, fact: 'commandDone' })).toHaveLength(10);
    await store.close();
  });

  it('keeps the newest checkpoints, and passes over one whose entry is no longer there', async () => {
    const { folder, sealed } = await written(30);
    const store = openSqliteStore(folder);
    const at = (seq: number, hash = sealed[seq - 1]?.entry.hash ?? '') => ({
      shift: 1,
      seq,
      hash,
      tick: seq,
      world: { seq },
    });
    for (const seq of [5, 10, 15, 20]) await store.saveCheckpoint(at(seq));
    await store.saveCheckpoint(at(25, 'the hash of some other record'));
    expect(await store.loadCheckpoint(1)).toEqual(at(20));
    expect(await store.loadCheckpoint(2)).toBeNull();
    await store.close();
    rawly(folder, (db) => expect(db.prepare('SELECT count(*) FROM checkpoints').pluck().get()).toBe(3));
  });
});

describe('a tail that was never finished', () => {
  it('is cut when its last entry cannot be read, and says what was cut', async () => {
    const { folder } = await written(30);
    rawly(folder, (db) => db.prepare(insertRaw).run(32, 'fact', 'x'.repeat(64), '{"atMs":12,"bo'));
    const store = openSqliteStore(folder);
    expect(store.cut).toMatch(/^entries 32 to 32 were cut off the end of the record: it cannot be read/);
    expect(await store.tail()).toMatchObject({ seq: 31 });
    expect(await store.verify()).toMatchObject({ ok: true, entries: 31 });
    await store.close();
    rawly(folder, (db) => expect(db.prepare('SELECT seq FROM cut').pluck().all()).toEqual([32]));
    const again = openSqliteStore(folder);
    expect(again.cut).toBeNull();
    await again.close();
  });

  it('is cut when its last entries do not chain', async () => {
    const { folder, sealed } = await written(30);
    rawly(folder, (db) => {
      for (const seq of [32, 33])
        db.prepare(insertRaw).run(seq, 'fact', 'ab'.repeat(32), sealed[5]?.text ?? '');
    });
    const store = openSqliteStore(folder);
    expect(store.cut).toContain('entries 32 to 33 were cut');
    await store.close();
  });

  it('is told from damage further up, which is left as it is', async () => {
    const { folder } = await written(30);
    rawly(folder, (db) =>
      db.prepare('UPDATE entries SET json = replace(json, \'"tick":5\', \'"tick":6\') WHERE seq = 15').run(),
    );
    expect(() => openSqliteStore(folder)).toThrow(/is damaged at entry 15 .*--data/);
    expect(verifyFolder(folder)).toEqual({ ok: false, seq: 15, why: 'its content does not match its hash' });
  });

  it('damage far above the tail is found by the full check', async () => {
    const { folder } = await written(900);
    rawly(folder, (db) => db.prepare('DELETE FROM entries WHERE seq = 40').run());
    const store = openSqliteStore(folder);
    expect(await store.verify()).toMatchObject({ ok: false, seq: 41 });
    await store.close();
  });
});

describe('a data folder that cannot be used', () => {
  const oneLine = (work: () => unknown): string => {
    try {
      work();
    } catch (error) {
      const { name, message } = error as Error;
      expect(name).toBe('PlainError');
      expect(message).not.toContain('\n');
      return message;
    }
    throw new Error('it was opened');
  };

  it('is refused while another server has it, and free again afterwards', async () => {
    const folder = scratchFolder();
    const store = openSqliteStore(folder);
    const message = oneLine(() => openSqliteStore(folder));
    expect(message).toContain(folder);
    expect(message).toMatch(/in use by another server/);
    await store.close();
    await openSqliteStore(folder).close();
  });

  it('is refused when it is a file', () => {
    const file = join(scratchFolder(), 'a-file');
    writeFileSync(file, '');
    expect(oneLine(() => openSqliteStore(file))).toMatch(/is a file, not a data folder.*--data/);
  });

  it('is refused when nothing can be written in it', () => {
    const folder = scratchFolder();
    // A folder where the lock file should be stands in for missing rights, which do not bind root.
    mkdirSync(join(folder, 'lock.sqlite'));
    expect(oneLine(() => openSqliteStore(folder))).toMatch(/cannot be written .*--data/);
  });

  it('is refused when its record is no record', () => {
    const folder = scratchFolder();
    writeFileSync(
      join(folder, 'record.sqlite'),
      'this is not a database, and long enough to be sure of it. '.repeat(40),
    );
    expect(oneLine(() => openSqliteStore(folder))).toMatch(/is damaged \(SQLITE_NOTADB\).*--data/);
    // The folder is free for the next who tries.
    expect(oneLine(() => openSqliteStore(folder))).toMatch(/SQLITE_NOTADB/);
  });
});
