/** Tables of the embedded record, and what is lifted out of an entry so that queries need not scan. */
import type { Entry } from '../../machines/record/entry.ts';
import type { StoredText } from './store.ts';

/** Raised when the tables change; a step for every number stands in `migrate`. */
export const TABLES_VERSION = 4;

/** As they were in version 1; what came later stands below, so that an old record takes the same steps. */
const TABLES_1 = `
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

const TABLES_2 = `
  -- Readings of sealed shifts, out of table entries: packed-readings.ts. Digests are those the seal names.
  CREATE TABLE chunks (
    first  INTEGER PRIMARY KEY,
    last   INTEGER NOT NULL,
    shift  INTEGER NOT NULL,
    count  INTEGER NOT NULL,
    sha256 TEXT NOT NULL,
    method TEXT NOT NULL,
    bytes  BLOB NOT NULL
  ) STRICT;
  CREATE UNIQUE INDEX chunks_by_last ON chunks (last);
  -- Shifts whose readings have all been packed.
  CREATE TABLE packed (shift INTEGER PRIMARY KEY) STRICT;
  -- Shifts whose entries lie in an export file: what stands behind the opening, up to the entry before the seal.
  CREATE TABLE archived (
    shift      INTEGER PRIMARY KEY,
    last       INTEGER NOT NULL,
    first_hash TEXT NOT NULL,        -- of the opening, which stays here
    last_hash  TEXT NOT NULL,
    last_at_ms INTEGER NOT NULL,
    file       TEXT NOT NULL,
    bytes      INTEGER NOT NULL,
    sha256     TEXT NOT NULL,        -- of the file
    wall       TEXT NOT NULL
  ) STRICT;
  -- Projections: made from entries as they are appended, and from nothing else (projections.ts).
  CREATE TABLE shifts (
    shift       INTEGER PRIMARY KEY,
    scenario    TEXT NOT NULL,
    day         TEXT NOT NULL,
    opened_wall TEXT NOT NULL,
    ended_wall  TEXT,
    seal        INTEGER,
    root        TEXT
  ) STRICT;
  CREATE INDEX shifts_by_day ON shifts (day, shift);
  CREATE TABLE mentions (
    kind  TEXT NOT NULL,
    key   TEXT NOT NULL,
    shift INTEGER NOT NULL,
    first INTEGER NOT NULL,
    last  INTEGER NOT NULL,
    count INTEGER NOT NULL,
    PRIMARY KEY (kind, key, shift)
  ) STRICT, WITHOUT ROWID;
  CREATE INDEX mentions_by_shift ON mentions (shift, kind);
  CREATE TABLE versions (of TEXT PRIMARY KEY, version INTEGER NOT NULL) STRICT;
`;

const TABLES_3 = `
  -- Seals, countersignatures, changes of key and lost keys that lie within an archived shift: they are about
  -- other shifts or all of them, so a copy stays (archived.ts).
  CREATE TABLE kept (
    seq   INTEGER PRIMARY KEY,
    shift INTEGER NOT NULL,          -- the archived shift it lies in
    kind  TEXT NOT NULL,
    hash  TEXT NOT NULL,
    json  TEXT NOT NULL
  ) STRICT;
`;

const TABLES_4 = `
  -- Where the books of lab and yard stand after an entry, so that a start need not hear ten years again (books.ts).
  CREATE TABLE books (
    one     INTEGER PRIMARY KEY CHECK (one = 1),
    version INTEGER NOT NULL,
    seq     INTEGER NOT NULL,
    hash    TEXT NOT NULL,           -- of that entry
    json    TEXT NOT NULL
  ) STRICT;
  -- What the books heard of a shift whose entries lie in an archive file: NDJSON under brotli.
  CREATE TABLE heard (shift INTEGER PRIMARY KEY, bytes BLOB NOT NULL) STRICT;
  -- Projections of the ledger: where mass went, whole grams, both ways (trace-tables.ts).
  CREATE TABLE trace_nodes (node INTEGER PRIMARY KEY, kind TEXT NOT NULL, id TEXT NOT NULL, UNIQUE (kind, id)) STRICT;
  CREATE TABLE trace_edges (
    from_node INTEGER NOT NULL,
    seq       INTEGER NOT NULL,
    to_node   INTEGER NOT NULL,
    material  TEXT NOT NULL,         -- '' when it is mixed
    grams     INTEGER NOT NULL,
    PRIMARY KEY (from_node, seq, to_node, material)
  ) STRICT, WITHOUT ROWID;
  CREATE INDEX trace_back ON trace_edges (to_node, seq, from_node, material, grams);
  CREATE TABLE trace_batches (
    shift       INTEGER NOT NULL,
    batch       INTEGER NOT NULL,
    lot         TEXT NOT NULL,
    mix         TEXT NOT NULL,
    mix_version INTEGER NOT NULL,
    person      TEXT NOT NULL,
    seq         INTEGER NOT NULL,    -- where it was started
    at          TEXT NOT NULL,       -- and when, by the plant's clock
    ended_seq   INTEGER,
    ended_at    TEXT,
    bay         INTEGER,             -- NULL: dumped, or not out of the pug mill yet
    grams       INTEGER,
    PRIMARY KEY (shift, batch)
  ) STRICT, WITHOUT ROWID;
  CREATE INDEX trace_batches_by_lot ON trace_batches (lot, batch);
  CREATE INDEX trace_batches_by_person ON trace_batches (person, at);
  CREATE INDEX trace_batches_by_time ON trace_batches (at);
  CREATE TABLE trace_scales (
    seq    INTEGER PRIMARY KEY,
    shift  INTEGER NOT NULL,
    scale  TEXT NOT NULL,
    what   TEXT NOT NULL,
    person TEXT NOT NULL,
    at     TEXT NOT NULL
  ) STRICT;
  CREATE INDEX trace_scales_by_scale ON trace_scales (scale, at);
  CREATE TABLE trace_laid (
    load     TEXT NOT NULL,
    n        INTEGER NOT NULL,
    seq      INTEGER NOT NULL,
    patch    TEXT NOT NULL,
    place    TEXT NOT NULL,
    grams    INTEGER NOT NULL,
    layers   TEXT NOT NULL,          -- mm, from the bottom up: '45 45'
    person   TEXT NOT NULL,
    at       TEXT NOT NULL,
    reversed INTEGER,                -- entry that took it back
    PRIMARY KEY (load, n)
  ) STRICT, WITHOUT ROWID;
  CREATE INDEX trace_laid_by_patch ON trace_laid (patch, seq);
`;

/** What makes tables of version n out of those of n - 1. */
export const TABLE_STEPS: readonly string[] = [TABLES_1, TABLES_2, TABLES_3, TABLES_4];

/** Columns of an entry beside its text. */
export const columnsOf = (
  entry: Entry,
): { fact: string | null; lot: string | null; batch: number | null } => {
  if (entry.kind === 'ledger') {
    const { book, fact } = entry.body;
    return { fact: `${book}: ${fact.is}`, lot: typeof fact.lot === 'string' ? fact.lot : null, batch: null };
  }
  if (entry.kind !== 'fact') return { fact: null, lot: null, batch: null };
  const fact: { is: string; lot?: unknown; batch?: unknown } = entry.body.fact;
  return {
    fact: fact.is,
    lot: typeof fact.lot === 'string' ? fact.lot : null,
    batch: typeof fact.batch === 'number' ? fact.batch : null,
  };
};

export type Row = StoredText;

/** Reads a row back. Throws when its text is not JSON. */
export const entryOf = (row: Row): Entry => ({ ...JSON.parse(row.json), hash: row.hash }) as Entry;
