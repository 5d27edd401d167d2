/** Makes the books of lab and yard and the trace tables again from the record, and says where they differ from what was there. */
import type Database from 'better-sqlite3';
import { heardEntryOf } from '../../machines/ledger/listen.ts';
import { BOOK_NAMES } from '../../machines/record/book.types.ts';
import { canonical } from '../../machines/record/canonical.ts';
import type { Entry } from '../../machines/record/entry.ts';
import { booksAsKept, hearAgain, markHeard, type OnHearingTrouble, saveBooks } from './books.ts';
import { type ArchivedUnheard, putHeard, unheardShifts } from './heard.ts';
import { DIFFERENCES_TOLD } from './rebuild.ts';
import { TRACE_TABLES } from './trace-tables.ts';

export type BooksRebuilt = {
  /** Entry up to which they were heard. */
  readonly seq: number;
  readonly edges: number;
  readonly differences: number;
  /** The first of them, in words. */
  readonly told: readonly string[];
  /** Archived shifts of which the books know nothing, as their file is not at hand. */
  readonly unheard: readonly number[];
};

/** By what people read, not by numbers of rows, which differ by the order nodes were first met in. */
const CONTENTS: { readonly [T in (typeof TRACE_TABLES)[number]]: (schema: string) => string } = {
  trace_nodes: (schema) => `SELECT kind, id FROM ${schema}trace_nodes`,
  trace_edges: (schema) =>
    `SELECT f.kind AS from_kind, f.id AS from_id, t.kind AS to_kind, t.id AS to_id, e.seq, e.material, e.grams
     FROM ${schema}trace_edges e JOIN ${schema}trace_nodes f ON f.node = e.from_node
     JOIN ${schema}trace_nodes t ON t.node = e.to_node`,
  trace_batches: (schema) => `SELECT * FROM ${schema}trace_batches`,
  trace_scales: (schema) => `SELECT * FROM ${schema}trace_scales`,
  trace_laid: (schema) => `SELECT * FROM ${schema}trace_laid`,
};

const onlyIn = (db: Database.Database, a: string, b: string, words: string, told: string[]): number => {
  const rows = db.prepare(`${a} EXCEPT ${b}`).all() as object[];
  for (const row of rows) if (told.length < DIFFERENCES_TOLD) told.push(`${words}: ${JSON.stringify(row)}`);
  return rows.length;
};

/** Trace tables of the same form beside the live ones. */
const makeBeside = (db: Database.Database): void => {
  for (const table of TRACE_TABLES) {
    const sql = db.prepare('SELECT sql FROM main.sqlite_schema WHERE type = ? AND name = ?').pluck();
    const text = sql.get('table', table) as string;
    db.exec(`DROP TABLE IF EXISTS temp.${table}`);
    db.exec(text.replace(/^CREATE TABLE "?\w+"?/, `CREATE TEMP TABLE ${table}`));
  }
};
const dropBeside = (db: Database.Database): void => {
  for (const table of TRACE_TABLES) db.exec(`DROP TABLE IF EXISTS temp.${table}`);
};

/** What an archive file holds is kept for the books, where a program without books archived the shift. */
const hearFiles = async (
  db: Database.Database,
  entriesOf: (shift: number) => Promise<readonly Entry[] | null>,
): Promise<number[]> => {
  const unheard: number[] = [];
  for (const { shift } of unheardShifts(db) as readonly ArchivedUnheard[]) {
    const entries = await entriesOf(shift);
    if (entries === null) unheard.push(shift);
    else
      putHeard(
        db,
        shift,
        entries.map(heardEntryOf).filter((one) => one !== null),
      );
  }
  return unheard;
};

const compareStates = (
  db: Database.Database,
  again: ReturnType<typeof hearAgain>,
  told: string[],
): number => {
  const kept = booksAsKept(db);
  let differences = 0;
  for (const book of BOOK_NAMES) {
    if (canonical(kept.ledger[book]) === canonical(again.ledger[book])) continue;
    differences += 1;
    told.push(`the book of ${book} is not what the record makes it`);
  }
  if (kept.seq !== again.seq) {
    differences += 1;
    told.push(`the books had got to entry ${kept.seq}, and the record goes to ${again.seq}`);
  }
  return differences;
};

/**
 * With `mend` what was made again takes the place of what was there. All in one transaction but the reading of archive
 * files; the record must be held alone meanwhile.
 */
export const rebuildBooks = async (
  db: Database.Database,
  mend: boolean,
  entriesOf: (shift: number) => Promise<readonly Entry[] | null> = async () => null,
  onTrouble: OnHearingTrouble = () => undefined,
): Promise<BooksRebuilt> => {
  const unheard = await hearFiles(db, entriesOf);
  const told: string[] = [];
  return db.transaction((): BooksRebuilt => {
    makeBeside(db);
    const again = hearAgain(db, 'temp.', onTrouble);
    let differences = compareStates(db, again, told);
    for (const table of TRACE_TABLES) {
      const [live, beside] = [CONTENTS[table]('main.'), CONTENTS[table]('temp.')];
      differences += onlyIn(db, beside, live, `missing in ${table}`, told);
      differences += onlyIn(db, live, beside, `wrong in ${table}`, told);
    }
    if (mend) {
      for (const table of TRACE_TABLES)
        db.exec(`DELETE FROM main.${table}; INSERT INTO main.${table} SELECT * FROM temp.${table}`);
      markHeard(db);
      saveBooks(db, again);
    }
    const edges = db.prepare('SELECT count(*) FROM temp.trace_edges').pluck().get() as number;
    dropBeside(db);
    return { seq: again.seq, edges, differences, told, unheard };
  })();
};
