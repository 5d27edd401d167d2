/** Acceptance chances of a plan: exact figures, and the judge itself put to thousands of drawn lots. */
import { describe, expect, it } from 'vitest';
import { judge } from '../../../machines/lab/judge/judge.ts';
import { normalCdf } from '../../../machines/lab/stats/distributions.ts';
import { acceptance, ocCurve, type Spread } from '../../../machines/lab/stats/oc-curve.ts';
import { type PlanInForce, planInForce } from '../../../machines/lab/stats/plan-in-force.ts';
import type { Specification } from '../../../machines/scenario/specification.schema.ts';
import { result, shippedSpecification, smallSpecification, wholeLot } from '../judge/support.ts';
import { normals } from './normals.ts';

const PROPERTY = 'residualBinderMixPct';
const SPREAD: Spread = { between: 0.12, test: 0.15 };
const planOf = (spec: Specification): PlanInForce => {
  const plan = planInForce(spec, PROPERTY, 0.8);
  if (plan === null) throw new Error('no plan');
  return plan;
};
const noRetest = (spec: Specification): Specification => ({ ...spec, retest: { ...spec.retest, most: 0 } });

describe('the plan in force', () => {
  it('is read from the specification: samples, limits, digits, rule, retest', () => {
    expect(planOf(shippedSpecification('emulsion-patch'))).toEqual({
      property: PROPERTY,
      test: 'binder content',
      n: 2,
      from: 4.5,
      to: 5.5,
      decimals: 1,
      rule: 'each',
      leastPwlPct: 90,
      retest: 'the mean of both',
    });
  });

  it('changes with the absorption of the stone', () => {
    expect(planInForce(shippedSpecification('emulsion-patch'), PROPERTY, 1.8)).toMatchObject({
      from: 5.5,
      to: 5.5,
    });
  });

  it('is none where no sample or no limit speaks of the property', () => {
    expect(planInForce(smallSpecification(), 'bondKgCm2', 0.8)).toBeNull();
    expect(planInForce(smallSpecification(), 'residualBinderAggPct', 0.8)).toBeNull();
  });
});

describe('closed forms', () => {
  it('each of n: the normal chance of one, to the power of n', () => {
    const plan = planOf(noRetest(smallSpecification()));
    const sigma = Math.hypot(0.12, 0.15);
    const one = normalCdf((5.55 - 4.6) / sigma) - normalCdf((4.45 - 4.6) / sigma);
    expect(acceptance(plan, SPREAD)(4.6)).toBeCloseTo(one ** 2, 12);
  });

  it('at the rounding edge half of the results pass, so a quarter of lots with two', () => {
    const plan = planOf(noRetest(smallSpecification()));
    expect(acceptance(plan, SPREAD)(4.45)).toBeCloseTo(0.25, 4);
  });

  it('without any spread a lot passes or not', () => {
    const none = { between: 0, test: 0 };
    for (const rule of ['each', 'mean', 'share within'] as const) {
      const chance = acceptance({ ...planOf(smallSpecification()), n: 3, rule, retest: null }, none);
      expect([chance(4.2), chance(5), chance(5.8)]).toEqual([0, 1, 0]);
    }
  });

  it('a retest whose result counts alone: p + (1 − p)·p when samples do not differ', () => {
    const plan: PlanInForce = { ...planOf(smallSpecification()), retest: 'the retest' };
    const p = normalCdf((5.55 - 4.5) / 0.15) - normalCdf((4.45 - 4.5) / 0.15);
    expect(acceptance(plan, { between: 0, test: 0.15 })(4.5)).toBeCloseTo((p + (1 - p) * p) ** 2, 6);
  });

  it('share within from n 4 with one limit: accepted when the mean lies Q·s above it', () => {
    // PWL = 50 + 100·Q/3 for n 4, so 75 % asks for Q 0.75; with σ very small against the distance all lots pass.
    const plan: PlanInForce = {
      ...planOf(smallSpecification()),
      to: null,
      n: 4,
      rule: 'share within',
      leastPwlPct: 75,
      retest: null,
    };
    const chance = acceptance(plan, { between: 0, test: 0.1 });
    expect(chance(6)).toBeCloseTo(1, 4);
    expect(chance(4)).toBeCloseTo(0, 6);
  });
});

