/** Whatever is put to the judge, it answers, keeps every result, and its verdict follows from what it lists. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judge } from '../../../machines/lab/judge/judge.ts';
import type { JudgeContext, LotResult } from '../../../machines/lab/judge/judge.types.ts';
import { LAB_TESTS, propertyOf } from '../../../machines/scenario/lab-tests.ts';
import { shippedSpecification } from './support.ts';

const SPECS = ['cutback-patch', 'emulsion-patch', 'dense-cold-laid'].map(shippedSpecification);
const PROPERTIES = [...new Set(SPECS.flatMap((spec) => spec.limits.map((limit) => limit.property)))];

const results: fc.Arbitrary<LotResult[]> = fc.array(
  fc
    .record({
      sample: fc.integer({ min: 1, max: 8 }),
      property: fc.constantFrom(...PROPERTIES),
      value: fc.oneof(
        fc.double({ min: -10, max: 2000, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
      ),
      retest: fc.integer({ min: 0, max: 3 }),
    })
    .map((one) => {
      const known = propertyOf(one.property);
      return { ...one, test: known?.test ?? 'aggregate', unit: known?.unit ?? '' };
    }),
  { maxLength: 40 },
);

const context: fc.Arbitrary<JudgeContext> = fc.record({
  absorptionPct: fc.option(fc.double({ min: 0, max: 3, noNaN: true }), { nil: null }),
  lotGrams: fc.integer({ min: 0, max: 12_000_000 }),
  fullLotGrams: fc.constant(10_000_000),
  closed: fc.boolean(),
  samples: fc.array(
    fc.record({
      n: fc.integer({ min: 1, max: 8 }),
      test: fc.constantFrom(...LAB_TESTS),
      state: fc.constantFrom('ahead', 'due', 'taken', 'missed', 'not reached', 'logged'),
    }),
    { maxLength: 8 },
  ),
});

const RUNS = { numRuns: 300, seed: 20261125 };

describe('the judge', () => {
  it('answers anything, keeps all results, and its verdict follows from what it lists', () => {
    fc.assert(
      fc.property(fc.constantFrom(...SPECS), results, context, (spec, given, around) => {
        const told = judge(spec, given, around);
        expect(told.results.map(({ value }) => value)).toEqual(given.map(({ value }) => value));
        const verdict =
          told.failing.length > 0
            ? 'fail'
            : told.missing.length > 0 || !around.closed
              ? 'incomplete'
              : 'pass';
        expect(told.verdict).toBe(verdict);
        expect(told.words.length).toBeGreaterThan(5);
        for (const { have, wanted } of told.missing) expect(have).toBeLessThan(wanted);
      }),
      RUNS,
    );
  });

  it('does not depend on the order results come in', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...SPECS),
        fc.uniqueArray(
          results.map((all) => all[0]).filter((one) => one !== undefined),
          {
            selector: (one) => `${one.sample} ${one.property} ${one.retest}`,
            maxLength: 25,
          },
        ),
        context,
        (spec, given, around) => {
          const said = (all: readonly LotResult[]) => {
            const { verdict, failing, missing } = judge(spec, all, around);
            return {
              verdict,
              failing: failing.map((one) => one.words.replace(/samples? [\d, ]+/, '')).sort(),
              missing: missing.map((one) => one.have),
            };
          };
          expect(said([...given].reverse())).toEqual(said(given));
        },
      ),
      RUNS,
    );
  });

  it('never passes a lot with a result outside under the rule that each must lie within', () => {
    const spec = SPECS[1] as (typeof SPECS)[number];
    fc.assert(
      fc.property(results, context, (given, around) => {
        const first = given.filter(
          (one, i) =>
            one.retest === 0 &&
            given.findIndex((other) => other.sample === one.sample && other.property === one.property) === i,
        );
        const told = judge(spec, first, around);
        if (told.results.some((one) => one.within === false)) expect(told.verdict).toBe('fail');
      }),
      RUNS,
    );
  });
});
