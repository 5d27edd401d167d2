/**
 * Makes a store of ten years quickly out of one real shift: its openings, commands, facts and seals are copied with
 * new days, lots and numbers, chained and hashed anew, and the index is copied with them.
 *
 * Simplified: the packed readings are the first shift's bytes, not re-dated, and the chain runs over the copied
 * entries only; so such a store has true sizes and a true index, and cannot be verified.
 */
import { closeSync, fsyncSync, openSync } from 'node:fs';
import Database from 'better-sqlite3';
import { sha256 } from '../../server/digest.ts';
import { versionOf } from '../../server/store/database.ts';
import { TABLE_STEPS, TABLES_VERSION } from '../../server/store/tables.ts';

const DAY_MS = 24 * 3600_000;

type EntryRow = {
  readonly seq: number;
  readonly kind: string;
  readonly at_ms: number;
  readonly fact: string | null;
  readonly lot: string | null;
  readonly batch: number | null;
  readonly hash: string;
  readonly json: string;
};
type ChunkRow = { first: number; last: number; count: number; sha256: string; method: string; bytes: Buffer };
type MentionRow = { kind: string; key: string; first: number; last: number; count: number };
type ShiftRow = {
  scenario: string;
  day: string;
  opened_wall: string;
  ended_wall: string;
  seal: number;
  root: string;
};

/** The end of an entry's canonical text: what is new in every copy stands between fixed pieces. */
const TAIL = /^(.*"prev":")[0-9a-f]{64}(","seq":)\d+(,"wall":")([^"]*)("\})$/s;

type Piece = EntryRow & {
  readonly head: string;
  readonly wallRest: string;
  /** The text names the day or a lot of it. */
  readonly dated: boolean;
};

const dayAfter = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00.000Z`) + days * DAY_MS).toISOString().slice(0, 10);

/** "2026-05-12" → "260512", as lots are named. */
const short = (day: string): string => day.slice(2).replaceAll('-', '');

export type Years = {
  readonly seconds: number;
  readonly shifts: number;
  readonly entries: number;
  /** Lots by name, the oldest first. */
  readonly lots: readonly string[];
};

/** `from`: a data file with one sealed and packed shift. `to`: the file to make. Five working days a week. */
export const makeYears = (from: string, to: string, shifts: number): Years => {
  const startedMs = performance.now();
  const source = new Database(from, { readonly: true });
  const target = new Database(to);
  for (const setting of [
    'journal_mode = OFF',
    'synchronous = OFF',
    'locking_mode = EXCLUSIVE',
    'cache_size = -200000',
  ])
    target.pragma(setting);
  for (const step of TABLE_STEPS) target.exec(step);
  target.pragma(`user_version = ${TABLES_VERSION}`);
  if (versionOf(source) !== TABLES_VERSION) throw new Error('the shift to copy is of another version');

  const shift = source.prepare('SELECT * FROM shifts').get() as ShiftRow;
  const length = source.prepare('SELECT max(seq) FROM entries').pluck().get() as number;
  const pieces = (source.prepare('SELECT * FROM entries ORDER BY seq').all() as EntryRow[]).map(
    (row): Piece => {
      const [, head = '', , , wall = ''] = TAIL.exec(row.json) ?? [];
      if (head === '') throw new Error(`entry ${row.seq} has no such form`);
      const dated = head.includes(shift.day) || head.includes(short(shift.day));
      return { ...row, head, wallRest: wall.slice(10), dated };
    },
  );
  const chunks = source.prepare('SELECT * FROM chunks ORDER BY first').all() as ChunkRow[];
  const mentions = source.prepare('SELECT kind, key, first, last, count FROM mentions').all() as MentionRow[];
  source.close();

  const putEntry = target.prepare(
    'INSERT INTO entries (seq, shift, kind, at_ms, fact, lot, batch, hash, json) VALUES (?,?,?,?,?,?,?,?,?)',
  );
  const putChunk = target.prepare('INSERT INTO chunks VALUES (?,?,?,?,?,?,?)');
  const putShift = target.prepare('INSERT INTO shifts VALUES (?,?,?,?,?,?,?)');
  const putMention = target.prepare('INSERT INTO mentions VALUES (?,?,?,?,?,?)');
  const putPacked = target.prepare('INSERT INTO packed VALUES (?)');
  const lots: string[] = [];
  let prev = '0'.repeat(64);
  const one = (i: number): void => {
    const offset = i * length;
    const day = dayAfter(shift.day, Math.floor(i / 5) * 7 + (i % 5));
    const [oldLot, newLot] = [short(shift.day), short(day)];
    const again = (text: string): string => text.replaceAll(shift.day, day).replaceAll(oldLot, newLot);
    for (const piece of pieces) {
      const { dated, head, wallRest, lot, batch, kind, fact, at_ms } = piece;
      const seq = piece.seq + offset;
      const text = `${dated ? again(head) : head}${prev}","seq":${seq},"wall":"${day}${wallRest}"}`;
      const hash = sha256(text);
      putEntry.run(seq, 1 + offset, kind, at_ms, fact, lot === null ? null : again(lot), batch, hash, text);
      prev = hash;
    }
    for (const { first, last, count, sha256: digest, method, bytes } of chunks)
      putChunk.run(first + offset, last + offset, 1 + offset, count, digest, method, bytes);
    for (const { kind, key, first, last, count } of mentions) {
      const name = kind === 'lot' ? again(key) : key;
      if (kind === 'lot') lots.push(name);
      putMention.run(kind, name, 1 + offset, first + offset, last + offset, count);
    }
    const wall = (of: string) => day + of.slice(10);
    putShift.run(
      1 + offset,
      shift.scenario,
      day,
      wall(shift.opened_wall),
      wall(shift.ended_wall),
      shift.seal + offset,
      shift.root,
    );
    putPacked.run(1 + offset);
  };
  for (let i = 0; i < shifts; i += 50)
    target.transaction(() => {
      for (let k = i; k < Math.min(shifts, i + 50); k++) one(k);
    })();
  target.prepare(`INSERT INTO versions VALUES ('projections', 1)`).run();
  target.pragma('journal_mode = WAL');
  target.close();
  // Written out before it is asked: gigabytes on their way to the disk would be in the way of every reading.
  const handle = openSync(to, 'r');
  fsyncSync(handle);
  closeSync(handle);
  return { seconds: (performance.now() - startedMs) / 1000, shifts, entries: shifts * length, lots };
};
