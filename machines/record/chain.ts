/** Sealing entries into a chain of digests, and checking such a chain. */
import { canonical, canonicalReadings } from './canonical.ts';
import { type Entry, type EntryContent, GENESIS } from './entry.ts';

/** SHA-256 of UTF-8 text as lower-case hex; given by the caller, because the core has no crypto. */
export type Digest = (text: string) => string;

/** An entry with the exact text its hash was taken over (the entry without its own hash). */
export type Sealed = { readonly entry: Entry; readonly text: string };

/** Where a chain stands: its newest entry. */
export type ChainEnd = { readonly seq: number; readonly hash: string };
export const CHAIN_START: ChainEnd = { seq: 0, hash: GENESIS };

/** Text an entry's hash is taken over: RFC 8785 form of the entry without its hash. */
const textOf = (content: EntryContent, seq: number, atMs: number, wall: string, prev: string): string => {
  const body = content.kind === 'readings' ? canonicalReadings(content.body) : canonical(content.body);
  // Keys stand in their canonical order already; kind, prev and wall hold nothing that needs escaping.
  return `{"atMs":${atMs},"body":${body},"kind":"${content.kind}","prev":"${prev}","seq":${seq},"wall":"${wall}"}`;
};

/** Seals one entry behind `prev`. `atMs` is plant time in ms, `wall` ISO 8601 UTC. */
export const sealEntry = (
  prev: ChainEnd,
  content: EntryContent,
  atMs: number,
  wall: string,
  digest: Digest,
): Sealed => {
  const seq = prev.seq + 1;
  const text = textOf(content, seq, atMs, wall, prev.hash);
  const entry: Entry = { ...content, seq, atMs, wall, prev: prev.hash, hash: digest(text) };
  return { entry, text };
};

/** Hash an entry ought to have. Throws when its content has no canonical form. */
export const hashOf = (entry: Entry, digest: Digest): string => {
  const { hash: _own, ...rest } = entry;
  return digest(canonical(rest));
};

export type Verdict =
  | { readonly ok: true; readonly end: ChainEnd; readonly entries: number }
  | { readonly ok: false; readonly seq: number; readonly why: string };

/** Why an entry cannot follow `prev`, or null when it does. */
export const whyNotNext = (prev: ChainEnd, entry: Entry, digest: Digest): string | null => {
  if (entry.seq !== prev.seq + 1) return `entry ${prev.seq + 1} is missing: ${entry.seq} stands in its place`;
  if (entry.prev !== prev.hash) return 'it does not name the entry before it';
  let wanted: string;
  try {
    wanted = hashOf(entry, digest);
  } catch (error) {
    return `it has no canonical form: ${error instanceof Error ? error.message : String(error)}`;
  }
  return wanted === entry.hash ? null : 'its content does not match its hash';
};

/** Walks a chain from `start` and stops at the first entry that does not follow. */
export const verifyChain = (
  entries: Iterable<Entry>,
  digest: Digest,
  start: ChainEnd = CHAIN_START,
): Verdict => {
  let end = start;
  let count = 0;
  for (const entry of entries) {
    const why = whyNotNext(end, entry, digest);
    if (why !== null) return { ok: false, seq: entry.seq, why };
    end = { seq: entry.seq, hash: entry.hash };
    count += 1;
  }
  return { ok: true, end, entries: count };
};
