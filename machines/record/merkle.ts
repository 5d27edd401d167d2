/**
 * Merkle tree hashing of RFC 6962 §2.1: one root over many entries, and short proofs that an entry is among them.
 *
 * leaf = SHA-256(0x00 || data), node = SHA-256(0x01 || left || right); the tree of n leaves splits at the
 * largest power of two smaller than n. Hashes are 32 bytes.
 */
import type { Sha256 } from './crypto.types.ts';

const LEAF = 0x00;
const NODE = 0x01;
const HASH_BYTES = 32;

export const leafHash = (data: Uint8Array, sha256: Sha256): Uint8Array => {
  const bytes = new Uint8Array(data.length + 1);
  bytes[0] = LEAF;
  bytes.set(data, 1);
  return sha256(bytes);
};

/** One for all nodes: it is filled and digested before anything else can happen. */
const nodeBytes = new Uint8Array(1 + 2 * HASH_BYTES);

export const nodeHash = (left: Uint8Array, right: Uint8Array, sha256: Sha256): Uint8Array => {
  const bytes = nodeBytes;
  bytes[0] = NODE;
  bytes.set(left, 1);
  bytes.set(right, 1 + HASH_BYTES);
  return sha256(bytes);
};

/** A tree that grows by one leaf at a time and keeps only its full subtrees: memory O(log n). */
export type MerkleBuilder = {
  /** Adds a leaf by its hash (see leafHash). */
  readonly add: (leaf: Uint8Array) => void;
  readonly size: () => number;
  /** Root over all leaves so far; SHA-256 of nothing when there is none. */
  readonly root: () => Uint8Array;
};

export const merkleBuilder = (sha256: Sha256): MerkleBuilder => {
  /** Full subtrees from left to right, each smaller than the one before: the bits of `size`. */
  const subtrees: Uint8Array[] = [];
  let size = 0;
  return {
    add: (leaf) => {
      let hash = leaf;
      for (let n = size; n % 2 === 1; n = Math.floor(n / 2))
        hash = nodeHash(subtrees.pop() as Uint8Array, hash, sha256);
      subtrees.push(hash);
      size += 1;
    },
    size: () => size,
    root: () => {
      const last = subtrees.at(-1);
      if (last === undefined) return sha256(new Uint8Array(0));
      return subtrees.slice(0, -1).reduceRight((right, left) => nodeHash(left, right, sha256), last);
    },
  };
};

/** MTH(D[n]) of RFC 6962 over the leaves' data. */
export const merkleRoot = (data: Iterable<Uint8Array>, sha256: Sha256): Uint8Array => {
  const tree = merkleBuilder(sha256);
  for (const one of data) tree.add(leafHash(one, sha256));
  return tree.root();
};

/**
 * Every level of the tree, leaves first: pairs joined from the left, an odd one out moved up as it is, which is
 * the same tree as RFC 6962's split at the largest power of two (a test holds this).
 */
export type MerkleLevels = readonly (readonly Uint8Array[])[];

export const merkleLevels = (leaves: readonly Uint8Array[], sha256: Sha256): MerkleLevels => {
  const levels: (readonly Uint8Array[])[] = [leaves];
  for (let level = leaves; level.length > 1; ) {
    const above: Uint8Array[] = [];
    for (let i = 0; i < level.length; i += 2) {
      const [left, right] = [level[i] as Uint8Array, level[i + 1]];
      above.push(right === undefined ? left : nodeHash(left, right, sha256));
    }
    levels.push(above);
    level = above;
  }
  return levels;
};

/** PATH(m, D[n]) of RFC 6962 §2.1.1, nearest sibling first. Throws when there is no such leaf. */
export const inclusionPath = (levels: MerkleLevels, index: number): readonly Uint8Array[] => {
  const size = levels[0]?.length ?? 0;
  if (!Number.isInteger(index) || index < 0 || index >= size)
    throw new Error(`leaf ${index} is not one of ${size}`);
  const path: Uint8Array[] = [];
  let at = index;
  for (const level of levels) {
    const sibling = level[at % 2 === 0 ? at + 1 : at - 1];
    if (sibling !== undefined) path.push(sibling);
    at = Math.floor(at / 2);
  }
  return path;
};

/** Root that leaf `index` of `size` and its path lead to (RFC 9162 §2.1.3.2); null when the path has another length. */
export const rootFromProof = (
  leaf: Uint8Array,
  index: number,
  size: number,
  path: readonly Uint8Array[],
  sha256: Sha256,
): Uint8Array | null => {
  if (!Number.isSafeInteger(index) || !Number.isSafeInteger(size) || index < 0 || index >= size) return null;
  let [fn, sn] = [index, size - 1];
  let hash = leaf;
  for (const sibling of path) {
    if (sn === 0 || sibling.length !== HASH_BYTES) return null;
    if (fn % 2 === 1 || fn === sn) {
      hash = nodeHash(sibling, hash, sha256);
      while (fn % 2 === 0 && fn !== 0) [fn, sn] = [Math.floor(fn / 2), Math.floor(sn / 2)];
    } else hash = nodeHash(hash, sibling, sha256);
    [fn, sn] = [Math.floor(fn / 2), Math.floor(sn / 2)];
  }
  return sn === 0 ? hash : null;
};
