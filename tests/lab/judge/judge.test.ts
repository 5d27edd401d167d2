/** Verdicts on lots: limits and their rounding, what is missing, retests, short lots and missed samples. */
import { describe, expect, it } from 'vitest';
import { judge } from '../../../machines/lab/judge/judge.ts';
import { isWithin, limitWords, roundedTo } from '../../../machines/lab/judge/limits.ts';
import { passing, result, smallSpecification, wholeLot } from './support.ts';

const spec = smallSpecification();
const verdictWith = (results: Parameters<typeof judge>[1], context = wholeLot, of = spec) =>
  judge(of, results, context);

describe('limits', () => {
  // ASTM C136 and E29: a half goes to the even digit (rule from memory).
  it.each([
    [4.45, 1, 4.4],
    [4.55, 1, 4.6],
    [4.449, 1, 4.4],
    [5.55, 1, 5.6],
    [0.125, 2, 0.12],
    [-2.5, 0, -2],
    [1.005, 2, 1],
  ])('%f to %i digits is %f', (value, digits, rounded) => {
    expect(roundedTo(value, digits)).toBe(rounded);
  });

  const limit = spec.limits[0] as (typeof spec.limits)[number];
  it.each([
    [4.46, true],
    [4.44, false],
    [5.54, true],
    [5.56, false],
  ])('%f against 4.5 to 5.5 is rounded first: %s', (value, within) => {
    expect(isWithin(value, limit)).toBe(within);
  });

  it('are said in words with their unit', () => {
    expect(limitWords(limit)).toBe('4.5 to 5.5 %');
    expect(limitWords(spec.limits[1] as typeof limit)).toBe('at least 90 %');
    expect(limitWords({ property: 'bondKgCm2', from: 2, unit: 'kg/cm²', decimals: 1 })).toBe(
      'at least 2.0 kg/cm²',
    );
    expect(limitWords({ property: 'passing:9.5', from: 100, to: 100, unit: '%' })).toBe('100 %');
    expect(limitWords({ property: 'waterPct', to: 0.2, unit: '%' })).toBe('at most 0.2 %');
  });
});

describe('a verdict', () => {
  it('passes a lot whose every result is within', () => {
    const told = verdictWith(passing);
    expect(told.verdict).toBe('pass');
    expect(told.failing).toEqual([]);
    expect(told.missing).toEqual([]);
  });

  it('does not pass a lot that is still open', () => {
    expect(verdictWith(passing, { ...wholeLot, closed: false }).verdict).toBe('incomplete');
  });

  it('fails on one result outside, and says which, its value and its limit', () => {
    const told = verdictWith([result(1, 'residualBinderMixPct', 4.32), ...passing.slice(1)]);
    expect(told.verdict).toBe('fail');
    expect(told.failing).toHaveLength(1);
    expect(told.failing[0]).toMatchObject({ property: 'residualBinderMixPct', value: 4.32, samples: [1] });
    expect(told.words).toBe(
      'Fails: residual binder, of mix of sample 1: 4.32 %, and the limit is 4.5 to 5.5 %.',
    );
  });

  it('fails at once, even while results are missing, and lists both', () => {
    const told = verdictWith([result(3, 'coatedPct', 80)]);
    expect(told.verdict).toBe('fail');
    expect(told.missing.map((one) => one.test)).toEqual(['binder content']);
  });

  it('names each sample that has no result, and why', () => {
    const told = verdictWith(passing.slice(0, 1), {
      ...wholeLot,
      samples: [
        { n: 1, test: 'binder content', state: 'taken' },
        { n: 2, test: 'binder content', state: 'due' },
        { n: 3, test: 'water resistance', state: 'missed' },
      ],
    });
    expect(told.verdict).toBe('incomplete');
    expect(told.missing.map((one) => one.words)).toEqual([
      'binder content: 1 of 2 samples tested; sample 2 is due at the next discharge',
      'water resistance: 0 of 1 sample tested; sample 3 was missed: take one from the lot’s bay',
    ]);
  });

  it('counts a sample as tested only when every limited property is there', () => {
    const gradings = smallSpecification({
      frequencies: { gradation: 1 },
      limits: [4.75, 2.36].map((mm) => ({
        property: `passing:${mm}`,
        from: 10,
        to: 60,
        unit: '%',
        source: 'test',
        status: 'published' as const,
      })),
      shortLot: { belowPct: 50, frequencies: { gradation: 1 }, why: 'One.' },
    });
    const context = { ...wholeLot, samples: [{ n: 1, test: 'gradation', state: 'taken' }] } as const;
    const told = verdictWith([result(1, 'passing:4.75', 40)], context, gradings);
    expect(told.missing[0]?.words).toBe('gradation: 0 of 1 sample tested; sample 1 lacks passing 2.36 mm');
  });

  it('says of a result without a limit that there is none', () => {
    const told = verdictWith([...passing, result(1, 'residualBinderAggPct', 5.2)]);
    expect(told.results.at(-1)).toMatchObject({ within: null, counts: true });
    expect(told.results.at(-1)?.words).toContain('no limit');
  });
});

