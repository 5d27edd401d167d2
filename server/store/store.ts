/**
 * What the server asks of whatever keeps the record. Every method is asynchronous, so that a
 * server database can stand behind it as well as the embedded one.
 */

import type { Listening } from '../../machines/ledger/listen.ts';
import type { Answer } from '../../machines/live/protocol.ts';
import type { ChainEnd, Sealed, Verdict } from '../../machines/record/chain.ts';
import type { Entry } from '../../machines/record/entry.ts';
import type { Edge, NodeKind, NodeRef } from '../../machines/yard/trace/edges.ts';
import type { BatchQuery, BatchRow, LaidPatch, LaidRow, ScaleRow } from './trace-tables.ts';

/** Newest entry, with the seq of the opening entry its shift began with (0: nothing recorded). */
export type Tail = ChainEnd & { readonly atMs: number; readonly shift: number };

/** A saved world: what the line was after `tick`, with every entry up to `seq` in the record. */
export type Checkpoint = {
  readonly shift: number;
  readonly seq: number;
  readonly hash: string;
  readonly tick: number;
  readonly world: unknown;
};

export type RecordQuery = {
  /** Entries with a higher seq. */
  readonly after: number;
  readonly limit: number;
  readonly kind?: Entry['kind'];
  /** Only facts with this name. */
  readonly fact?: string;
  readonly lot?: string;
};

/** An entry as it is kept: the canonical text its hash was taken over, and that hash. */
export type StoredText = { readonly seq: number; readonly hash: string; readonly json: string };

/** What can be looked up without reading the record. Batches are numbered anew in every shift; a day is YYYY-MM-DD. */
export type IndexKind = 'lot' | 'batch' | 'person' | 'material' | 'mix';

/** One shift as the index knows it, archived ones too. */
export type ShiftSummary = {
  /** seq of its opening entry: the name of the shift in the record. */
  readonly shift: number;
  /** id of the shift file, and the plant's day it was run for (YYYY-MM-DD). */
  readonly scenario: string;
  readonly day: string;
  readonly openedWall: string;
  /** Null while it runs, and for a shift that was left without an end. */
  readonly endedWall: string | null;
  /** Newest entry that belongs to it (a seal, countersignatures and later notes included). */
  readonly last: number;
  readonly lots: number;
  readonly batches: number;
  /** seq of its seal and the seal's root; null when it is not sealed. */
  readonly seal: number | null;
  readonly root: string | null;
  /** Export file its entries were moved to; null while they are here. */
  readonly archivedIn: string | null;
};

/** Conditions that hold together for a shift; each one may be left out. */
export type FindQuery = {
  readonly lot?: string;
  readonly batch?: number;
  readonly person?: string;
  readonly material?: string;
  readonly mix?: string;
  /** First and last day, both included (YYYY-MM-DD). */
  readonly fromDay?: string;
  readonly toDay?: string;
  /** Shifts at most, the newest first (1000). */
  readonly limit?: number;
};

/** Where something is mentioned in one shift: first and last entry that name it, and how many do. */
export type Mention = {
  readonly kind: IndexKind;
  readonly key: string;
  readonly shift: number;
  readonly first: number;
  readonly last: number;
  readonly count: number;
};

export type Found = {
  readonly shift: ShiftSummary;
  /** One for each condition on a lot, batch, person, material or mix. */
  readonly mentions: readonly Mention[];
};

export type KnownAnswer = { readonly command: string; readonly answer: Answer };

/** How large the record is and how far its shifts have been put away. */
export type Keeping = {
  /** Bytes of the record's files on disk. */
  readonly bytes: number;
  readonly entries: number;
  readonly shifts: number;
  readonly sealed: number;
  readonly packed: number;
  readonly archived: number;
  /** Bytes inside the record file that are free for new entries. */
  readonly freeBytes: number;
};

/** Questions to the tables mass is traced in; none of them reads the record. */
export interface Traces {
  has(node: NodeRef): Promise<boolean>;
  /** Every edge flowForward needs for these origins, all of one kind. Throws PlainError when there are too many. */
  below(origins: readonly NodeRef[]): Promise<readonly Edge[]>;
  /** Every edge madeOf needs for this node. */
  above(target: NodeRef, level: NodeKind): Promise<readonly Edge[]>;
  /** In the order they were made. */
  edgesFrom(node: NodeRef): Promise<readonly Edge[]>;
  edgesTo(node: NodeRef): Promise<readonly Edge[]>;
  /** Nodes of a kind whose id contains a text, the newest first. */
  named(kind: NodeKind, text: string, limit: number): Promise<readonly NodeRef[]>;
  batchOf(lot: string, batch: number): Promise<BatchRow | null>;
  batches(query: BatchQuery): Promise<readonly BatchRow[]>;
  /** When scales were set to zero, the newest first. */
  scales(limit: number): Promise<readonly ScaleRow[]>;
  /** Where and when mix was laid in a patch, what was taken back left out. */
  laid(patch: string): Promise<readonly LaidRow[]>;
  /** Patches that hold mix, those laid last first. */
  laidNewest(limit: number): Promise<readonly LaidPatch[]>;
  /** Ids of everybody who ever started a batch. */
  people(): Promise<readonly string[]>;
}

export interface Store {
  /** Where it keeps things, for messages. */
  readonly where: string;
  /** What was cut off when it was opened, in words; null when the tail was whole. */
  readonly cut: string | null;
  tail(): Promise<Tail>;
  /** All or nothing; durable before it resolves. Appending the same entries again changes nothing. */
  append(batch: readonly Sealed[]): Promise<void>;
  read(query: RecordQuery): Promise<readonly Entry[]>;
  /** Entries of kinds opening, command and fact after `after`, with the tick of the last readings. */
  inputsAfter(after: number): Promise<{ readonly entries: readonly Entry[]; readonly lastTick: number }>;
  answerTo(id: string): Promise<KnownAnswer | null>;
  saveCheckpoint(checkpoint: Checkpoint): Promise<void>;
  /** Newest usable checkpoint of that shift. */
  loadCheckpoint(shift: number): Promise<Checkpoint | null>;
  /** Scenarios by digest, kept so that an old shift can be replayed when its files have changed. */
  saveScenario(digest: string, scenario: unknown): Promise<void>;
  loadScenario(digest: string): Promise<unknown>;
  /** Checks the whole chain from its first entry. */
  verify(): Promise<Verdict>;
  /** Texts of entries first..last in order, a page at a time; what lies in an archive file is not among them. */
  texts(first: number, last: number): AsyncIterable<StoredText>;
  /** All shifts, the oldest first; from the index, without reading the record. */
  shifts(): Promise<readonly ShiftSummary[]>;
  /** Shifts that meet all conditions, the newest first, and where in them; from the index. */
  find(query: FindQuery): Promise<readonly Found[]>;
  /** Everything of that kind the index knows of one shift, in order of key. */
  mentions(kind: IndexKind, shift: number): Promise<readonly Mention[]>;
  /** Entries of a shift that name it, in order; none when the shift is archived. Reads its commands and facts only. */
  naming(mention: Mention): Promise<readonly Entry[]>;
  /**
   * Moves one chunk of the readings of a sealed shift into its compressed form; false when nothing is left to
   * move. Nothing a reader sees changes. Whatever happens meanwhile, nothing is lost.
   */
  packNext(): Promise<boolean>;
  /** Sizes and counts for whoever keeps the record. */
  keeping(): Promise<Keeping>;
  /** The books of lab and yard as of the newest durable entry. */
  books(): Promise<Listening>;
  readonly traces: Traces;
  close(): Promise<void>;
}
