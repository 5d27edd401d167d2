/** The index of the record: tables filled from entries in the same transaction that appends them, and rebuilt from them. */
import type Database from 'better-sqlite3';
import type { Entry } from '../../machines/record/entry.ts';
import { namedBy, PROJECTIONS_VERSION } from './mentions.ts';

const PUT_MENTION = (table: string) => `
  INSERT INTO ${table} (kind, key, shift, first, last, count) VALUES (?,?,?,?,?,?)
  ON CONFLICT (kind, key, shift) DO UPDATE
  SET first = min(first, excluded.first), last = max(last, excluded.last), count = count + excluded.count`;

/** Tables of another name but the same form, to compare with. */
export type Into = { readonly shifts: string; readonly mentions: string };
export const LIVE: Into = { shifts: 'shifts', mentions: 'mentions' };

/** Takes entries in order and writes what they mean for the index; call `write` inside the transaction. */
export const createProjector = (db: Database.Database, into: Into = LIVE) => {
  const putMention = db.prepare(PUT_MENTION(into.mentions));
  const putShift = db.prepare(
    `INSERT OR REPLACE INTO ${into.shifts} (shift, scenario, day, opened_wall) VALUES (?,?,?,?)`,
  );
  const setDay = db.prepare(`UPDATE ${into.shifts} SET day = ? WHERE shift = ?`);
  const setEnded = db.prepare(`UPDATE ${into.shifts} SET ended_wall = ? WHERE shift = ?`);
  const setSeal = db.prepare(`UPDATE ${into.shifts} SET seal = ?, root = ? WHERE shift = ?`);
  /** Gathered over one transaction, so that a batch of facts costs one write a name. */
  const gathered = new Map<string, { first: number; last: number; count: number }>();

  const take = (entry: Entry, shift: number): void => {
    if (entry.kind === 'readings' || entry.kind === 'note') return;
    for (const [kind, key] of namedBy(entry)) {
      const name = `${kind}\n${key}\n${shift}`;
      const known = gathered.get(name);
      if (known === undefined) gathered.set(name, { first: entry.seq, last: entry.seq, count: 1 });
      else {
        known.last = entry.seq;
        known.count += 1;
      }
    }
    if (entry.kind === 'opening')
      putShift.run(entry.seq, entry.body.scenario, entry.wall.slice(0, 10), entry.wall);
    else if (entry.kind === 'seal') setSeal.run(entry.seq, entry.body.root, entry.body.shift);
    else if (entry.kind === 'fact') {
      const { fact } = entry.body;
      if (fact.is === 'shiftOpened') setDay.run(fact.date, shift);
      if (fact.is === 'shiftEnded') setEnded.run(entry.wall, shift);
    }
  };

  const write = (): void => {
    for (const [name, { first, last, count }] of gathered) {
      const [kind, key, shift] = name.split('\n');
      putMention.run(kind, key, Number(shift), first, last, count);
    }
    gathered.clear();
  };

  /** After a transaction that failed: what it gathered must not go into the next. */
  const forget = (): void => gathered.clear();

  return { take, write, forget };
};

export const projectionsVersion = (db: Database.Database): number =>
  (db.prepare(`SELECT version FROM versions WHERE of = 'projections'`).pluck().get() as number | undefined) ??
  0;

export const setProjectionsVersion = (db: Database.Database): void => {
  db.prepare(`INSERT OR REPLACE INTO versions (of, version) VALUES ('projections', ?)`).run(
    PROJECTIONS_VERSION,
  );
};