describe('limits that depend on water absorption', () => {
  const conditional = smallSpecification({
    limits: [
      ...spec.limits,
      {
        property: 'residualBinderMixPct',
        from: 5.5,
        unit: '%',
        decimals: 1,
        source: 'test',
        status: 'common practice',
        when: { absorptionFromPct: 1.5 },
      },
    ],
  });
  const at = (absorptionPct: number | null) =>
    verdictWith(passing, { ...wholeLot, absorptionPct }, conditional);

  it('hold only where the condition is met, ends left out', () => {
    expect(at(1.2).verdict).toBe('pass');
    expect(at(1.5).verdict).toBe('pass');
    expect(at(1.6).verdict).toBe('fail');
  });

  it('are left out while the absorption is unknown, and the judgement says so', () => {
    expect(at(null).verdict).toBe('pass');
    expect(at(null).notes.join(' ')).toContain('absorption of the stone is not known');
    expect(at(0.8).notes.join(' ')).not.toContain('absorption');
  });
});

describe('a retest', () => {
  const results = [
    result(1, 'residualBinderMixPct', 4.3),
    result(1, 'residualBinderMixPct', 4.8, 1),
    ...passing.slice(1),
  ];
  const under = (counts: (typeof spec)['retest']['counts'], most = 1) =>
    judge(smallSpecification({ retest: { counts, most, why: 'Because.' } }), results, wholeLot);

  it('keeps both results whatever counts', () => {
    for (const counts of ['the retest', 'the mean of both', 'both'] as const)
      expect(under(counts).results.map((one) => one.value)).toEqual([4.3, 4.8, 5.1, 95]);
  });

  it('takes the place of the first, where the profile says so', () => {
    const told = under('the retest');
    expect(told.verdict).toBe('pass');
    expect(told.results.map((one) => one.counts)).toEqual([false, true, true, true]);
    expect(told.notes).toContain('Sample 1 was tested again: the retest counts. Because.');
  });

  it('is taken together with the first: 4.55 rounds to 4.6 and passes', () => {
    expect(under('the mean of both').verdict).toBe('pass');
    const low = judge(
      smallSpecification({ retest: { counts: 'the mean of both', most: 1, why: 'Because.' } }),
      [result(1, 'residualBinderMixPct', 4.0), ...results.slice(1)],
      wholeLot,
    );
    expect(low.failing[0]).toMatchObject({ samples: [1] });
    expect(low.failing[0]?.value).toBeCloseTo(4.4, 10);
    expect(low.failing[0]?.words).toContain('with its retest');
  });

  it('does not help where both must hold', () => {
    expect(under('both').verdict).toBe('fail');
  });

  it('does not count beyond the number allowed', () => {
    const told = under('the retest', 0);
    expect(told.verdict).toBe('fail');
    expect(told.results[1]).toMatchObject({ counts: false });
    expect(told.results[1]?.words).toContain('the profile allows 0');
  });
});

