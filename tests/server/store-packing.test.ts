/** The readings of sealed shifts move into chunks: no reader notices, the record takes less room, damage is named. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Sealed } from '../../machines/record/chain.ts';
import { pack, unpack } from '../../server/store/packed-readings.ts';
import { openSqliteStore, verifyFolder } from '../../server/store/sqlite.ts';
import type { Store, StoredText } from '../../server/store/store.ts';
import { readingsAt, sealAll } from '../record/samples.ts';
import { DAYS, sealedRecord } from './support/sealed-record.ts';
import { scratchFolder } from './support/tools.ts';

/** 2,000 seconds a shift: three chunks each. */
let record: Sealed[];
beforeAll(() => {
  record = sealedRecord(DAYS, 2000, true);
});

const packAll = async (store: Store): Promise<number> => {
  let steps = 0;
  while (await store.packNext()) steps += 1;
  return steps;
};

const kept = async (records: readonly Sealed[]): Promise<{ folder: string; store: Store }> => {
  const folder = scratchFolder();
  const store = openSqliteStore(folder);
  await store.append(records);
  return { folder, store };
};

const textsOf = async (store: Store, first: number, last: number): Promise<StoredText[]> => {
  const texts: StoredText[] = [];
  for await (const text of store.texts(first, last)) texts.push(text);
  return texts;
};

const rawly = <T>(folder: string, work: (db: Database.Database) => T): T => {
  const db = new Database(join(folder, 'record.sqlite'));
  try {
    return work(db);
  } finally {
    db.close();
  }
};

describe('packing', () => {
  it('moves the readings of sealed shifts only, and every text comes back byte for byte', async () => {
    const { folder, store } = await kept(record);
    const want = record.map(({ entry, text }) => ({ seq: entry.seq, hash: entry.hash, json: text }));
    expect(await packAll(store)).toBe(6);
    expect(await textsOf(store, 1, record.length)).toEqual(want);
    expect(await textsOf(store, 901, 2105)).toEqual(want.slice(900, 2105));
    expect(await store.verify()).toMatchObject({ ok: true, entries: record.length });
    const openings = record.filter(({ entry }) => entry.kind === 'opening').map(({ entry }) => entry.seq);
    const running = openings[2] ?? 0;
    rawly(folder, (db) => {
      const loose = db.prepare(`SELECT min(seq) FROM entries WHERE kind = 'readings'`).pluck().get();
      expect(loose).toBeGreaterThan(running);
      expect(db.prepare('SELECT shift FROM packed').pluck().all()).toEqual(openings.slice(0, 2));
    });
    await store.close();
  });

  it('changes no answer to any query', async () => {
    const before = await kept(record);
    const after = await kept(record);
    await packAll(after.store);
    for (const query of [
      { after: 0, limit: 5000 },
      { after: 1234, limit: 1 },
      { after: 1234, limit: 700 },
      { after: 0, limit: 950, kind: 'readings' },
      { after: 1500, limit: 3000, kind: 'readings' },
      { after: record.length - 50, limit: 1000, kind: 'readings' },
      { after: 0, limit: 100, kind: 'command' },
      { after: 0, limit: 100, fact: 'massMoved' },
      { after: 0, limit: 100, lot: '260505-1' },
      { after: record.length, limit: 10 },
    ] as const)
      expect(await after.store.read(query), JSON.stringify(query)).toEqual(await before.store.read(query));
    const { shift } = await after.store.tail();
    expect(await after.store.inputsAfter(shift)).toEqual(await before.store.inputsAfter(shift));
    await before.store.close();
    await after.store.close();
  });

  it('lets a record be closed and opened again, also when its end is packed', async () => {
    const sealed = sealedRecord(DAYS, 300);
    const { folder, store } = await kept(sealed);
    await packAll(store);
    const last = sealed.at(-1)?.entry;
    await store.saveCheckpoint({ shift: 1, seq: last?.seq ?? 0, hash: last?.hash ?? '', tick: 1, world: {} });
    await store.close();
    const again = openSqliteStore(folder);
    expect(again.cut).toBeNull();
    expect(await again.tail()).toMatchObject({ seq: sealed.length, hash: last?.hash });
    await again.append(sealAll([readingsAt(1)], { seq: sealed.length, hash: last?.hash ?? '' }));
    expect(await again.verify()).toMatchObject({ ok: true, entries: sealed.length + 1 });
    await again.close();
  });

  it('leaves readings alone that are not what their seal says, and says so', async () => {
    const { folder, store } = await kept(record);
    rawly(folder, (db) =>
      db
        .prepare(`UPDATE entries SET json = replace(json, '"hopperKg":', '"hopperKG":') WHERE seq = 1000`)
        .run(),
    );
    await store.packNext();
    await expect(store.packNext()).rejects.toThrow(
      /readings of entries \d+ to \d+ are not what the seal of the shift that began with entry 1 says/,
    );
    // The other shift goes on.
    expect(await packAll(store)).toBe(3);
    expect(await store.verify()).toMatchObject({ ok: false, seq: 1000 });
    await store.close();
  });
});

