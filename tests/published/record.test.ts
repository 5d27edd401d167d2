/**
 * The record's mathematics against outside vectors: RFC 6962 tree heads and proofs (the RFC has none; the reference
 * inputs of the Certificate Transparency project's merkle tree tests, from memory, recomputed here by the RFC's
 * own recursive definition), RFC 8032 §7.1 for Ed25519, FIPS 180-4 examples for SHA-256.
 */
import { createPublicKey, sign } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { WEB_CRYPTO } from '../../client/verify/web-tools.ts';
import { fromBase64, fromHex, toBase64, toHex, utf8 } from '../../machines/record/bytes.ts';
import {
  inclusionPath,
  leafHash,
  merkleLevels,
  merkleRoot,
  nodeHash,
  rootFromProof,
} from '../../machines/record/merkle.ts';
import { NODE_CRYPTO } from '../../server/seal/node-crypto.ts';
import { privateKeyOf } from '../record/support/made-export.ts';

const { sha256 } = NODE_CRYPTO;
const bytes = (hex: string): Uint8Array => fromHex(hex) as Uint8Array;

/** Inputs of the Certificate Transparency merkle tree tests, and the roots of their first n leaves (from memory). */
const LEAVES = [
  '',
  '00',
  '10',
  '2021',
  '3031',
  '40414243',
  '5051525354555657',
  '606162636465666768696a6b6c6d6e6f',
].map(bytes);
const ROOTS = [
  'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
  '6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d',
  'fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125',
  'aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77',
  'd37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7',
  '4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4',
  '76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef',
  'ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c',
  '5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328',
];

/** MTH and PATH as RFC 6962 §2.1 writes them, recursively: slow, and nothing else. */
const split = (n: number): number => 2 ** Math.floor(Math.log2(n - 1));
const mth = (d: readonly Uint8Array[]): Uint8Array => {
  if (d.length === 0) return sha256(new Uint8Array(0));
  if (d.length === 1) return leafHash(d[0] as Uint8Array, sha256);
  const k = split(d.length);
  return nodeHash(mth(d.slice(0, k)), mth(d.slice(k)), sha256);
};
const path = (m: number, d: readonly Uint8Array[]): Uint8Array[] => {
  if (d.length === 1) return [];
  const k = split(d.length);
  return m < k
    ? [...path(m, d.slice(0, k)), mth(d.slice(k))]
    : [...path(m - k, d.slice(k)), mth(d.slice(0, k))];
};

describe('SHA-256 (FIPS 180-4 examples)', () => {
  const EXAMPLES = [
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
  ] as const;
  it.each([
    ['server', NODE_CRYPTO],
    ['browser', WEB_CRYPTO],
  ])('%s', (_name, crypto) => {
    for (const [text, digest] of EXAMPLES) {
      expect(toHex(crypto.sha256(utf8(text)))).toBe(digest);
      const running = crypto.sha256Stream();
      for (const letter of text) running.update(utf8(letter));
      expect(toHex(running.digest())).toBe(digest);
    }
  });
});

