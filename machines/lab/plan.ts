/**
 * A lot's sealed sampling plan: drawn from a secret, committed by its hash, opened when the lot is closed.
 *
 * Random stratified sampling as ASTM D3665 does by sublots: a test that takes k samples has the lot cut in k equal
 * parts, and one tonnage is drawn in each.
 */
import { canonical } from '../record/canonical.ts';

export type PlannedSample = {
  readonly n: number;
  readonly test: string;
  readonly part: number;
  readonly ofParts: number;
};
export type DrawnSample = PlannedSample & { readonly atKg: number };

/** SHA-256 of a text's UTF-8 form, lower-case hex. */
export type Sha256 = (text: string) => string;

/** Samples of one lot, in the order of the tests, without their tonnages. */
export const samplesOf = (frequencies: { readonly [test: string]: number | undefined }): PlannedSample[] => {
  const samples: PlannedSample[] = [];
  for (const [test, ofParts = 0] of Object.entries(frequencies))
    for (let part = 1; part <= ofParts; part += 1)
      samples.push({ n: samples.length + 1, test, part, ofParts });
  return samples;
};

/** A number from 0 up to 1 that nobody can tell without the secret: the first 48 bits of a hash. */
const unitFrom = (sha256: Sha256, text: string): number =>
  Number.parseInt(sha256(text).slice(0, 12), 16) / 2 ** 48;

/** The nonce of a lot: keeps the commitment from being found by trying tonnages. 32 bytes, hex. */
export const nonceOf = (sha256: Sha256, secret: string, lot: string): string =>
  sha256(`patchyard sampling nonce\n${secret}\n${lot}`);

/** Tonnages in whole kg, each in its own part of the lot. `secret` is hex; the same secret draws the same plan. */
export const drawPlan = (
  sha256: Sha256,
  secret: string,
  lot: string,
  ofKg: number,
  samples: readonly PlannedSample[],
): DrawnSample[] =>
  samples.map((sample) => {
    const unit = unitFrom(sha256, `patchyard sampling tonnage\n${secret}\n${lot}\n${sample.n}`);
    return { ...sample, atKg: Math.floor(((sample.part - 1 + unit) * ofKg) / sample.ofParts) };
  });

/** The text whose SHA-256 is the commitment: RFC 8785 form of {lot, nonce, samples: [{n, test, atKg}]}. */
export const planText = (
  lot: string,
  nonce: string,
  samples: readonly { readonly n: number; readonly test: string; readonly atKg: number }[],
): string => canonical({ lot, nonce, samples: samples.map(({ n, test, atKg }) => ({ n, test, atKg })) });
