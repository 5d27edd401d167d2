/** Results that count held against their limits, by the rule the profile takes for their test. */
import { type LabTest, propertyOf } from '../../scenario/lab-tests.ts';
import type { Limit, Rule, Specification } from '../../scenario/specification.schema.ts';
import { mean } from '../stats/describe.ts';
import { PWL_LEAST_N, pwlOf } from '../stats/pwl.ts';
import type { Failing } from './judge.types.ts';
import { limitsOn, limitWords, propertyWords, valueWords, windowOf, worstBroken } from './limits.ts';
import type { Counted } from './retests.ts';

export type Held = { readonly failing: readonly Failing[]; readonly notes: readonly string[] };

/** Three results are needed for a share; with fewer each must lie within. */
export const ruleFor = (spec: Specification, test: LabTest, n: number): Rule => {
  const asked = spec.verdict.byTest[test] ?? spec.verdict.rule;
  return asked === 'share within' && n < PWL_LEAST_N ? 'each' : asked;
};

const sampleWords = (samples: readonly number[]): string =>
  `${samples.length === 1 ? 'sample' : 'samples'} ${samples.join(', ')}`;

const failure = (
  test: LabTest,
  rule: Rule,
  limit: Limit,
  value: number,
  samples: readonly number[],
  words: string,
): Failing => ({ test, rule, limit, property: limit.property, value, samples, words });

const byEach = (test: LabTest, limits: readonly Limit[], counted: readonly Counted[]): Failing[] =>
  counted.flatMap((one) =>
    one.values.flatMap((value) =>
      worstBroken(value, limits).map((limit) =>
        failure(
          test,
          'each',
          limit,
          value,
          [one.sample],
          `${propertyWords(one.property)} of sample ${one.sample}: ${valueWords(one.property, value)}${one.of.length > 1 ? ' with its retest' : ''}, and the limit is ${limitWords(limit)}`,
        ),
      ),
    ),
  );

const byMean = (test: LabTest, limits: readonly Limit[], counted: readonly Counted[]): Failing[] => {
  const value = mean(counted.flatMap((one) => one.values));
  const samples = counted.map((one) => one.sample);
  return worstBroken(value, limits).map((limit) =>
    failure(
      test,
      'mean',
      limit,
      value,
      samples,
      `mean ${propertyWords(limit.property)} of ${sampleWords(samples)}: ${valueWords(limit.property, value)}, and the limit is ${limitWords(limit)}`,
    ),
  );
};

const byShare = (
  spec: Specification,
  test: LabTest,
  limits: readonly Limit[],
  counted: readonly Counted[],
): Failing[] => {
  const pwl = pwlOf(
    counted.flatMap((one) => one.values),
    windowOf(limits),
  );
  const [limit] = limits;
  const { leastPwlPct } = spec.verdict;
  if (pwl === null || limit === undefined || pwl.withinPct >= leastPwlPct) return [];
  const samples = counted.map((one) => one.sample);
  return [
    failure(
      test,
      'share within',
      limit,
      pwl.withinPct,
      samples,
      `${propertyWords(limit.property)}: ${pwl.withinPct.toFixed(1)} % of the lot is estimated within ${limits.map(limitWords).join(' and ')} from ${sampleWords(samples)}, and ${leastPwlPct} % is asked for`,
    ),
  ];
};

/** What fails among the results that count, property by property. */
export const hold = (
  spec: Specification,
  counted: readonly Counted[],
  absorptionPct: number | null,
): Held => {
  const notes = new Set<string>();
  const properties = [...new Set(counted.map((one) => one.property))];
  const failing = properties.flatMap((property): Failing[] => {
    const own = counted.filter((one) => one.property === property);
    const test = own[0]?.of[0]?.test ?? propertyOf(property)?.test;
    const limits = limitsOn(spec, property, absorptionPct);
    if (test === undefined || limits.length === 0) return [];
    const n = own.flatMap((one) => one.values).length;
    const asked = spec.verdict.byTest[test] ?? spec.verdict.rule;
    const rule = ruleFor(spec, test, n);
    if (asked !== rule)
      notes.add(
        `${test}: ${n} ${n === 1 ? 'result is' : 'results are'} too few for the share within limits, so each must lie within.`,
      );
    if (rule === 'each') return byEach(test, limits, own);
    return rule === 'mean' ? byMean(test, limits, own) : byShare(spec, test, limits, own);
  });
  return { failing, notes: [...notes] };
};
