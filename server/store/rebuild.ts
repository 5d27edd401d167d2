/** Makes the projections again from the entries, and says where they differ from what was there. */
import type Database from 'better-sqlite3';
import type { Entry } from '../../machines/record/entry.ts';
import { answerOf } from './answers.ts';
import { createProjector, type Into, LIVE, setProjectionsVersion } from './projections.ts';
import { columnsOf, entryOf, type Row } from './tables.ts';

const PAGE = 2000;
/** Differences told by name; one cause makes thousands. */
export const DIFFERENCES_TOLD = 20;

/** Entries of an archived shift behind its opening, readings left out; null when its file is not at hand. */
export type ArchivedEntries = readonly Entry[] | null;

type Kept = Row & {
  readonly shift: number;
  readonly kind: string;
  readonly atMs: number;
  readonly fact: string | null;
  readonly lot: string | null;
  readonly batch: number | null;
};

/** All entries that are no readings, in order, page by page; `+kind` keeps SQLite on the order of seq. */
function* decisionsOf(db: Database.Database): Generator<Kept> {
  const page = db.prepare(
    `SELECT seq, hash, json, shift, kind, at_ms AS atMs, fact, lot, batch FROM entries WHERE seq > ? AND +kind <> 'readings' ORDER BY seq LIMIT ${PAGE}`,
  );
  let from = 0;
  for (;;) {
    const rows = page.all(from) as Kept[];
    yield* rows;
    const last = rows.at(-1);
    if (last === undefined || rows.length < PAGE) return;
    from = last.seq;
  }
}

type Filled = { readonly entries: number; readonly takenOver: readonly number[] };
type Tables = Into & { readonly answers: string };

const archivedShifts = (db: Database.Database): number[] =>
  db.prepare('SELECT shift FROM archived ORDER BY shift').pluck().all() as number[];

/**
 * Fills tables from the record. Yields each archived shift and is given its entries: a file may have to be waited
 * for. Where it is not at hand, what the index says of the shift is taken over as it is; those are returned.
 */
function* fill(db: Database.Database, into: Tables): Generator<number, Filled, ArchivedEntries> {
  const projector = createProjector(db, into);
  const putAnswer = db.prepare(
    `INSERT OR IGNORE INTO ${into.answers} (id, seq, command, because) VALUES (?,?,?,?)`,
  );
  const archived = new Set(archivedShifts(db));
  const takenOver = new Set<number>();
  let entries = 0;
  const put = (entry: Entry, shift: number): void => {
    entries += 1;
    projector.take(entry, shift);
    const answer = answerOf(entry);
    if (answer !== null) putAnswer.run(answer.id, entry.seq, answer.command, answer.because);
  };
  let shift = 0;
  for (const row of decisionsOf(db)) {
    const opens = row.kind === 'opening';
    if (opens) {
      projector.write();
      shift = row.seq;
    }
    const away = opens && archived.has(shift) ? yield shift : [];
    if (away === null) {
      takenOver.add(shift);
      takeOver(db, into, shift);
    }
    if (takenOver.has(shift)) continue;
    put(entryOf(row), shift);
    for (const entry of away ?? []) put(entry, shift);
  }
  projector.write();
  if (takenOver.size > 0) takeOverSeals(db, into);
  return { entries, takenOver: [...takenOver] };
}

/** Seals that lie in an archived shift whose file is not at hand are about other shifts: their copies tell. */
const takeOverSeals = (db: Database.Database, into: Tables): void => {
  const setSeal = db.prepare(`UPDATE ${into.shifts} SET seal = ?, root = ? WHERE shift = ?`);
  const rows = db.prepare(`SELECT seq, hash, json FROM main.kept WHERE kind = 'seal'`).all() as Row[];
  for (const row of rows) {
    const entry = entryOf(row);
    if (entry.kind === 'seal') setSeal.run(entry.seq, entry.body.root, entry.body.shift);
  }
};

/** What the live index says of one shift, as it is. */
const takeOver = (db: Database.Database, into: Tables, shift: number): void => {
  if (into.shifts === LIVE.shifts) throw new Error('a live index cannot be taken over into itself');
  db.prepare(`INSERT INTO ${into.shifts} SELECT * FROM main.shifts WHERE shift = ?`).run(shift);
  db.prepare(`INSERT INTO ${into.mentions} SELECT * FROM main.mentions WHERE shift = ?`).run(shift);
  const next = db.prepare('SELECT min(shift) FROM main.shifts WHERE shift > ?').pluck().get(shift) as
    | number
    | null;
  db.prepare(
    `INSERT OR IGNORE INTO ${into.answers} SELECT * FROM main.answers WHERE seq >= ? AND seq < ?`,
  ).run(shift, next ?? Number.MAX_SAFE_INTEGER);
};

const AGAIN: Tables = {
  shifts: 'temp.shifts_again',
  mentions: 'temp.mentions_again',
  answers: 'temp.answers_again',
};
/** Names behind `temp.`, in the order of the live tables. */
const PAIRS = [
  ['shifts', 'shifts_again'],
  ['mentions', 'mentions_again'],
  ['answers', 'answers_again'],
] as const;

