/**
 * The append-only record: one entry a line, each naming the hash of the one before.
 *
 * hash = SHA-256 over the RFC 8785 form of the entry without its own hash.
 */
import type { ReadingChanges } from '../field/tags.ts';
import type { CommandEnvelope } from '../line/commands.ts';
import type { Fact, Who } from '../line/facts.ts';
import type { BookName } from './book.types.ts';

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
export type NoteBody = {
  readonly what: string;
  readonly detail: string;
  /** SHA-256, hex, of files that belong to it; an export carries them under that name. */
  readonly attachments?: readonly string[];
  /**
   * The key that sealed is gone for good and another one seals from here on: both fingerprints, and the SPKI form
   * of the new one in base64. The old key could not sign this; a change that it signed is a `keyRotated`.
   */
  readonly newKey?: { readonly lost: string; readonly key: string; readonly publicKey: string };
};

/** A run of reading entries whose uncompressed NDJSON lines have one digest (machines/record/chunks.ts). */
export type ChunkDigest = {
  /** seq of its first and last reading entry; entries of other kinds between them are not part of it. */
  readonly first: number;
  readonly last: number;
  readonly count: number;
  /** SHA-256, lower-case hex, over its lines, each with its line feed. */
  readonly sha256: string;
};

/** Who put their name to a seal or countersignature. */
export type Signer = { readonly person: string; readonly role: string };

/**
 * Stands right behind the last entry of a closed shift and covers entries first..last. The signature is
 * Ed25519 over the RFC 8785 text of this body without `signature`.
 */
export type SealBody = {
  readonly format: 1;
  /** seq of the opening entry: the shift's name in the record. */
  readonly shift: number;
  readonly first: number;
  readonly last: number;
  readonly count: number;
  /** Hash of entry `last`. */
  readonly head: string;
  /** RFC 6962 root, hex; a leaf is the exact text an entry's hash was taken over. */
  readonly root: string;
  readonly chunks: readonly ChunkDigest[];
  readonly prevSeal: { readonly seq: number; readonly root: string } | null;
  /** 'late': the shift broke off and was closed by a person afterwards, who says why in `remark`. */
  readonly closed: 'in order' | 'late';
  /** Who closed the shift; null when the line's own stand-in did without a person. */
  readonly by: Signer | null;
  readonly remark: string;
  /** SHA-256 of the SPKI form of the public key, hex; and that form itself in base64. */
  readonly key: string;
  readonly publicKey: string;
  /** 64 bytes, base64. */
  readonly signature: string;
};

/** A second person, the supervisor, has looked at a sealed shift; signed by the plant's key like a seal. */
export type CountersignatureBody = {
  readonly format: 1;
  /** seq and root of the seal countersigned. */
  readonly seal: number;
  readonly root: string;
  readonly by: Signer;
  readonly remark: string;
  readonly key: string;
  readonly publicKey: string;
  readonly signature: string;
};

/** From here on another key seals: signed by the old key, and by the new one to show that it is there. */
export type KeyRotatedBody = {
  readonly format: 1;
  readonly from: string;
  readonly fromPublicKey: string;
  readonly to: string;
  readonly toPublicKey: string;
  readonly reason: string;
  /** By the old key, over the RFC 8785 text of this body without both signatures. */
  readonly signature: string;
  /** By the new key, over the same text. */
  readonly newSignature: string;
};

/** A fact of one of the ledger's books. All facts of one command bear its id and stand behind each other. */
export type LedgerFact = { readonly is: string; readonly [field: string]: unknown };
export type LedgerBody = {
  readonly id: string;
  /** Name of the command it follows from. */
  readonly do: string;
  readonly by: Who;
  /** The plant's own local clock, YYYY-MM-DDTHH:MM:SS. */
  readonly at: string;
  readonly book: BookName;
  readonly fact: LedgerFact;
};

export type EntryContent =
  | { readonly kind: 'opening'; readonly body: OpeningBody }
  | { readonly kind: 'readings'; readonly body: ReadingsBody }
  | { readonly kind: 'command'; readonly body: CommandBody }
  | { readonly kind: 'fact'; readonly body: FactBody }
  | { readonly kind: 'note'; readonly body: NoteBody }
  | { readonly kind: 'seal'; readonly body: SealBody }
  | { readonly kind: 'countersignature'; readonly body: CountersignatureBody }
  | { readonly kind: 'keyRotated'; readonly body: KeyRotatedBody }
  | { readonly kind: 'ledger'; readonly body: LedgerBody };

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
