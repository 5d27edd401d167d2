/** The sealed sampling plan: drawn by strata, committed before anything is made, called where it says, opened at the end. */
import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawPlan, nonceOf, planText, samplesOf } from '../../machines/lab/plan.ts';
import { planChecker } from '../../machines/lab/plan-checker.ts';
import { type SealedLot, sealFindings, sha256Hex } from '../../machines/lab/seal-check.ts';
import type { Fact } from '../../machines/line/facts.ts';
import type { Entry } from '../../machines/record/entry.ts';
import { LOT, TestLab } from './support/lab.ts';

/** OpenSSL's, through Node: the program's own comes from another library. */
const sha256 = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');
const SEVEN = { gradation: 2, 'binder content': 2, bond: 1, workability: 1, 'water resistance': 1 };

describe('a plan', () => {
  it('has the samples of the specification, each test by equal parts of the lot', () => {
    expect(samplesOf(SEVEN).map(({ test, part, ofParts }) => `${test} ${part}/${ofParts}`)).toEqual([
      'gradation 1/2',
      'gradation 2/2',
      'binder content 1/2',
      'binder content 2/2',
      'bond 1/1',
      'workability 1/1',
      'water resistance 1/1',
    ]);
    expect(samplesOf({ gradation: 0 })).toEqual([]);
  });

  it('draws one tonnage in each part, whatever secret, lot, mass and frequency (ASTM D3665 by sublots)', () => {
    const hex = fc.stringMatching(/^[0-9a-f]{64}$/);
    fc.assert(
      fc.property(
        hex,
        fc.integer({ min: 1000, max: 60_000 }),
        fc.integer({ min: 1, max: 10 }),
        (secret, ofKg, k) => {
          for (const { part, ofParts, atKg } of drawPlan(
            sha256,
            secret,
            '260511-1',
            ofKg,
            samplesOf({ gradation: k }),
          )) {
            expect(atKg).toBeGreaterThanOrEqual(Math.floor(((part - 1) * ofKg) / ofParts));
            expect(atKg).toBeLessThan((part * ofKg) / ofParts);
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('draws evenly: the tonnages of 2,000 lots fill ten equal bins (chi-square below 27.9, 0.1 % of 9 degrees)', () => {
    const bins = Array.from({ length: 10 }, () => 0);
    for (let lot = 0; lot < 2000; lot += 1) {
      const [one] = drawPlan(sha256, 'cd'.repeat(32), `260511-${lot}`, 10_000, samplesOf({ bond: 1 }));
      const bin = Math.floor((one?.atKg ?? 0) / 1000);
      bins[bin] = (bins[bin] ?? 0) + 1;
    }
    const chi = bins.reduce((sum, n) => sum + (n - 200) ** 2 / 200, 0);
    // NIST/SEMATECH e-Handbook 1.3.6.7.4: upper critical value of chi-square, 9 degrees of freedom, 0.001.
    expect(chi).toBeLessThan(27.877);
  });

  it('of another secret or lot is another plan, and one number says nothing of the next', () => {
    const at = (secret: string, lot: string) =>
      drawPlan(sha256, secret, lot, 10_000, samplesOf(SEVEN))
        .map((one) => one.atKg)
        .join();
    expect(at('ab'.repeat(32), '1')).not.toBe(at('ac'.repeat(32), '1'));
    expect(at('ab'.repeat(32), '1')).not.toBe(at('ab'.repeat(32), '2'));
    expect(nonceOf(sha256, 'ab'.repeat(32), '1')).toMatch(/^[0-9a-f]{64}$/);
  });

  it('is committed by the SHA-256 of its canonical JSON, the same by two libraries', () => {
    const text = planText('260511-1', 'ff', [{ test: 'bond', n: 1, atKg: 812 }]);
    expect(text).toBe('{"lot":"260511-1","nonce":"ff","samples":[{"atKg":812,"n":1,"test":"bond"}]}');
    expect(sha256Hex(text)).toBe(sha256(text));
    // FIPS 180-2, appendix B.1: the digest of "abc".
    expect(sha256Hex('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });
});

describe('an opened plan', () => {
  const lot = (): SealedLot => new TestLab().fill().lot();
  const changed = (change: (lot: SealedLot) => SealedLot) => sealFindings(change(lot())).join('; ');
  const plan = (one: SealedLot) => one.plan as NonNullable<SealedLot['plan']>;
  const atKg = (one: SealedLot, i: number, to: number) =>
    plan(one).atKg?.map((kg, k) => (k === i ? to : kg)) ?? null;

  it('holds when nothing was changed', () => {
    expect(sealFindings(lot())).toEqual([]);
  });

  it.each<[string, (lot: SealedLot) => SealedLot, RegExp]>([
    [
      'a tonnage is another',
      (one) => ({ ...one, plan: { ...plan(one), atKg: atKg(one, 2, 813) } }),
      /has the hash/,
    ],
    [
      'the nonce is another',
      (one) => ({ ...one, plan: { ...plan(one), nonce: 'ee'.repeat(32) } }),
      /has the hash/,
    ],
    [
      'the commitment is another',
      (one) => ({ ...one, plan: { ...plan(one), commitment: '0'.repeat(64) } }),
      /has the hash/,
    ],
    [
      'a test was exchanged',
      (one) => ({ ...one, samples: one.samples.map((s) => (s.n === 5 ? { ...s, test: 'gradation' } : s)) }),
      /has the hash/,
    ],
    [
      'a tonnage lies in the wrong half',
      (one) => ({ ...one, plan: { ...plan(one), atKg: atKg(one, 0, 7000) } }),
      /part 1 of 2/,
    ],
    [
      'a sample was called for another tonnage',
      (one) => ({ ...one, samples: one.samples.map((s) => (s.n === 3 ? { ...s, atKg: 900 } : s)) }),
      /called for 900 kg/,
    ],
    [
      'a sample was called late',
      (one) => ({
        ...one,
        samples: one.samples.map((s) => (s.n === 3 ? { ...s, calledAtGrams: 3_000_000 } : s)),
      }),
      /called late/,
    ],
    [
      'a sample was called early',
      (one) => ({ ...one, samples: one.samples.map((s) => (s.n === 4 ? { ...s, calledAtGrams: 0 } : s)) }),
      /called early/,
    ],
    [
      'a sample was never called',
      (one) => ({
        ...one,
        samples: one.samples.map((s) => (s.n === 4 ? { ...s, atKg: null, calledAtGrams: null } : s)),
      }),
      /never called/,
    ],
    [
      'there are fewer tonnages than samples',
      (one) => ({ ...one, plan: { ...plan(one), atKg: [1] } }),
      /1 tonnages for 7/,
    ],
  ])('is found out when %s', (_, change, words) => {
    expect(changed(change)).toMatch(words);
  });
});

describe('the check of a whole record', () => {
  const facts = (): Fact[] => {
    const told: Fact[] = [];
    const lab = new TestLab();
    const tell = lab.tell.bind(lab);
    lab.tell = (...more: Fact[]) => {
      told.push(...more);
      return tell(...more);
    };
    lab.fill();
    return told;
  };
  const check = (told: readonly Fact[]) => {
    const { scenario } = new TestLab();
    const checker = planChecker(() => scenario);
    const common = { atMs: 0, wall: '', prev: '', hash: '' };
    checker.take({ ...common, seq: 1, kind: 'opening', body: { scenarioDigest: 'x' } } as unknown as Entry);
    told.forEach((fact, i) => {
      checker.take({ ...common, seq: i + 2, kind: 'fact', body: { tick: i, fact } });
    });
    return checker.finish();
  };

  it('finds every opened plan to hold', () => {
    expect(check(facts())).toEqual({ hold: 1, sealed: [], findings: [] });
  });

  it('names the lot and the entry when one does not', () => {
    const told = facts().map((fact) =>
      fact.is === 'samplePlanOpened' ? { ...fact, atKg: fact.atKg.map((kg) => kg + 1) } : fact,
    );
    const { findings } = check(told);
    expect(findings[0]).toMatchObject({ kind: 'sampling plan', seq: told.length + 1 });
    expect(findings[0]?.detail).toContain(`sampling plan of lot ${LOT}`);
  });

  it('finds a closed lot whose plan was never opened, and leaves an open lot sealed', () => {
    const told = facts();
    expect(check(told.slice(0, -1)).findings[0]?.detail).toContain('never opened');
    expect(check(told.slice(0, -2))).toMatchObject({ sealed: [LOT], findings: [] });
  });
});
