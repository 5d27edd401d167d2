/** Export format 1: one zip a shift. What is in it, and how its reader is used; machines/record/EXPORT.md says it in prose. */
import type { Scenario } from '../scenario/shift.schema.ts';
import type { CountersignatureBody, Entry, SealBody } from './entry.ts';

export const EXPORT_FORMAT = 1;

/** Names in the zip. */
export const EXPORT_FILES = {
  readme: 'README.txt',
  manifest: 'manifest.json',
  entries: 'entries.ndjson',
  seal: 'seal.json',
  /** The exact bytes the seal signs, and the 64 bytes of its signature: for openssl. */
  sealSigned: 'seal-signed.txt',
  sealSignature: 'seal-signature.bin',
  scenario: 'scenario.json',
  plant: 'files/plant.json',
  people: 'files/people.json',
  shift: 'files/shift.json',
  mixes: 'files/mixes/',
  keys: 'keys/',
  attachments: 'attachments/',
} as const;

/** A file of the zip other than manifest and entries; the entries vouch for themselves. */
export type ExportFile = { readonly name: string; readonly bytes: number; readonly sha256: string };

export type ExportManifest = {
  readonly format: typeof EXPORT_FORMAT;
  readonly what: 'patchyard shift';
  /** Versions of program and physics that wrote the record, from its opening. */
  readonly program: string;
  readonly physics: number;
  readonly shift: {
    /** seq of the opening entry: the shift's name in the record. */
    readonly opening: number;
    readonly id: string;
    readonly name: string;
    readonly date: string;
    readonly startsAt: string;
  };
  readonly entries: {
    readonly first: number;
    readonly last: number;
    readonly count: number;
    /** Hash of entry `last`. */
    readonly head: string;
    /** Bytes of entries.ndjson. */
    readonly bytes: number;
  };
  /** Null: a shift that had not been sealed when it was exported. */
  readonly seal: {
    readonly seq: number;
    readonly root: string;
    readonly key: string;
    readonly countersignatures: number;
  } | null;
  /** In order of name. */
  readonly files: readonly ExportFile[];
};

/** seal.json: the entries themselves, each with its hash. */
export type SealFile = {
  readonly seal: Extract<Entry, { kind: 'seal' }>;
  readonly countersignatures: readonly Extract<Entry, { kind: 'countersignature' }>[];
  /** Every change of key the record holds, in order: which key had to seal here follows from them. */
  readonly rotations: readonly Extract<Entry, { kind: 'keyRotated' }>[];
};

export type { CountersignatureBody, SealBody };

/** Random access to the bytes of a file: a Blob in a browser, an open file in the server, a buffer in a test. */
export type ByteSource = {
  readonly size: number;
  readonly read: (offset: number, length: number) => Promise<Uint8Array>;
};

/** Undoes raw deflate (RFC 1951), chunk by chunk: zlib in the server, DecompressionStream in a browser. */
export type Inflate = (compressed: AsyncIterable<Uint8Array>) => AsyncIterable<Uint8Array>;

/** What opening asks of the place it runs in. */
export type OpenTools = {
  readonly inflate: Inflate;
  /** Text of UTF-8 bytes; throws when they are none. */
  readonly decode: (bytes: Uint8Array) => string;
};

/**
 * An export opened for reading, by `openExport(source, tools)` of machines/record/open-export.ts; nothing of
 * it has been verified yet: `verifyExport(reader, crypto, options)` of machines/record/verify-export.ts does.
 * Errors are ExportError.
 */
export type ExportReader = {
  readonly manifest: ExportManifest;
  readonly manifestText: string;
  /** Every file of the zip, in its order, with its size when unpacked. */
  readonly files: readonly { readonly name: string; readonly bytes: number }[];
  readonly bytesOf: (name: string) => AsyncIterable<Uint8Array>;
  /** The whole of a small file. */
  readonly smallFile: (name: string) => Promise<Uint8Array>;
  readonly decode: OpenTools['decode'];
  readonly scenario: () => Promise<Scenario>;
  readonly sealFile: () => Promise<SealFile | null>;
  /** Entries in batches, as parsed JSON. Check them with verifyExport before believing them. */
  readonly entries: () => AsyncIterable<readonly Entry[]>;
};

export type ExportErrorCode =
  | 'not an export'
  | 'format unknown'
  | 'damaged'
  | 'too large'
  | 'not supported here';

/** What a file is not readable for, in words. */
export class ExportError extends Error {
  override name = 'ExportError';
  readonly code: ExportErrorCode;
  constructor(code: ExportErrorCode, message: string) {
    super(message);
    this.code = code;
  }
}

/** What `verify` names a finding by; exit code 1 for all of these. */
export type FindingKind =
  | 'entry altered'
  | 'entry missing'
  | 'entry inserted'
  | 'entries reordered'
  | 'tail truncated'
  | 'wrong key'
  | 'seal mismatch'
  | 'countersignature mismatch'
  | 'chunk mismatch'
  | 'attachment altered'
  | 'file altered'
  | 'file absent'
  | 'unknown file'
  | 'manifest mismatch'
  | 'sampling plan'
  | 'not sealed';

export type Finding = {
  readonly kind: FindingKind;
  /** Entry it is about, when it is about one. */
  readonly seq: number | null;
  /** File it is about, when it is about one. */
  readonly file: string | null;
  /** A sentence: what is wrong, where. */
  readonly detail: string;
};

export type ExportVerdict =
  | {
      readonly result: 'intact';
      readonly manifest: ExportManifest;
      readonly entries: number;
      readonly bytes: number;
      /** Null when the shift was not sealed when exported: only the chain was checked. */
      readonly seal: {
        readonly seq: number;
        readonly root: string;
        readonly key: string;
        readonly countersigned: readonly string[];
      } | null;
    }
  | { readonly result: 'altered'; readonly findings: readonly Finding[] }
  | { readonly result: 'unreadable'; readonly code: ExportErrorCode; readonly detail: string };

export type VerifyOptions = {
  /** Fingerprint the seal must be made with, or be led to from by recorded rotations. */
  readonly key?: string;
  readonly onProgress?: OnProgress;
};

/** Share done 0..1. */
export type OnProgress = (share: number) => void;
