/**
 * The check of a run of entries, line by line: each against its hash and the one before it, all of them into the
 * Merkle root and chunk digests a seal holds. Goes on after a finding, so that everything wrong is named.
 */
import { toHex } from './bytes.ts';
import { chunkBuilder } from './chunks.ts';
import type { RecordCrypto } from './crypto.types.ts';
import type { ChunkDigest } from './entry.ts';
import type { Finding, FindingKind } from './export.types.ts';
import { asciiText, isHexOf, type LineParts, partsOfLine } from './line-bytes.ts';
import { merkleBuilder } from './merkle.ts';

/** More than this is not listed: one cause can make thousands. */
export const FINDINGS_LIMIT = 50;

export type LinesChecked = {
  readonly findings: readonly Finding[];
  readonly count: number;
  readonly bytes: number;
  readonly first: number;
  readonly last: number;
  /** Hash the last line names; '' when there is none. */
  readonly head: string;
  readonly root: string;
  readonly chunks: readonly ChunkDigest[];
};

export type LineCheck = {
  /** One line without its line feed. */
  readonly take: (line: Uint8Array) => void;
  /** `last`: the entry the run must end with; null when that is not known. */
  readonly finish: (last: number | null) => LinesChecked;
};

const HEX_DIGITS = 64;
const ZERO_BYTES = new Uint8Array(0);
/** Gaps remembered, to tell entries out of order from entries that are gone. */
const MISSING_LIMIT = 10_000;

const range = (from: number, to: number): string =>
  from === to ? `entry ${from} is` : `entries ${from} to ${to} are`;

/** `prev`: hash before the first entry, null when it is not known. `onNaming` is given the line of each entry that may name files. */
export const lineCheck = (
  first: number,
  prev: string | null,
  crypto: RecordCrypto,
  onNaming: (line: Uint8Array) => void = () => undefined,
): LineCheck => {
  const tree = merkleBuilder(crypto.sha256);
  const chunks = chunkBuilder(crypto);
  const findings: Finding[] = [];
  const missing = new Set<number>();
  let [count, bytes, lineNo] = [0, 0, 0];
  let [expected, firstSeen, lastSeen] = [first, 0, 0];
  /** Digits of the hash the line before names; not known when whatever follows cannot be held against it. */
  const before = new Uint8Array(HEX_DIGITS);
  let isBeforeKnown = prev !== null;
  if (prev !== null) for (let i = 0; i < HEX_DIGITS; i++) before[i] = prev.charCodeAt(i);
  /** Leaf prefix and text side by side, so that one copy serves both digests. */
  let scratch = new Uint8Array(4096);

  const find = (kind: FindingKind, seq: number | null, detail: string): void => {
    if (findings.length < FINDINGS_LIMIT) findings.push({ kind, seq, file: 'entries.ndjson', detail });
  };

  const namesBefore = (line: Uint8Array, at: number): boolean => {
    if (!isBeforeKnown) return true;
    for (let i = 0; i < HEX_DIGITS; i++) if (line[at + i] !== before[i]) return false;
    return true;
  };

  /** Where the entry stands in the order; true when it is the one that belongs here. */
  const inOrder = (seq: number): boolean => {
    if (seq === expected) return true;
    if (seq > expected) {
      for (let gone = expected; gone < seq && missing.size < MISSING_LIMIT; gone++) missing.add(gone);
      if (seq - expected > MISSING_LIMIT)
        find('entry missing', expected, `${range(expected, seq - 1)} missing before entry ${seq}`);
    } else if (missing.delete(seq))
      find('entries reordered', seq, `entry ${seq} stands behind entry ${lastSeen}, on line ${lineNo}`);
    else
      find(
        'entry inserted',
        seq,
        `a second entry ${seq} stands behind entry ${lastSeen}, on line ${lineNo}: it does not belong there`,
      );
    return false;
  };

  const digests = (line: Uint8Array, parts: LineParts): boolean => {
    const length = parts.cutFrom + line.length - parts.cutTo;
    if (scratch.length < length + 1) scratch = new Uint8Array(2 * (length + 1));
    scratch.set(line.subarray(0, parts.cutFrom), 1);
    scratch.set(line.subarray(parts.cutTo), 1 + parts.cutFrom);
    tree.add(crypto.sha256(scratch.subarray(0, length + 1)));
    return isHexOf(line, parts.hashAt, crypto.sha256(scratch.subarray(1, length + 1)));
  };

  const take = (line: Uint8Array): void => {
    lineNo += 1;
    bytes += line.length + 1;
    const parts = partsOfLine(line);
    if (parts === null) {
      find('entry altered', expected, `line ${lineNo}, where entry ${expected} should stand, is no entry`);
      tree.add(crypto.sha256(ZERO_BYTES));
      expected += 1;
      isBeforeKnown = false;
      return;
    }
    const { seq } = parts;
    count += 1;
    if (firstSeen === 0) firstSeen = seq;
    const follows = inOrder(seq);
    if (!digests(line, parts))
      find('entry altered', seq, `entry ${seq}: its content does not match its hash`);
    else if (follows && !namesBefore(line, parts.prevAt))
      find(
        'entry altered',
        seq - 1,
        `entry ${seq} names another entry before it than the ${seq - 1} that stands here`,
      );
    if (parts.isReadings) chunks.add(seq, line);
    else if (parts.isNote || parts.isLedger) onNaming(line);
    lastSeen = seq;
    // One that stands in the wrong place is not what the next one must name.
    if (seq < expected) return;
    for (let i = 0; i < HEX_DIGITS; i++) before[i] = line[parts.hashAt + i] as number;
    isBeforeKnown = true;
    expected = seq + 1;
  };

  const reportMissing = (): void => {
    const gone = [...missing].sort((a, b) => a - b);
    for (let i = 0; i < gone.length; ) {
      const from = gone[i] as number;
      let to = from;
      for (i += 1; i < gone.length && gone[i] === to + 1; i++) to += 1;
      find('entry missing', from, `${range(from, to)} missing: entry ${to + 1} follows entry ${from - 1}`);
    }
  };

  return {
    take,
    finish: (last) => {
      reportMissing();
      if (last !== null && expected <= last)
        find('tail truncated', expected, `${range(expected, last)} missing at the end`);
      if (last !== null && expected > last + 1)
        find('entry inserted', last + 1, `${range(last + 1, expected - 1)} behind the end, entry ${last}`);
      return {
        findings,
        count,
        bytes,
        first: firstSeen,
        last: lastSeen,
        head: isBeforeKnown ? asciiText(before) : '',
        root: toHex(tree.root()),
        chunks: chunks.finish(),
      };
    },
  };
};
