/** How fast entries become durable: our store beside the same rows put into bare better-sqlite3. */
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { CHAIN_START, type ChainEnd, type Sealed, sealEntry } from '../../machines/record/chain.ts';
import type { EntryContent } from '../../machines/record/entry.ts';
import { sha256 } from '../../server/digest.ts';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import { benchFolder, type Figure } from './measure.ts';

const WALL = '2026-01-01T00:00:00.000Z';

/** A second of readings as a busy line writes it: ten rows, three instruments moving. */
const readingsAt = (second: number): EntryContent => ({
  kind: 'readings',
  body: {
    from: second * 10 + 1,
    to: second * 10 + 10,
    rows: Array.from({ length: 10 }, (_, i) => [
      second * 10 + i + 1,
      { hopperKg: (second * 7 + i) % 1000, mixerMotorA: 40 + ((second + i) % 20) / 2, drumAggregateC: 120.5 },
    ]),
  },
});

function sealedEntries(count: number): Sealed[] {
  let end: ChainEnd = CHAIN_START;
  return Array.from({ length: count }, (_, i) => {
    const sealed = sealEntry(end, readingsAt(i), i * 1000, WALL, sha256);
    end = { seq: sealed.entry.seq, hash: sealed.entry.hash };
    return sealed;
  });
}

async function inFolder<T>(work: (folder: string) => Promise<T> | T): Promise<T> {
  const folder = mkdtempSync(join(benchFolder(), 'appends-'));
  try {
    return await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const groups = (entries: readonly Sealed[], size: number): Sealed[][] =>
  Array.from({ length: Math.ceil(entries.length / size) }, (_, i) => entries.slice(i * size, (i + 1) * size));

const ourSeconds = (entries: readonly Sealed[], size: number) =>
  inFolder(async (folder) => {
    const store = openSqliteStore(folder);
    const startedMs = performance.now();
    for (const group of groups(entries, size)) await store.append(group);
    const seconds = (performance.now() - startedMs) / 1000;
    await store.close();
    return seconds;
  });

/** The floor: one table, no index, no chain, the same texts and the same durability. */
const bareSeconds = (entries: readonly Sealed[], size: number) =>
  inFolder((folder) => {
    const db = new Database(join(folder, 'bare.sqlite'));
    db.pragma('journal_mode = WAL');
    db.pragma('synchronous = FULL');
    db.exec('CREATE TABLE entries (seq INTEGER PRIMARY KEY, json TEXT NOT NULL) STRICT');
    const insert = db.prepare('INSERT INTO entries VALUES (?, ?)');
    const startedMs = performance.now();
    for (const group of groups(entries, size))
      db.transaction(() => {
        for (const { entry, text } of group) insert.run(entry.seq, text);
      })();
    const seconds = (performance.now() - startedMs) / 1000;
    db.close();
    return seconds;
  });

/** Each try times itself, without the opening and the clearing away. */
async function best(seconds: () => Promise<number>): Promise<number> {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 3; i++) least = Math.min(least, await seconds());
  return least;
}

export async function benchAppends(): Promise<Figure[]> {
  const count = 20_000;
  const startedMs = performance.now();
  const entries = sealedEntries(count);
  const sealSeconds = (performance.now() - startedMs) / 1000;
  const figures: Figure[] = [
    {
      id: 'appends.seal',
      what: 'entries sealed (canonical text, SHA-256)',
      value: count / sealSeconds,
      unit: 'entries/s',
    },
  ];
  for (const size of [1, 10, 100]) {
    const some = entries.slice(0, size === 1 ? 2000 : count);
    const rate = (seconds: number): number => some.length / seconds;
    figures.push(
      {
        id: `appends.ours.${size}`,
        what: `appends, ours, ${size} a commit`,
        value: rate(await best(() => ourSeconds(some, size))),
        unit: 'entries/s',
      },
      {
        id: `appends.bare.${size}`,
        what: `appends, bare better-sqlite3, ${size} a commit`,
        value: rate(await best(() => bareSeconds(some, size))),
        unit: 'entries/s',
      },
    );
  }
  return figures;
}
