/**
 * What the server asks of whatever keeps the record. Every method is asynchronous, so that a
 * server database can stand behind it as well as the embedded one.
 */

import type { Answer } from '../../machines/live/protocol.ts';
import type { ChainEnd, Sealed, Verdict } from '../../machines/record/chain.ts';
import type { Entry } from '../../machines/record/entry.ts';

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

export type KnownAnswer = { readonly command: string; readonly answer: Answer };

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
  close(): Promise<void>;
}
