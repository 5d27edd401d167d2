/**
 * How far the record had come, kept beside the database: when its end is lost with the write-ahead log,
 * SQLite itself cannot know. Written now and then and not synced: it may lie behind, never ahead.
 */
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ChainEnd } from '../../machines/record/chain.ts';

const FILE = 'reached.json';

/** The furthest durable entry that was noted, or null when there is no sound note. */
export const readHighWater = (folder: string): ChainEnd | null => {
  try {
    const { seq, hash } = JSON.parse(readFileSync(join(folder, FILE), 'utf8')) as ChainEnd;
    return Number.isInteger(seq) && typeof hash === 'string' ? { seq, hash } : null;
  } catch {
    return null;
  }
};

/** Failing here costs nothing but the warning, so it is let pass. */
export const writeHighWater = (folder: string, { seq, hash }: ChainEnd): void => {
  try {
    writeFileSync(join(folder, `${FILE}.new`), `${JSON.stringify({ seq, hash })}\n`);
    renameSync(join(folder, `${FILE}.new`), join(folder, FILE));
  } catch {
    // The record itself says when the disk is full.
  }
};

/** Words for an end that is missing, or null. `hashAt` gives the hash of an entry that is there. */
export const missingEnd = (
  reached: ChainEnd | null,
  lastSeq: number,
  hashAt: (seq: number) => string | undefined,
): string | null => {
  if (reached === null || hashAt(reached.seq) === reached.hash) return null;
  return reached.seq > lastSeq
    ? `the record had reached entry ${reached.seq} and now ends at ${lastSeq}: its end is lost (was its write-ahead log deleted, or an old copy put in its place?)`
    : `entry ${reached.seq} of the record is not the one that stood there: another record has been put in its place`;
};
