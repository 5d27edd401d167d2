/** The part of a specification that decides on one property of a lot, as numbers: what an acceptance curve is drawn of. */
import { type LabTest, propertyOf } from '../../scenario/lab-tests.ts';
import type { Rule, Specification } from '../../scenario/specification.schema.ts';
import { decimalsOf, limitsOn, windowOf } from '../judge/limits.ts';
import { ruleFor } from '../judge/verdict.ts';

export type PlanInForce = {
  readonly property: string;
  readonly test: LabTest;
  /** Results a full lot gives. */
  readonly n: number;
  readonly from: number | null;
  readonly to: number | null;
  /** Digits results are rounded to before they are held against the limits. */
  readonly decimals: number;
  readonly rule: Rule;
  readonly leastPwlPct: number;
  /** How one retest of a failing sample counts; null where none is allowed or it cannot help. */
  readonly retest: Specification['retest']['counts'] | null;
};

/** Null when the specification takes no sample for the property, or sets no limit on it for this stone. */
export const planInForce = (
  spec: Specification,
  property: string,
  absorptionPct: number | null,
): PlanInForce | null => {
  const test = propertyOf(property)?.test;
  const limits = limitsOn(spec, property, absorptionPct);
  const n = test === undefined ? 0 : (spec.frequencies[test] ?? 0);
  if (test === undefined || limits.length === 0 || n === 0) return null;
  const rule = ruleFor(spec, test, n);
  const { counts, most } = spec.retest;
  return {
    property,
    test,
    n,
    ...windowOf(limits),
    decimals: Math.min(...limits.map(decimalsOf)),
    rule,
    leastPwlPct: spec.verdict.leastPwlPct,
    retest: most > 0 && rule === 'each' && counts !== 'both' ? counts : null,
  };
};