/** Share of drawn lots the judge itself accepts: samples differ by `between`, tests by `test`, a failing sample is tested once more. */
const accepted = (spec: Specification, mean: number, lots: number, seed: number, retest: boolean): number => {
  const next = normals(seed);
  const n = spec.frequencies['binder content'] ?? 0;
  const only = { ...spec, frequencies: { 'binder content': n } };
  let passed = 0;
  for (let i = 0; i < lots; i += 1) {
    const samples = Array.from({ length: n }, () => mean + SPREAD.between * next());
    const first = samples.map((value, k) => result(k + 1, PROPERTY, value + SPREAD.test * next()));
    const context = { ...wholeLot, samples: [] };
    const told = judge(only, first, context);
    if (told.verdict === 'pass') passed += 1;
    else if (retest) {
      const bad = new Set(told.failing.flatMap((one) => one.samples));
      const again = [...bad].map((k) => result(k, PROPERTY, (samples[k - 1] ?? 0) + SPREAD.test * next(), 1));
      if (judge(only, [...first, ...again], context).verdict === 'pass') passed += 1;
    }
  }
  return passed / lots;
};

describe('against drawn lots put to the judge', () => {
  const LOTS = 600;
  const plans: readonly (readonly [string, Specification])[] = [
    ['each, no retest', noRetest(smallSpecification())],
    ['each, the retest counts', smallSpecification()],
    [
      'each, the mean of both counts',
      smallSpecification({ retest: { counts: 'the mean of both', most: 1, why: 'T.' } }),
    ],
    [
      'mean of three',
      noRetest(
        smallSpecification({
          frequencies: { 'binder content': 3 },
          verdict: { rule: 'mean', byTest: {}, leastPwlPct: 90, why: 'T.' },
        }),
      ),
    ],
    [
      'share within from four',
      noRetest(
        smallSpecification({
          frequencies: { 'binder content': 4 },
          verdict: { rule: 'share within', byTest: {}, leastPwlPct: 85, why: 'T.' },
        }),
      ),
    ],
  ];

  it.each(plans)('%s', (_, spec) => {
    const chance = acceptance(planOf(spec), SPREAD);
    [4.2, 4.5, 4.7, 5.3].forEach((mean, i) => {
      const p = chance(mean);
      const drawn = accepted(spec, mean, LOTS, 1000 + i, spec.retest.most > 0);
      // Four standard deviations of a share of 600, and a hair for shares near 0 or 1.
      const slack = 4 * Math.sqrt((p * (1 - p)) / LOTS) + 0.002;
      expect(Math.abs(drawn - p), `mean ${mean}: computed ${p}, drawn ${drawn}`).toBeLessThan(slack);
    });
  });
});

describe('what chance has a lot at 4.2 %', () => {
  const spec = shippedSpecification('emulsion-patch');
  const chance = acceptance(planOf(spec), SPREAD);

  it('of being accepted: small, more with the retest than without, and far less than a lot at 5.0 %', () => {
    const strict = acceptance(planOf(noRetest(spec)), SPREAD);
    expect(chance(4.2)).toBeGreaterThan(strict(4.2));
    // Normal table: z = (4.45 − 4.2)/0.1921 = 1.3015 leaves 0.0965 above it, squared for two samples.
    expect(strict(4.2)).toBeCloseTo(0.0093, 4);
    expect(chance(5)).toBeGreaterThan(0.99);
  });

  it('rises to the middle of the window and falls again', () => {
    const curve = ocCurve(planOf(spec), SPREAD, { from: 4, to: 6, steps: 20 });
    expect(curve).toHaveLength(21);
    expect(curve[0]?.mean).toBe(4);
    expect(curve.at(-1)?.mean).toBe(6);
    for (let i = 1; i <= 10; i += 1) {
      expect(curve[i]?.chance ?? 0).toBeGreaterThanOrEqual((curve[i - 1]?.chance ?? 0) - 1e-6);
      expect(curve[i + 10]?.chance ?? 1).toBeLessThanOrEqual((curve[i + 9]?.chance ?? 1) + 1e-6);
    }
  });
});