const makeAgainTables = (db: Database.Database): void => {
  dropAgainTables(db);
  db.exec(`
    CREATE TEMP TABLE shifts_again (shift INTEGER PRIMARY KEY, scenario TEXT, day TEXT, opened_wall TEXT,
      ended_wall TEXT, seal INTEGER, root TEXT);
    CREATE TEMP TABLE mentions_again (kind TEXT, key TEXT, shift INTEGER, first INTEGER, last INTEGER,
      count INTEGER, PRIMARY KEY (kind, key, shift)) WITHOUT ROWID;
    CREATE TEMP TABLE answers_again (id TEXT PRIMARY KEY, seq INTEGER, command TEXT, because TEXT) WITHOUT ROWID;
  `);
};

const dropAgainTables = (db: Database.Database): void => {
  for (const [, again] of PAIRS) db.exec(`DROP TABLE IF EXISTS temp.${again}`);
};

export type Rebuilt = {
  /** Entries it was made from, readings left out. */
  readonly entries: number;
  readonly shifts: number;
  readonly mentions: number;
  readonly answers: number;
  readonly differences: number;
  /** The first of them, in words. */
  readonly told: readonly string[];
  /** Archived shifts whose file was not at hand: their part of the index was taken as it is. */
  readonly takenOver: readonly number[];
};

const countOf = (db: Database.Database, table: string): number =>
  db.prepare(`SELECT count(*) FROM ${table}`).pluck().get() as number;

/** Rows of one table that the other has not, in words. */
const onlyIn = (db: Database.Database, a: string, b: string, words: string, told: string[]): number => {
  const rows = db.prepare(`SELECT * FROM ${a} EXCEPT SELECT * FROM ${b}`).all() as object[];
  for (const row of rows) if (told.length < DIFFERENCES_TOLD) told.push(`${words}: ${JSON.stringify(row)}`);
  return rows.length;
};

/** Columns lifted out of entries, held against their texts; `mend` puts them right. */
const compareColumns = (db: Database.Database, mend: boolean, told: string[]): number => {
  const put = db.prepare(
    'UPDATE entries SET shift = ?, kind = ?, at_ms = ?, fact = ?, lot = ?, batch = ? WHERE seq = ?',
  );
  let bad = 0;
  let shift = 0;
  for (const row of decisionsOf(db)) {
    const entry = entryOf(row);
    if (entry.kind === 'opening') shift = entry.seq;
    const want = columnsOf(entry);
    const same =
      row.shift === shift &&
      row.kind === entry.kind &&
      row.atMs === entry.atMs &&
      row.fact === want.fact &&
      row.lot === want.lot &&
      row.batch === want.batch;
    if (same) continue;
    bad += 1;
    if (told.length < DIFFERENCES_TOLD) told.push(`columns of entry ${row.seq} do not agree with its text`);
    if (mend) put.run(shift, entry.kind, entry.atMs, want.fact, want.lot, want.batch, row.seq);
  }
  return bad;
};

function* rebuilding(db: Database.Database, mend: boolean): Generator<number, Rebuilt, ArchivedEntries> {
  const told: string[] = [];
  makeAgainTables(db);
  const { entries, takenOver } = yield* fill(db, AGAIN);
  let differences = 0;
  for (const [live, again] of PAIRS) {
    differences += onlyIn(db, `temp.${again}`, `main.${live}`, `missing in ${live}`, told);
    differences += onlyIn(db, `main.${live}`, `temp.${again}`, `wrong in ${live}`, told);
  }
  const wrongColumns = compareColumns(db, mend, told);
  if (mend) {
    for (const [live, again] of PAIRS)
      db.exec(`DELETE FROM main.${live}; INSERT INTO main.${live} SELECT * FROM temp.${again}`);
    setProjectionsVersion(db);
  }
  const shifts = countOf(db, 'temp.shifts_again');
  const mentions = countOf(db, 'temp.mentions_again');
  const answers = countOf(db, 'temp.answers_again');
  dropAgainTables(db);
  differences += wrongColumns;
  return { entries, shifts, mentions, answers, differences, told, takenOver };
}

/**
 * Makes every projection again beside the live one and compares row by row; with `mend` the new ones take their
 * place. All in one transaction. `entriesOf` reads archive files; the record must be held alone meanwhile.
 */
export const rebuild = async (
  db: Database.Database,
  mend: boolean,
  entriesOf: (shift: number) => Promise<ArchivedEntries> = async () => null,
): Promise<Rebuilt> => {
  db.exec('BEGIN IMMEDIATE');
  try {
    const steps = rebuilding(db, mend);
    let step = steps.next();
    while (step.done !== true) step = steps.next(await entriesOf(step.value));
    db.exec('COMMIT');
    return step.value;
  } catch (error) {
    if (db.inTransaction) db.exec('ROLLBACK');
    throw error;
  }
};

/** For a record whose index is of another version, or none: made again when it is opened, archive files left alone. */
export const rebuildInPlace = (db: Database.Database): void => {
  db.transaction(() => {
    const steps = rebuilding(db, true);
    let step = steps.next();
    while (step.done !== true) step = steps.next(null);
  })();
};
