/** Which results count where a sample was tested again: both are kept, the profile's rule says which take part and why. */
import type { Specification } from '../../scenario/specification.schema.ts';
import type { LotResult } from './judge.types.ts';

export type Counted = {
  /** The value that takes part, for one property of one sample; several when each of them must hold. */
  readonly values: readonly number[];
  readonly sample: number;
  readonly property: string;
  readonly of: readonly LotResult[];
};

export type Sorted = {
  readonly counted: readonly Counted[];
  /** Results that take no part, with the reason. */
  readonly aside: ReadonlyMap<LotResult, string>;
  readonly notes: readonly string[];
};

const mean = (values: readonly number[]): number => values.reduce((sum, x) => sum + x, 0) / values.length;

/** Results of the same property of the same sample, the first test first. */
const groups = (results: readonly LotResult[]): LotResult[][] => {
  const found = new Map<string, LotResult[]>();
  for (const result of results) {
    const key = `${result.sample} ${result.property}`;
    found.set(key, [...(found.get(key) ?? []), result]);
  }
  return [...found.values()].map((group) => group.sort((a, b) => (a.retest ?? 0) - (b.retest ?? 0)));
};

/** Sorts results by the profile's retest rule. */
export const sortRetests = (rule: Specification['retest'], results: readonly LotResult[]): Sorted => {
  const aside = new Map<LotResult, string>();
  const notes = new Set<string>();
  const counted = groups(results).map((group): Counted => {
    const allowed = group.filter((one) => (one.retest ?? 0) <= rule.most);
    for (const one of group)
      if (!allowed.includes(one))
        aside.set(one, `retest ${one.retest} does not count: the profile allows ${rule.most}`);
    const last = allowed.at(-1);
    const { sample, property } = group[0] as LotResult;
    if (last === undefined) return { sample, property, values: [], of: [] };
    if (allowed.length === 1) return { sample, property, values: [last.value], of: allowed };
    notes.add(`Sample ${sample} was tested again: ${rule.counts} counts. ${rule.why}`);
    if (rule.counts === 'both')
      return { sample, property, values: allowed.map((one) => one.value), of: allowed };
    if (rule.counts === 'the mean of both')
      return { sample, property, values: [mean(allowed.map((one) => one.value))], of: allowed };
    for (const one of allowed.slice(0, -1)) aside.set(one, 'set aside by its retest; it stays on the sheet');
    return { sample, property, values: [last.value], of: [last] };
  });
  return { counted: counted.filter((one) => one.values.length > 0), aside, notes: [...notes] };
};
