/** The index: lots, batches, people, materials and days are found without reading the record, and it can be made again. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { findStatement } from '../../server/store/find.ts';
import { rebuild } from '../../server/store/rebuild.ts';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import { TABLE_STEPS } from '../../server/store/tables.ts';
import { DAYS, sealedRecord } from './support/sealed-record.ts';
import { scratchFolder } from './support/tools.ts';

const record = sealedRecord(DAYS, 120, true);
const openings = record.flatMap(({ entry }) => (entry.kind === 'opening' ? [entry.seq] : []));

const kept = async () => {
  const folder = scratchFolder();
  const store = openSqliteStore(folder);
  // In small batches, as a line writes it.
  for (let i = 0; i < record.length; i += 7) await store.append(record.slice(i, i + 7));
  return { folder, store };
};

const opened = (folder: string): Database.Database => new Database(join(folder, 'record.sqlite'));

describe('the index', () => {
  it('lists the shifts with day, end, seal, lots and batches', async () => {
    const { store } = await kept();
    const shifts = await store.shifts();
    expect(shifts.map(({ shift, day, lots, batches }) => ({ shift, day, lots, batches }))).toEqual(
      DAYS.map((day, i) => ({ shift: openings[i], day, lots: 1, batches: 2 })),
    );
    expect(shifts[0]).toMatchObject({ scenario: 'sample', seal: (openings[1] ?? 0) - 1, archivedIn: null });
    expect(shifts[0]?.endedWall).toMatch(/^2026-05-04T/);
    expect(shifts[2]).toMatchObject({ endedWall: null, seal: null, last: record.length });
    await store.close();
  });

  it('finds a lot, a batch, a person, a material and days, alone and together', async () => {
    const { store } = await kept();
    const [lot] = await store.find({ lot: '260505-1' });
    expect(lot?.shift).toMatchObject({ shift: openings[1], day: '2026-05-05' });
    const [mention] = lot?.mentions ?? [];
    if (mention === undefined) throw new Error('no mention');
    const naming = await store.naming(mention);
    // Opened, two batches started, two masses moved into it.
    expect(naming.map((entry) => (entry.kind === 'fact' ? entry.body.fact.is : entry.kind))).toEqual([
      'lotOpened',
      'batchStarted',
      'massMoved',
      'batchStarted',
      'massMoved',
    ]);
    expect(mention).toMatchObject({ first: naming[0]?.seq, last: naming.at(-1)?.seq, count: 5 });

    const days = async (query: Parameters<typeof store.find>[0]) =>
      (await store.find(query)).map(({ shift }) => shift.day);
    expect(await days({ batch: 2 })).toEqual([...DAYS].reverse());
    expect(await days({ batch: 3 })).toEqual([]);
    expect(await days({ person: 'sam', fromDay: '2026-05-05' })).toEqual(['2026-05-06', '2026-05-05']);
    expect(await days({ material: 'emulsion-k1', toDay: '2026-05-04' })).toEqual(['2026-05-04']);
    expect(await days({ mix: 'pen-mix', limit: 1 })).toEqual(['2026-05-06']);
    expect(await days({ lot: '260505-1', fromDay: '2026-05-06' })).toEqual([]);
    expect(await days({ fromDay: '2026-05-05', toDay: '2026-05-05' })).toEqual(['2026-05-05']);
    expect((await store.mentions('batch', openings[0] ?? 0)).map(({ key }) => key)).toEqual(['1', '2']);
    await store.close();
  });

  it('is searched, never scanned', async () => {
    const { folder, store } = await kept();
    await store.close();
    const db = opened(folder);
    for (const query of [
      { lot: 'L' },
      { batch: 1 },
      { person: 'kim', material: 'm' },
      { fromDay: '2026-05-05' },
    ]) {
      const { sql, values } = findStatement(query);
      const plan = db.prepare(`EXPLAIN QUERY PLAN ${sql}`).all({ ...values, tail: 1 }) as {
        detail: string;
      }[];
      const scans = plan
        .map((row) => row.detail)
        .filter((detail) => /^SCAN (m\d|mentions|entries)/.test(detail));
      expect(scans, sql).toEqual([]);
    }
    db.close();
  });

  it('made again from the record is what was there; a planted difference is told and mended', async () => {
    const { folder, store } = await kept();
    while (await store.packNext());
    await store.close();
    const db = opened(folder);
    expect(await rebuild(db, false)).toMatchObject({ differences: 0, told: [], shifts: 3 });
    db.exec(`UPDATE mentions SET count = 99 WHERE kind = 'lot' AND key = '260504-1'`);
    db.exec(`DELETE FROM shifts WHERE day = '2026-05-06'`);
    db.exec(`UPDATE entries SET lot = 'L-forged' WHERE fact = 'lotOpened'`);
    db.exec(`DELETE FROM answers WHERE id = '2026-05-04-9'`);
    const found = await rebuild(db, false);
    // A changed row counts twice: the right one is missing, the wrong one is there.
    expect(found.differences).toBe(2 + 1 + 3 + 1);
    expect(found.told.join('\n')).toMatch(/wrong in mentions: .*"260504-1".*"count":99/);
    expect(found.told.join('\n')).toMatch(/missing in shifts: .*2026-05-06/);
    expect(found.told.join('\n')).toMatch(/missing in answers: .*2026-05-04-9/);
    expect(found.told.join('\n')).toMatch(/columns of entry \d+ do not agree with its text/);
    expect((await rebuild(db, true)).differences).toBe(found.differences);
    expect(await rebuild(db, false)).toMatchObject({ differences: 0, told: [] });
    db.close();
  });

  it('is made when a record of the first version is opened', async () => {
    const folder = scratchFolder();
    const old = opened(folder);
    old.exec(TABLE_STEPS[0] ?? '');
    old.pragma('user_version = 1');
    const insert = old.prepare(
      'INSERT INTO entries (seq, shift, kind, at_ms, fact, lot, batch, hash, json) VALUES (?,?,?,?,NULL,NULL,NULL,?,?)',
    );
    for (const { entry, text } of record) {
      const shift = Math.max(...openings.filter((seq) => seq <= entry.seq));
      insert.run(entry.seq, shift, entry.kind, entry.atMs, entry.hash, text);
    }
    old.close();
    const store = openSqliteStore(folder);
    expect((await store.shifts()).map(({ day }) => day)).toEqual([...DAYS]);
    expect(await store.find({ lot: '260506-1' })).toHaveLength(1);
    expect(await store.verify()).toMatchObject({ ok: true, entries: record.length });
    await store.close();
  });
});
