/** Proof files and changes of key: they hold for what was sealed and for nothing else. */
import { describe, expect, it } from 'vitest';
import { toHex } from '../../machines/record/bytes.ts';
import { inclusionPath, leafHash, merkleLevels } from '../../machines/record/merkle.ts';
import { type Proof, proofSchema, verifyProof } from '../../machines/record/proof.ts';
import { rotateKey } from '../../machines/record/seal.ts';
import { NODE_CRYPTO } from '../../server/seal/node-crypto.ts';
import { chainOf, sealOver, testKey, tinyContents } from './support/made-export.ts';

const PLANT = testKey(1);
const chain = chainOf(tinyContents(20));
const seal = sealOver(chain, PLANT);
const levels = merkleLevels(
  chain.map(({ text }) => leafHash(Buffer.from(text), NODE_CRYPTO.sha256)),
  NODE_CRYPTO.sha256,
);
const proven = (index: number): Proof['entries'][number] => ({
  text: chain[index]?.text ?? '',
  index,
  path: inclusionPath(levels, index).map(toHex),
});
const proofOf = (...indexes: number[]): Proof =>
  proofSchema.parse({
    ...{ format: 1, what: 'patchyard proof', about: 'entries' },
    ...{ seal, rotations: [], entries: indexes.map(proven) },
  });
const kinds = async (proof: Proof, key?: string): Promise<string[]> => {
  const verdict = await verifyProof(proof, NODE_CRYPTO, key);
  return verdict.result === 'intact' ? ['intact'] : verdict.findings.map(({ kind }) => kind);
};

describe('a proof', () => {
  it('of any entry holds by itself', async () => {
    for (let index = 0; index < chain.length; index++)
      expect(await kinds(proofOf(index))).toEqual(['intact']);
    expect(await kinds(proofOf(0, 5, 9), PLANT.fingerprint)).toEqual(['intact']);
  });

  it('does not hold with another text, place, path or key', async () => {
    const [entry] = proofOf(7).entries;
    if (entry === undefined) throw new Error('no entry');
    const bent = (change: Partial<typeof entry>): Proof => ({
      ...proofOf(7),
      entries: [{ ...entry, ...change }],
    });
    expect(await kinds(bent({ text: entry.text.replace('"hopperKg":12', '"hopperKg":13') }))).toEqual([
      'entry altered',
    ]);
    expect(await kinds(bent({ index: 8 }))).toEqual(['entry altered']);
    expect(await kinds(bent({ path: [...entry.path].reverse() }))).toEqual(['entry altered']);
    expect(await kinds(bent({ path: entry.path.slice(1) }))).toEqual(['entry altered']);
    expect(await kinds(proofOf(7), testKey(2).fingerprint)).toEqual(['wrong key']);
  });

  it('does not hold with a seal that was changed or made by somebody else', async () => {
    const changed = { ...seal, body: { ...seal.body, root: 'a'.repeat(64) } };
    expect(await kinds({ ...proofOf(7), seal: changed } as unknown as Proof)).toContain('seal mismatch');
    const forged = sealOver(chain, testKey(2));
    expect(await kinds({ ...proofOf(7), seal: forged } as unknown as Proof, PLANT.fingerprint)).toEqual([
      'wrong key',
    ]);
  });

  it('never throws for what stands in it', async () => {
    for (const text of ['', 'null', '[]', '{"seq":8}', '['.repeat(100_000)])
      expect(await kinds({ ...proofOf(7), entries: [{ ...proven(7), text }] })).toEqual(['entry altered']);
  });
});

describe('a change of key', () => {
  const next = testKey(9);
  const rotation = (reason: string, from = PLANT, to = next) =>
    chainOf([{ kind: 'keyRotated', body: rotateKey(from, to, reason) }], {
      seq: 500,
      hash: 'a'.repeat(64),
    })[0]?.entry;

  it('leads from one key to the other, both ways', async () => {
    const proof = { ...proofOf(3), rotations: [rotation('new keeper')] } as unknown as Proof;
    for (const key of [PLANT.fingerprint, next.fingerprint])
      expect(await kinds(proof, key)).toEqual(['intact']);
    expect(await kinds(proof, testKey(2).fingerprint)).toEqual(['wrong key']);
  });

  it('that only one of the keys has signed leads nowhere', async () => {
    for (const [from, to] of [
      [PLANT, { ...next, sign: testKey(2).sign }],
      [{ ...PLANT, sign: testKey(2).sign }, next],
    ] as const) {
      const proof = { ...proofOf(3), rotations: [rotation('stolen', from, to)] } as unknown as Proof;
      expect(await kinds(proof, next.fingerprint)).toContain('wrong key');
    }
  });

  it('before a seal puts the old key out of force', async () => {
    const made = chainOf([{ kind: 'keyRotated', body: rotateKey(PLANT, next, 'lost') }], {
      seq: 3,
      hash: 'a'.repeat(64),
    })[0];
    const proof = { ...proofOf(3), rotations: [made?.entry] } as unknown as Proof;
    expect(await kinds(proof)).toEqual(['wrong key']);
  });
});