describe('RFC 6962 tree', () => {
  it.each(ROOTS.map((root, n) => [n, root] as const))('root of the first %i test leaves', (n, root) => {
    expect(toHex(merkleRoot(LEAVES.slice(0, n), sha256))).toBe(root);
    expect(toHex(mth(LEAVES.slice(0, n)))).toBe(root);
  });

  it('roots and paths are those of the recursive definition, for every size up to 40', () => {
    const data = Array.from({ length: 40 }, (_, i) => utf8(`leaf ${i}`));
    for (let n = 1; n <= data.length; n++) {
      const some = data.slice(0, n);
      const root = toHex(mth(some));
      expect(toHex(merkleRoot(some, sha256))).toBe(root);
      const levels = merkleLevels(
        some.map((one) => leafHash(one, sha256)),
        sha256,
      );
      for (let i = 0; i < n; i++) {
        const proof = inclusionPath(levels, i);
        expect(proof.map(toHex)).toEqual(path(i, some).map(toHex));
        const reached = rootFromProof(leafHash(some[i] as Uint8Array, sha256), i, n, proof, sha256);
        expect(reached === null ? '' : toHex(reached)).toBe(root);
      }
    }
  });

  it('a proof holds for no other leaf, place, size or path', () => {
    const n = 21;
    const data = Array.from({ length: n }, (_, i) => utf8(`leaf ${i}`));
    const hashes = data.map((one) => leafHash(one, sha256));
    const levels = merkleLevels(hashes, sha256);
    const root = toHex(merkleRoot(data, sha256));
    const reach = (leaf: Uint8Array, i: number, size: number, proof: readonly Uint8Array[]): string => {
      const reached = rootFromProof(leaf, i, size, proof, sha256);
      return reached === null ? '' : toHex(reached);
    };
    for (let i = 0; i < n; i++) {
      const proof = inclusionPath(levels, i);
      const leaf = hashes[i] as Uint8Array;
      expect(reach(leaf, i, n, proof)).toBe(root);
      for (let j = 0; j < n; j++) if (j !== i) expect(reach(leaf, j, n, proof)).not.toBe(root);
      expect(reach(hashes[(i + 1) % n] as Uint8Array, i, n, proof)).not.toBe(root);
      expect(reach(leaf, i, n, proof.slice(1))).not.toBe(root);
      expect(reach(leaf, i, n, [...proof, leaf])).not.toBe(root);
    }
    // A node of the tree is no leaf: the prefixes 0x00 and 0x01 keep them apart.
    const inner = levels[1]?.[0] as Uint8Array;
    expect(
      toHex(leafHash(new Uint8Array([...(hashes[0] as Uint8Array), ...(hashes[1] as Uint8Array)]), sha256)),
    ).not.toBe(toHex(inner));
    for (const wrong of [-1, n, 1.5, Number.NaN]) {
      expect(() => inclusionPath(levels, wrong)).toThrow();
      expect(rootFromProof(hashes[0] as Uint8Array, wrong, n, [], sha256)).toBeNull();
    }
  });
});

/** RFC 8032 §7.1: secret key, public key, message, signature. */
const ED25519 = [
  [
    '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60',
    'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
    '',
    'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
  ],
  [
    '4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb',
    '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c',
    '72',
    '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00',
  ],
  [
    'c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7',
    'fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025',
    'af82',
    '6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a',
  ],
] as const;

describe('RFC 8032 Ed25519, tests 1 to 3', () => {
  it.each(ED25519)('key %s', async (secret, publicHex, messageHex, signatureHex) => {
    const key = privateKeyOf(bytes(secret));
    const spki = createPublicKey(key).export({ format: 'der', type: 'spki' });
    expect(spki.subarray(-32).toString('hex')).toBe(publicHex);
    expect(sign(null, bytes(messageHex), key).toString('hex')).toBe(signatureHex);
    for (const crypto of [NODE_CRYPTO, WEB_CRYPTO]) {
      expect(await crypto.verifyEd25519(spki, bytes(messageHex), bytes(signatureHex))).toBe(true);
      expect(await crypto.verifyEd25519(spki, utf8('something else'), bytes(signatureHex))).toBe(false);
      const bent = bytes(signatureHex);
      bent[5] = (bent[5] ?? 0) ^ 1;
      expect(await crypto.verifyEd25519(spki, bytes(messageHex), bent)).toBe(false);
      expect(await crypto.verifyEd25519(bytes('00'), bytes(messageHex), bytes(signatureHex))).toBe(false);
    }
  });
});

describe('base64 (RFC 4648 §10)', () => {
  it.each([
    ['', ''],
    ['f', 'Zg=='],
    ['fo', 'Zm8='],
    ['foo', 'Zm9v'],
    ['foob', 'Zm9vYg=='],
    ['fooba', 'Zm9vYmE='],
    ['foobar', 'Zm9vYmFy'],
  ])('%s', (text, code) => {
    expect(toBase64(utf8(text))).toBe(code);
    expect(toHex(fromBase64(code) as Uint8Array)).toBe(toHex(utf8(text)));
  });

  it('knows one form only', () => {
    for (const wrong of ['Zg', 'Zg=', 'Zh==', 'Zg==\n', 'Zm9_', '====']) expect(fromBase64(wrong)).toBeNull();
  });
});
