/** Tables of the embedded record, and what is lifted out of an entry so that queries need not scan. */
import type { Entry } from '../../machines/record/entry.ts';

/** Raised when the tables change; a step for every number stands in `migrate`. */
export const TABLES_VERSION = 1;

export const TABLES = `
  CREATE TABLE entries (
    seq   INTEGER PRIMARY KEY,
    shift INTEGER NOT NULL,          -- seq of the opening entry of its shift
    kind  TEXT NOT NULL,
    at_ms INTEGER NOT NULL,
    fact  TEXT,                      -- name of the fact
    lot   TEXT,
    batch INTEGER,
    hash  TEXT NOT NULL,
    json  TEXT NOT NULL              -- the canonical text the hash was taken over
  ) STRICT;
  -- Readings are nine entries of ten and are only ever read by seq: they stay out of the indexes.
  CREATE INDEX entries_by_kind ON entries (kind, seq) WHERE kind <> 'readings';
  CREATE INDEX entries_by_fact ON entries (fact, seq) WHERE fact IS NOT NULL;
  CREATE INDEX entries_by_lot  ON entries (lot, seq)  WHERE lot IS NOT NULL;
  CREATE INDEX entries_by_batch ON entries (shift, batch, seq) WHERE batch IS NOT NULL;
  CREATE TABLE answers (
    id      TEXT PRIMARY KEY,
    seq     INTEGER NOT NULL,
    command TEXT NOT NULL,
    because TEXT                     -- JSON list of reasons, NULL when it was done
  ) STRICT, WITHOUT ROWID;
  CREATE TABLE checkpoints (
    seq   INTEGER PRIMARY KEY,
    shift INTEGER NOT NULL,
    hash  TEXT NOT NULL,
    tick  INTEGER NOT NULL,
    world TEXT NOT NULL
  ) STRICT;
  CREATE TABLE scenarios (digest TEXT PRIMARY KEY, json TEXT NOT NULL) STRICT;
  -- Rows that did not belong to the chain, kept for whoever wants to look.
  CREATE TABLE cut (seq INTEGER NOT NULL, kind TEXT, hash TEXT, json TEXT) STRICT;
`;

/** Columns of an entry beside its text. */
export const columnsOf = (
  entry: Entry,
): { fact: string | null; lot: string | null; batch: number | null } => {
  if (entry.kind !== 'fact') return { fact: null, lot: null, batch: null };
  const fact: { is: string; lot?: unknown; batch?: unknown } = entry.body.fact;
  return {
    fact: fact.is,
    lot: typeof fact.lot === 'string' ? fact.lot : null,
    batch: typeof fact.batch === 'number' ? fact.batch : null,
  };
};

export type Row = { readonly seq: number; readonly hash: string; readonly json: string };

/** Reads a row back. Throws when its text is not JSON. */
export const entryOf = (row: Row): Entry => ({ ...JSON.parse(row.json), hash: row.hash }) as Entry;
