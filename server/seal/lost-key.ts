/**
 * What is done when the plant's key is gone for good: another key is made, and a note puts the loss on record. The
 * old key cannot sign the change, so nothing leads from one to the other: seals before and after stand in two lines
 * of keys, and whoever knows the fingerprint of one of them is not vouched the other.
 */
import type { Entry } from '../../machines/record/entry.ts';
import { PlainError } from '../plain-error.ts';
import type { Store } from '../store/store.ts';
import type { KeyRotatedEntry } from './seals-of.ts';

export type LostKey = {
  /** Entry that says so. */
  readonly seq: number;
  /** Fingerprints: the key that is gone, and the one that seals from there on. */
  readonly lost: string;
  readonly key: string;
  readonly detail: string;
};

/** More than a hundred years of notes. */
const LIMIT = 1_000_000;

const lostBy = (entry: Entry): LostKey | null => {
  if (entry.kind !== 'note' || entry.body.newKey === undefined) return null;
  const { newKey, detail } = entry.body;
  return { seq: entry.seq, lost: newKey.lost, key: newKey.key, detail };
};

/** Losses of the key in their order. */
export const lostKeysOf = async (store: Store): Promise<readonly LostKey[]> => {
  if ((await store.tail()).seq === 0) return [];
  return (await store.read({ after: 0, limit: LIMIT, kind: 'note' }))
    .map(lostBy)
    .filter((one) => one !== null);
};

/** Which line of keys an entry stands in: 0 until a key was lost, 1 until the next was, and so on. */
export const lineOfKeysAt = (lost: readonly LostKey[], seq: number): number =>
  lost.filter((one) => one.seq < seq).length;

/** Changes of key within the line of keys an entry stands in: those of another one say nothing about it. */
export const rotationsAround = (
  rotations: readonly KeyRotatedEntry[],
  lost: readonly LostKey[],
  seq: number,
): KeyRotatedEntry[] =>
  rotations.filter((rotation) => lineOfKeysAt(lost, rotation.seq) === lineOfKeysAt(lost, seq));

/** Throws PlainError when the key that made a seal is gone: another one cannot sign in its place. */
export const mustNotBeLost = (lost: readonly LostKey[], seal: number): void => {
  const since = lost.find((one) => one.seq > seal);
  if (since !== undefined)
    throw new PlainError(
      `The key this shift was sealed with has been lost since (entry ${since.seq}): another key cannot countersign it.`,
    );
};
