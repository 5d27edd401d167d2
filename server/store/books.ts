/**
 * The books of lab and yard beside the record: heard in the transaction that appends, saved now and then, and made
 * again from the record when what was saved is of another version or does not fit.
 */
import type Database from 'better-sqlite3';
import type { HearingTrouble } from '../../machines/ledger/ledger.ts';
import {
  beginListening,
  heardEntryOf,
  LEDGER_VERSION,
  type Listening,
  listen,
} from '../../machines/ledger/listen.ts';
import type { Entry } from '../../machines/record/entry.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { heardOfRecord } from './heard.ts';
import { createTraceWriter, TRACE_TABLES } from './trace-tables.ts';

/** Heard since the last saving before they are saved again, beside at every seal and when the record is closed. */
const SAVE_EVERY = 20_000;
const SCENARIOS_KNOWN = 8;

export type Books = {
  /** As of the newest durable entry. */
  readonly now: () => Listening;
  /** Takes an entry in; call it inside the transaction that appends it. */
  readonly take: (entry: Entry) => void;
  /** After the transaction: what was taken stands. */
  readonly keep: () => void;
  /** After a transaction that failed: what was taken is as if it had never been. */
  readonly forget: () => void;
  readonly saveIfDue: () => void;
  /** Saves them when anything was heard since. */
  readonly save: () => void;
};

export type OnHearingTrouble = (trouble: HearingTrouble) => void;

type Saved = { readonly version: number; readonly seq: number; readonly hash: string; readonly json: string };

/** Scenarios by digest, the last few parsed. */
export const scenarioReader = (db: Database.Database): ((digest: string) => Scenario | null) => {
  const get = db.prepare('SELECT json FROM scenarios WHERE digest = ?').pluck();
  const known = new Map<string, Scenario>();
  return (digest) => {
    const here = known.get(digest);
    if (here !== undefined) return here;
    const json = get.get(digest) as string | undefined;
    if (json === undefined) return null;
    let scenario: Scenario;
    try {
      scenario = JSON.parse(json) as Scenario;
    } catch {
      // Altered on disk: the books go on without the files of that shift, as the line does.
      return null;
    }
    if (known.size >= SCENARIOS_KNOWN) known.clear();
    known.set(digest, scenario);
    return scenario;
  };
};

/** Hash of an entry, also of the last one of an archived shift. */
const hashAt = (db: Database.Database, seq: number): string | undefined =>
  db
    .prepare(
      `SELECT hash FROM entries WHERE seq = @seq UNION ALL SELECT last_hash FROM archived WHERE last = @seq`,
    )
    .pluck()
    .get({ seq }) as string | undefined;

/** What was saved, when it is of this program's books and fits the record; else null. */
export const loadSaved = (db: Database.Database): Listening | null => {
  const saved = db.prepare('SELECT version, seq, hash, json FROM books').get() as Saved | undefined;
  if (saved === undefined || saved.version !== LEDGER_VERSION) return null;
  if (hashAt(db, saved.seq) !== saved.hash) return null;
  try {
    return JSON.parse(saved.json) as Listening;
  } catch {
    return null;
  }
};

/** Hears everything after `from`. `onEach` is given what each entry came to. */
const hearOn = (
  db: Database.Database,
  from: Listening,
  onTrouble: OnHearingTrouble,
  onEach: (one: ReturnType<typeof listen>) => void = () => undefined,
): Listening => {
  const scenarioOf = scenarioReader(db);
  let listening = from;
  const onBad = (seq: number, why: string): void =>
    onTrouble({ book: null, seq, why: `the entry cannot be read: ${why}` });
  for (const heard of heardOfRecord(db, from.seq, onBad)) {
    const one = listen(listening, heard, scenarioOf, onTrouble);
    listening = one.listening;
    onEach(one);
  }
  return listening;
};

/** Makes books and trace tables again from the record, into tables of the same form before whose names `into` stands. */
export const hearAgain = (db: Database.Database, into: string, onTrouble: OnHearingTrouble): Listening => {
  const writer = createTraceWriter(db, into);
  return hearOn(db, beginListening(), onTrouble, ({ heard, edges, listening }) =>
    writer.write(heard, edges, listening.leader),
  );
};

/** As they stand from what was saved and what came after it; for a record of these books' version only. */
export const booksAsKept = (db: Database.Database): Listening => {
  const saved = loadSaved(db);
  return hearOn(db, saved ?? beginListening(), () => undefined);
};

/** Empties the trace tables and fills them again; all within one transaction. */
const rehear = (db: Database.Database, onTrouble: OnHearingTrouble): Listening =>
  db.transaction(() => {
    for (const table of TRACE_TABLES) db.exec(`DELETE FROM ${table}`);
    const listening = hearAgain(db, '', onTrouble);
    markHeard(db);
    return listening;
  })();

/** The version of the books that filled the trace tables. */
const heardVersion = (db: Database.Database): number =>
  (db.prepare(`SELECT version FROM versions WHERE of = 'ledger'`).pluck().get() as number | undefined) ?? 0;
export const markHeard = (db: Database.Database): void => {
  db.prepare(`INSERT OR REPLACE INTO versions (of, version) VALUES ('ledger', ?)`).run(LEDGER_VERSION);
};

export const saveBooks = (db: Database.Database, listening: Listening): void => {
  const hash = hashAt(db, listening.seq);
  if (hash === undefined) return;
  db.prepare('INSERT OR REPLACE INTO books (one, version, seq, hash, json) VALUES (1,?,?,?,?)').run(
    LEDGER_VERSION,
    listening.seq,
    hash,
    JSON.stringify(listening),
  );
};

export const createBooks = (db: Database.Database, onTrouble: OnHearingTrouble): Books => {
  const writer = createTraceWriter(db);
  const scenarioOf = scenarioReader(db);
  let kept: Listening | null = null;
  let taken: Listening | null = null;
  let unsaved = 0;
  let sealed = false;

  const load = (): Listening => {
    if (kept !== null) return kept;
    const readOnly = db.readonly;
    if (readOnly || heardVersion(db) === LEDGER_VERSION) {
      const saved = loadSaved(db);
      kept = hearOn(db, saved ?? beginListening(), onTrouble, () => {
        unsaved += 1;
      });
    } else {
      kept = rehear(db, onTrouble);
      unsaved = 1;
    }
    return kept;
  };

  const save = (): void => {
    if (kept === null || unsaved === 0 || kept.seq === 0 || db.readonly) return;
    saveBooks(db, kept);
    unsaved = 0;
    sealed = false;
  };

  return {
    now: load,
    take: (entry) => {
      taken ??= load();
      const heard = heardEntryOf(entry);
      if (entry.kind === 'seal') sealed = true;
      if (heard === null) return;
      const one = listen(taken, heard, scenarioOf, onTrouble);
      taken = one.listening;
      unsaved += 1;
      writer.write(one.heard, one.edges, taken.leader);
    },
    keep: () => {
      if (taken !== null) kept = taken;
      taken = null;
    },
    forget: () => {
      taken = null;
      writer.forget();
    },
    saveIfDue: () => {
      if (unsaved >= SAVE_EVERY || (sealed && unsaved > 0)) save();
    },
    save,
  };
};
