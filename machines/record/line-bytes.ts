/**
 * Takes a line of an export apart without parsing it: behind the body everything has a fixed form.
 *
 *     {"atMs":N,"body":…,"hash":"64 hex","kind":"word","prev":"64 hex","seq":N,"wall":"24 letters"}
 */

export type LineParts = {
  /** Where `,"hash":"…"` begins and ends: the text that was hashed is the line without it. */
  readonly cutFrom: number;
  readonly cutTo: number;
  /** Where the 64 digits of hash and prev begin. */
  readonly hashAt: number;
  readonly prevAt: number;
  readonly seq: number;
  readonly isReadings: boolean;
  readonly isNote: boolean;
  readonly isLedger: boolean;
};

const ascii = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
const HEAD = ascii('{"atMs":');
const HASH = ascii(',"hash":"');
const KIND = ascii('","kind":"');
const PREV = ascii('","prev":"');
const SEQ = ascii('","seq":');
const WALL = ascii(',"wall":"');
const END = ascii('"}');
const READINGS = ascii('readings');
const NOTE = ascii('note');
const LEDGER = ascii('ledger');
const HEX_DIGITS = 64;
const WALL_LETTERS = 24;
const SEQ_DIGITS = 15;
const KIND_LETTERS = 30;
const QUOTE = 34;

const stands = (line: Uint8Array, at: number, what: Uint8Array): boolean => {
  if (at < 0) return false;
  for (let i = 0; i < what.length; i++) if (line[at + i] !== what[i]) return false;
  return true;
};

/** Null when the line has not the form of an entry. Whether hash and prev are the right digits is seen by comparing them. */
export const partsOfLine = (line: Uint8Array): LineParts | null => {
  const endAt = line.length - END.length;
  const wallAt = endAt - WALL_LETTERS - WALL.length;
  if (!stands(line, 0, HEAD) || !stands(line, endAt, END) || !stands(line, wallAt, WALL)) return null;
  let digitAt = wallAt - 1;
  let seq = 0;
  for (let unit = 1; digitAt >= 0 && wallAt - digitAt <= SEQ_DIGITS; digitAt--, unit *= 10) {
    const digit = (line[digitAt] as number) - 48;
    if (digit < 0 || digit > 9) break;
    seq += digit * unit;
  }
  const prevAt = digitAt + 1 - SEQ.length - HEX_DIGITS;
  if (seq === 0 || line[digitAt + 1] === 48 || !stands(line, digitAt + 1 - SEQ.length, SEQ)) return null;
  if (prevAt < 0 || !stands(line, prevAt - PREV.length, PREV)) return null;
  const kindEnd = prevAt - PREV.length;
  let kindAt = kindEnd;
  while (kindAt > 0 && kindEnd - kindAt <= KIND_LETTERS && line[kindAt - 1] !== QUOTE) kindAt--;
  const hashAt = kindAt - KIND.length - HEX_DIGITS;
  if (!stands(line, kindAt - KIND.length, KIND)) return null;
  if (hashAt < 0 || !stands(line, hashAt - HASH.length, HASH)) return null;
  const kindLetters = kindEnd - kindAt;
  return {
    cutFrom: hashAt - HASH.length,
    cutTo: hashAt + HEX_DIGITS + 1,
    hashAt,
    prevAt,
    seq,
    isReadings: kindLetters === READINGS.length && stands(line, kindAt, READINGS),
    isNote: kindLetters === NOTE.length && stands(line, kindAt, NOTE),
    isLedger: kindLetters === LEDGER.length && stands(line, kindAt, LEDGER),
  };
};

const HEX = ascii('0123456789abcdef');

/** Whether 64 hex digits standing at `at` are these 32 bytes. */
export const isHexOf = (line: Uint8Array, at: number, hash: Uint8Array): boolean => {
  for (let i = 0; i < hash.length; i++) {
    const byte = hash[i] as number;
    if (line[at + 2 * i] !== HEX[byte >> 4] || line[at + 2 * i + 1] !== HEX[byte & 15]) return false;
  }
  return true;
};

/** Text of ASCII bytes. */
export const asciiText = (bytes: Uint8Array): string => {
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return text;
};
