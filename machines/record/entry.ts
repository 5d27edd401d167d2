/**
 * The append-only record: one entry a line, each naming the hash of the one before.
 *
 * hash = SHA-256 over the RFC 8785 form of the entry without its own hash.
 */
import type { ReadingChanges } from '../field/tags.ts';
import type { CommandEnvelope } from '../line/commands.ts';
import type { Fact } from '../line/facts.ts';

/** First entry of every shift: what is running here. A restart within a shift writes a note instead. */
export type OpeningBody = {
  readonly format: 1;
  readonly program: string;
  readonly physics: number;
  readonly engine: string;
  readonly scenario: string;
  readonly scenarioDigest: string;
  readonly seed: number;
  /** Digest of the scenario as its files have it, when seed and date were moved on from it. */
  readonly filesDigest?: string;
  /** Who opened this shift at a console; left out when the program opened it by itself. */
  readonly openedBy?: string;
};

/** Readings by exception over the ticks from..to inclusive; each row is the tick and what changed in it. */
export type ReadingsBody = {
  readonly from: number;
  readonly to: number;
  readonly rows: readonly (readonly [tick: number, changes: ReadingChanges])[];
};

export type CommandBody = { readonly tick: number; readonly envelope: CommandEnvelope };
export type FactBody = { readonly tick: number; readonly fact: Fact };
/** What the program noticed about itself: restored, tail cut, clock jumped. */
export type NoteBody = { readonly what: string; readonly detail: string };

export type EntryContent =
  | { readonly kind: 'opening'; readonly body: OpeningBody }
  | { readonly kind: 'readings'; readonly body: ReadingsBody }
  | { readonly kind: 'command'; readonly body: CommandBody }
  | { readonly kind: 'fact'; readonly body: FactBody }
  | { readonly kind: 'note'; readonly body: NoteBody };

export type Entry = EntryContent & {
  /** 1, 2, 3 … without gaps. */
  readonly seq: number;
  /** Plant time since the shift began, ms. */
  readonly atMs: number;
  /** Wall clock when it was written, ISO 8601 UTC; order never depends on it. Fixed to the plant's clock in headless runs. */
  readonly wall: string;
  readonly prev: string;
  readonly hash: string;
};

/** prev of entry 1. */
export const GENESIS = '0'.repeat(64);
