/** Checks an opened sampling plan against its commitment, and that samples were called at its tonnages. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { planText } from './plan.ts';

export const sha256Hex = (text: string): string => bytesToHex(sha256(utf8ToBytes(text)));

/** What the check needs of a lot; the lab book's lots have it all. */
export type SealedLot = {
  readonly lot: string;
  /** Mass a full lot has, kg; 0 when it is not known: then where each part begins and ends is not checked. */
  readonly ofKg: number;
  readonly batches: readonly number[];
  /** Mass of each of these batches, g. */
  readonly batchGrams: readonly number[];
  readonly plan: null | {
    readonly commitment: string;
    readonly nonce: string | null;
    readonly atKg: readonly number[] | null;
  };
  readonly samples: readonly {
    readonly n: number;
    readonly test: string;
    readonly part: number;
    readonly ofParts: number;
    /** Tonnage it was called at, kg; null when it never was. */
    readonly atKg: number | null;
    /** What lay in the lot when it was called, g. */
    readonly calledAtGrams: number | null;
  }[];
};

/** The heaviest batch of a lot, g: nothing can be called further ahead than one batch. */
const heaviest = (lot: SealedLot): number => lot.batchGrams.reduce((most, grams) => Math.max(most, grams), 0);

/** What speaks against an opened plan, in words; empty when it holds. A plan not opened yet has nothing to check. */
export const sealFindings = (lot: SealedLot): string[] => {
  const { plan } = lot;
  if (plan === null || plan.nonce === null || plan.atKg === null) return [];
  if (plan.atKg.length !== lot.samples.length)
    return [`it was opened with ${plan.atKg.length} tonnages for ${lot.samples.length} samples`];
  const opened = lot.samples.map((sample, i) => ({ ...sample, openedKg: plan.atKg?.[i] ?? Number.NaN }));
  const findings: string[] = [];
  const text = planText(
    lot.lot,
    plan.nonce,
    opened.map(({ n, test, openedKg }) => ({ n, test, atKg: openedKg })),
  );
  const hash = sha256Hex(text);
  if (hash !== plan.commitment)
    findings.push(`what was opened has the hash ${hash}, what was committed is ${plan.commitment}`);
  const totalGrams = lot.batchGrams.reduce((sum, grams) => sum + grams, 0);
  const furthest = heaviest(lot);
  for (const { n, part, ofParts, atKg, calledAtGrams, openedKg } of opened) {
    if (lot.ofKg > 0) {
      const fromKg = ((part - 1) * lot.ofKg) / ofParts;
      if (openedKg < Math.floor(fromKg) || openedKg >= (part * lot.ofKg) / ofParts)
        findings.push(`sample ${n} at ${openedKg} kg does not lie in part ${part} of ${ofParts}`);
    }
    if (atKg === null) {
      if (openedKg * 1000 < totalGrams)
        findings.push(
          `sample ${n} at ${openedKg} kg was never called, though the lot came to ${totalGrams / 1000} kg`,
        );
      continue;
    }
    if (atKg !== openedKg)
      findings.push(`sample ${n} was called for ${atKg} kg and opened as ${openedKg} kg`);
    if (calledAtGrams === null) continue;
    if (calledAtGrams > openedKg * 1000)
      findings.push(`sample ${n} at ${openedKg} kg was called late, at ${calledAtGrams / 1000} kg`);
    if (furthest > 0 && openedKg * 1000 > calledAtGrams + 2 * furthest)
      findings.push(`sample ${n} at ${openedKg} kg was called early, at ${calledAtGrams / 1000} kg`);
  }
  return findings;
};
