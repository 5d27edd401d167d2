/** A specification file: what a mix must hold, how often it is sampled, and by which rules a lot is judged. */
import { z } from 'zod';
import { LAB_TESTS, propertyOf } from './lab-tests.ts';

const id = z.string().regex(/^[a-z0-9][a-z0-9-]*$/, 'use lower-case letters, digits and hyphens');
const test = z.enum(LAB_TESTS);
const words = z.string().min(1);

/** How far a figure can be relied on. */
export const STATUSES = ['published', 'common practice', 'from memory'] as const;
const status = z.enum(STATUSES);

const limitSchema = z.strictObject({
  /** Id of a property (`machines/scenario/lab-tests.ts`), such as residualBinderMixPct or passing:4.75. */
  property: z.string().refine((name) => propertyOf(name) !== null, {
    error:
      'is no property a test gives: see passing:<sieve in mm>, residualBinderMixPct, coatedPct and others',
  }),
  from: z.number().optional(),
  to: z.number().optional(),
  unit: z.string(),
  /** Digits a result is rounded to before it is held against the limit (ASTM E29 rounding, from memory); else those of the property. */
  decimals: z.int().min(0).max(4).optional(),
  source: words,
  status,
  /** Holds only for stone whose water absorption lies strictly between; unknown absorption leaves it out and says so. */
  when: z
    .strictObject({
      absorptionFromPct: z.number().min(0).max(10).optional(),
      absorptionToPct: z.number().min(0).max(10).optional(),
    })
    .optional(),
});

const frequencies = z.partialRecord(test, z.int().min(0).max(10));

/**
 * How the results of one test make a verdict: each within its limits, their mean within, or the estimated share of the
 * lot within at least `leastPwlPct` (beta estimator, n 3 or more).
 */
export const RULES = ['each', 'mean', 'share within'] as const;
const rule = z.enum(RULES);

const timed = z.strictObject({ days: z.int().min(1).max(3660), source: words, status });

export const specificationSchema = z
  .strictObject({
    kind: z.literal('specification'),
    id,
    version: z.int().positive(),
    name: words,
    /** Which mixes it is for; `either` leaves it open. */
    family: z.enum(['emulsion', 'cutback', 'either']),
    /** Where it comes from, in words. */
    source: words,
    /** Samples of each test a full lot gives. */
    frequencies: frequencies.refine((all) => Object.values(all).some((n) => n > 0), {
      error: 'a lot without a sample cannot be judged: ask for at least one',
    }),
    /** kg each test needs; as much again is kept back for a retest. */
    sampleKg: z.partialRecord(test, z.number().positive().max(100)).default({}),
    limits: z.array(limitSchema).min(1),
    /** A lot closed below this share of its intended mass needs these samples only; further ones taken count too. */
    shortLot: z.strictObject({
      belowPct: z.number().positive().max(100),
      frequencies,
      why: words,
    }),
    /**
     * replace: one taken from the bay stands in for it; judge without: the lot is judged on the rest while each test has
     * at least `leastEach`; hold: no verdict without it.
     */
    missedSample: z.strictObject({
      rule: z.enum(['replace', 'judge without', 'hold']),
      leastEach: z.int().min(1).max(10).default(1),
      why: words,
    }),
    verdict: z.strictObject({
      rule,
      /** Tests judged by another rule than the rest. */
      byTest: z.partialRecord(test, rule).default({}),
      leastPwlPct: z.number().min(50).max(100).default(90),
      why: words,
    }),
    /** Both results are kept whatever counts. */
    retest: z.strictObject({
      counts: z.enum(['the retest', 'the mean of both', 'both']),
      most: z.int().min(0).max(5),
      why: words,
    }),
    /** How long released material keeps, and how long a retained portion is. */
    shelfLife: timed,
    retained: timed,
  })
  .superRefine((spec, ctx) => {
    const say = (path: (string | number)[], message: string) =>
      ctx.addIssue({ code: 'custom', path, message });
    spec.limits.forEach((limit, i) => {
      const property = propertyOf(limit.property);
      if (property === null) return;
      if (limit.unit !== property.unit)
        say(
          ['limits', i, 'unit'],
          `${limit.property} is given in ${property.unit === '' ? "no unit: write ''" : property.unit}`,
        );
      if (limit.from === undefined && limit.to === undefined)
        say(['limits', i, 'from'], 'a limit needs from, to or both');
      if (limit.from !== undefined && limit.to !== undefined && limit.from > limit.to)
        say(['limits', i, 'from'], `from ${limit.from} lies above to ${limit.to}: nothing could pass`);
      for (const side of ['from', 'to'] as const) {
        const value = limit[side];
        if (value !== undefined && (value < property.least || value > property.most))
          say(['limits', i, side], `${property.words} lies between ${property.least} and ${property.most}`);
      }
      const { absorptionFromPct: low, absorptionToPct: high } = limit.when ?? {};
      if (limit.when !== undefined && low === undefined && high === undefined)
        say(['limits', i, 'when'], 'a condition needs absorptionFromPct, absorptionToPct or both');
      if (low !== undefined && high !== undefined && low >= high)
        say(['limits', i, 'when'], 'absorptionFromPct must lie below absorptionToPct');
    });
    for (const [name, n] of Object.entries(spec.shortLot.frequencies))
      if (n > (spec.frequencies[name as keyof typeof spec.frequencies] ?? 0))
        say(['shortLot', 'frequencies', name], 'a short lot cannot need more samples than a full one');
    for (const name of Object.keys(spec.frequencies)) {
      const own = spec.verdict.byTest[name as keyof typeof spec.frequencies] ?? spec.verdict.rule;
      if (own === 'share within' && (spec.frequencies[name as keyof typeof spec.frequencies] ?? 0) < 3)
        say(
          ['verdict'],
          `the share within limits needs 3 results or more of ${name}: ask for more samples or another rule`,
        );
    }
  });

export type Specification = z.infer<typeof specificationSchema>;
export type Limit = Specification['limits'][number];
export type Rule = (typeof RULES)[number];
