/** A lot's results by property beside their limits, and the limits in words. Pure. */
import type { Judgement, ResultJudged } from '../../../machines/lab/judge/judge.types.ts';
import { conditionWords, windowOf, limitWords as words } from '../../../machines/lab/judge/limits.ts';
import type { Limit } from '../../../machines/scenario/specification.schema.ts';

export type PropertyRow = {
  readonly property: string;
  readonly limits: readonly Limit[];
  readonly results: readonly ResultJudged[];
  /** Why it fails as it is judged; empty when it does not. */
  readonly failing: readonly string[];
};

/** One row a property that has a limit or a result, in the order of the limits; results without a limit last. */
export function rowsOf(judgement: Judgement, limits: readonly Limit[]): readonly PropertyRow[] {
  const names = [
    ...new Set([
      ...limits.map(({ property }) => property),
      ...judgement.results.map(({ property }) => property),
    ]),
  ];
  return names.map((property) => ({
    property,
    limits: limits.filter((one) => one.property === property),
    results: judgement.results.filter((one) => one.property === property),
    failing: [
      ...new Set(judgement.failing.filter((one) => one.property === property).map(({ words }) => words)),
    ],
  }));
}

/** A limit with the condition it holds under. */
export const limitWords = (limit: Limit): string => {
  if (limit.property === 'workable') return (limit.from ?? 0) >= 1 ? 'yes' : 'any';
  const condition = conditionWords(limit);
  return condition === '' ? words(limit) : `${words(limit)}, ${condition}`;
};

/** The tightest limits without a condition: what a small picture draws. */
export function plainLimits(limits: readonly Limit[]): {
  readonly from: number | null;
  readonly to: number | null;
} {
  return windowOf(limits.filter(({ when }) => when === undefined));
}