describe('a damaged chunk', () => {
  const damaged = async (damage: (db: Database.Database) => void): Promise<string> => {
    const { folder, store } = await kept(record);
    await packAll(store);
    await store.close();
    rawly(folder, damage);
    const verdict = verifyFolder(folder);
    expect(verdict.ok).toBe(false);
    return verdict.ok ? '' : `${verdict.seq}: ${verdict.why}`;
  };

  it('that no longer unpacks is named with its shift', async () => {
    const words = await damaged((db) =>
      db
        .prepare('UPDATE chunks SET bytes = zeroblob(500) WHERE first = (SELECT min(first) FROM chunks)')
        .run(),
    );
    expect(words).toMatch(
      /^2: the packed readings of entries 2 to \d+, in the shift that began with entry 1, are damaged/,
    );
  });

  it('that unpacks to other readings is named, also when its own digest was made to match', async () => {
    const other = await pack(
      sealAll([readingsAt(1), readingsAt(2)]).map(({ entry, text }) => ({
        seq: entry.seq,
        hash: entry.hash,
        json: text,
      })),
    );
    const words = await damaged((db) =>
      db
        .prepare('UPDATE chunks SET bytes = ?, method = ? WHERE first = (SELECT max(first) FROM chunks)')
        .run(other.bytes, other.method),
    );
    expect(words).toMatch(
      /in the shift that began with entry \d\d+, are damaged \(it holds 2 entries, 1 to 2, and should hold/,
    );
  });

  it('whose readings were changed and packed again is found by the digest and by the chain', async () => {
    const change = async (db: Database.Database, alsoDigest: boolean) => {
      const row = db.prepare('SELECT * FROM chunks ORDER BY first LIMIT 1').get() as {
        first: number;
        method: 'columns-br';
        bytes: Buffer;
      };
      const texts = unpack(row);
      const forged = texts.map((text, i) =>
        i === 4 ? { ...text, json: text.json.replace('"hopperKg":28', '"hopperKg":29') } : text,
      );
      expect(forged[4]?.json).not.toBe(texts[4]?.json);
      const { sha256 } = await import('../../server/digest.ts');
      const { chunkText } = await import('../../server/store/packed-readings.ts');
      const again = forged.map((text) => ({ ...text, hash: sha256(text.json) }));
      const { bytes, method } = await pack(again);
      db.prepare('UPDATE chunks SET bytes = ?, method = ? WHERE first = ?').run(bytes, method, row.first);
      if (alsoDigest)
        db.prepare('UPDATE chunks SET sha256 = ? WHERE first = ?').run(
          sha256(chunkText(unpack({ bytes, method }))),
          row.first,
        );
    };
    for (const alsoDigest of [false, true]) {
      const { folder, store } = await kept(record);
      await packAll(store);
      await store.close();
      const db = new Database(join(folder, 'record.sqlite'));
      await change(db, alsoDigest);
      db.close();
      const verdict = verifyFolder(folder);
      expect(verdict).toMatchObject({ ok: false });
      if (!verdict.ok)
        expect(verdict.why).toMatch(
          alsoDigest ? /does not name the entry before it/ : /its content does not match its digest/,
        );
    }
  });
});

describe('the packed form', () => {
  it('falls back on plain lines for readings of a form its columns do not hold', async () => {
    const text = (seq: number, wall: string): StoredText => {
      const [sealed] = sealAll([readingsAt(seq)], { seq: seq - 1, hash: 'ab'.repeat(32) });
      const json = (sealed?.text ?? '').replace(/"wall":"[^"]*"/, `"wall":"${wall}"`);
      return { seq, hash: '', json };
    };
    const { sha256 } = await import('../../server/digest.ts');
    const rows = [text(1, '2026-05-04T06:00:00Z'), text(2, '2026-05-04T06:00:00Z')].map((row) => ({
      ...row,
      hash: sha256(row.json),
    }));
    const packed = await pack(rows);
    expect(packed.method).toBe('lines-br');
    expect(unpack(packed)).toEqual(rows);
  });

  it('takes a fraction of the room of compressed lines', async () => {
    const rows = record
      .filter(({ entry }) => entry.kind === 'readings')
      .slice(0, 900)
      .map(({ entry, text }) => ({ seq: entry.seq, hash: entry.hash, json: text }));
    const packed = await pack(rows);
    expect(packed.method).toBe('columns-br');
    const plain = rows.reduce((sum, { json }) => sum + json.length, 0);
    // A hash of 32 bytes an entry could not be compressed at all: less than that shows it is not kept.
    expect(packed.bytes.length).toBeLessThan(rows.length * 16);
    expect(plain / packed.bytes.length).toBeGreaterThan(15);
  });
});