describe('other rules of verdict', () => {
  const three = (rule: 'mean' | 'share within', leastPwlPct = 85) =>
    smallSpecification({
      frequencies: { 'binder content': 3, 'water resistance': 1 },
      verdict: { rule: 'each', byTest: { 'binder content': rule }, leastPwlPct, why: 'Test.' },
    });
  const of = (values: readonly number[]) => [
    ...values.map((value, i) => result(i + 1, 'residualBinderMixPct', value)),
    result(9, 'coatedPct', 95),
  ];
  const context = { ...wholeLot, samples: [] };

  it('mean: one result outside passes when the mean lies within', () => {
    expect(judge(three('mean'), of([4.2, 5.0, 5.0]), context).verdict).toBe('pass');
    const low = judge(three('mean'), of([4.2, 4.3, 4.4]), context);
    expect(low.failing[0]?.words).toBe(
      'mean residual binder, of mix of samples 1, 2, 3: 4.30 %, and the limit is 4.5 to 5.5 %',
    );
  });

  it('share within: estimated by the beta estimator, against what is asked for', () => {
    expect(judge(three('share within'), of([4.9, 5.0, 5.1]), context).verdict).toBe('pass');
    const wide = judge(three('share within'), of([4.5, 5.0, 5.5]), context);
    // Q = 0.5/0.5 = 1 on either side, n 3: 83.33 + 83.33 − 100.
    expect(wide.failing[0]?.value).toBeCloseTo(66.667, 3);
    expect(wide.failing[0]?.words).toContain('66.7 % of the lot is estimated within 4.5 to 5.5 %');
  });

  it('share within: fewer than three results are judged one by one, and the judgement says so', () => {
    const short = { ...context, lotGrams: 2_000_000 };
    const told = judge(three('share within'), of([4.9]), short);
    expect(told.verdict).toBe('pass');
    expect(told.notes.join(' ')).toContain('too few for the share within limits');
    expect(told.notes[0]).toContain('Closed short, below 50 % of its mass');
  });
});

describe('short lots and lost samples', () => {
  it('a short lot needs fewer samples, but those it has still count', () => {
    const short = { ...wholeLot, lotGrams: 4_900_000 };
    expect(
      verdictWith(
        [passing[0], passing[2]].filter((one) => one !== undefined),
        short,
      ).verdict,
    ).toBe('pass');
    expect(verdictWith(passing.slice(0, 2).concat(result(3, 'coatedPct', 80)), short).verdict).toBe('fail');
    const half = { ...wholeLot, lotGrams: 5_000_000 };
    expect(
      verdictWith(
        [passing[0], passing[2]].filter((one) => one !== undefined),
        half,
      ).verdict,
    ).toBe('incomplete');
  });

  const lost = {
    ...wholeLot,
    samples: [
      { n: 1, test: 'binder content', state: 'taken' },
      { n: 2, test: 'binder content', state: 'missed' },
      { n: 3, test: 'water resistance', state: 'taken' },
    ],
  } as const;
  const withRule = (rule: 'replace' | 'judge without' | 'hold', leastEach = 1) =>
    judge(
      smallSpecification({ missedSample: { rule, leastEach, why: 'Test.' } }),
      [result(1, 'residualBinderMixPct', 4.9), result(3, 'coatedPct', 95)],
      lost,
    );

  it('a missed sample is asked for again, left out, or holds the lot, as the profile says', () => {
    expect(withRule('replace').missing[0]?.words).toContain('take one from the lot’s bay');
    expect(withRule('judge without').verdict).toBe('pass');
    expect(withRule('judge without', 2).verdict).toBe('incomplete');
    expect(withRule('hold').missing[0]?.words).toContain('no verdict without it');
    for (const rule of ['replace', 'judge without', 'hold'] as const)
      expect(withRule(rule).notes[0]).toContain('Missed: sample 2');
  });

  it('a replacement from the bay makes it whole again', () => {
    const replaced = {
      ...lost,
      samples: [...lost.samples, { n: 4, test: 'binder content', state: 'logged' }],
    } as const;
    const told = judge(
      spec,
      [...passing.filter((one) => one.sample !== 2), result(4, 'residualBinderMixPct', 5.0)],
      replaced,
    );
    expect(told.verdict).toBe('pass');
  });
});
