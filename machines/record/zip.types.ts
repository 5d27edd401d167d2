/** The one layout of zip our exports have: so strict that no byte of it can change unseen. */

/** 1980-01-01 00:00, the earliest a zip can say: an export says when in its entries, not in its wrapping. */
export const ZIP_TIME = 0;
export const ZIP_DATE = 0x21;
export const ZIP_VERSION = 20;
export const STORED = 0;
export const DEFLATED = 8;

export const LOCAL_SIGNATURE = 0x04034b50;
export const DESCRIPTOR_SIGNATURE = 0x08074b50;
export const CENTRAL_SIGNATURE = 0x02014b50;
export const END_SIGNATURE = 0x06054b50;
export const LOCAL_BYTES = 30;
export const DESCRIPTOR_BYTES = 16;
export const CENTRAL_BYTES = 46;
export const END_BYTES = 22;
/** Sizes follow the data (general purpose bit 3), so that a file can be written in one go. */
export const FLAGS = 0x0008;

/** A regular file anyone may read, as made on Unix (external attributes of the central directory). */
export const MADE_BY = (3 << 8) | ZIP_VERSION;
export const ATTRIBUTES = (0o100644 << 16) >>> 0;

export type ZipFile = {
  readonly name: string;
  readonly method: typeof STORED | typeof DEFLATED;
  readonly crc: number;
  readonly packedBytes: number;
  readonly bytes: number;
  /** Where its local header stands. */
  readonly offset: number;
};

/** Names an export may use: no folder above, no root, no drive, nothing a file system could trip over. */
export const isSafeName = (name: string): boolean =>
  name.length <= 200 &&
  /^[A-Za-z0-9_-][A-Za-z0-9._-]*(?:\/[A-Za-z0-9_-][A-Za-z0-9._-]*)*$/.test(name) &&
  !name.includes('..');
