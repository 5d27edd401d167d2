/**
 * A proof file: a few entries of a sealed shift, each with its RFC 6962 inclusion path to the sealed root. It
 * shows that they were sealed without showing anything else of the shift.
 */
import { z } from 'zod';
import { fromHex, toHex, utf8 } from './bytes.ts';
import { canonical } from './canonical.ts';
import type { RecordCrypto } from './crypto.types.ts';
import type { Entry } from './entry.ts';
import type { Finding, SealFile } from './export.types.ts';
import { leafHash, rootFromProof } from './merkle.ts';
import { sealItselfFindings } from './verify-seal.ts';

export const PROOF_FORMAT = 1;
const digest = z.string().regex(/^[0-9a-f]{64}$/, 'is not 64 hex digits');

const provenSchema = z.strictObject({
  /** The exact text the leaf was made from: the entry without its hash, RFC 8785. */
  text: z.string().max(4_000_000),
  index: z.int().min(0),
  path: z.array(digest).max(64),
});

export const proofSchema = z.strictObject({
  format: z.literal(PROOF_FORMAT),
  what: z.literal('patchyard proof'),
  /** What was asked for, in words. */
  about: z.string().max(300),
  seal: z.looseObject({ kind: z.literal('seal') }),
  rotations: z.array(z.looseObject({ kind: z.literal('keyRotated') })).max(1000),
  entries: z.array(provenSchema).min(1).max(100_000),
});
export type Proof = z.infer<typeof proofSchema>;

export type ProofVerdict =
  | {
      readonly result: 'intact';
      readonly about: string;
      readonly entries: number;
      readonly root: string;
      readonly key: string;
    }
  | { readonly result: 'altered'; readonly findings: readonly Finding[] };

const finding = (kind: Finding['kind'], seq: number | null, detail: string): Finding => ({
  kind,
  seq,
  file: null,
  detail,
});

/** What is wrong with one entry of a proof, or null. */
const whyNotProven = (
  { text, index, path }: Proof['entries'][number],
  seal: Extract<Entry, { kind: 'seal' }>,
  crypto: RecordCrypto,
): Finding | null => {
  const { body } = seal;
  const seq = body.first + index;
  const steps = path.map(fromHex).filter((step) => step !== null);
  const root = rootFromProof(leafHash(utf8(text), crypto.sha256), index, body.count, steps, crypto.sha256);
  if (root === null || toHex(root) !== body.root)
    return finding('entry altered', seq, `entry ${seq} and its path do not lead to the sealed root`);
  try {
    const entry = JSON.parse(text) as Entry;
    if (entry.seq === seq && canonical(entry) === text) return null;
  } catch {
    // Said below.
  }
  return finding('entry altered', seq, `what stands for entry ${seq} is not that entry`);
};

/** Checks a proof by itself. `pinned`: fingerprint the seal must be made with or led to. */
export const verifyProof = async (
  proof: Proof,
  crypto: RecordCrypto,
  pinned?: string,
): Promise<ProofVerdict> => {
  const seal = proof.seal as unknown as SealFile['seal'];
  const rotations = proof.rotations as unknown as SealFile['rotations'];
  const findings = [
    ...(await sealItselfFindings({ seal, countersignatures: [], rotations }, pinned, crypto)),
    ...proof.entries.map((one) => whyNotProven(one, seal, crypto)).filter((one) => one !== null),
  ];
  if (findings.length > 0) return { result: 'altered', findings: findings.slice(0, 50) };
  const { root, key } = seal.body;
  return { result: 'intact', about: proof.about, entries: proof.entries.length, root, key };
};
