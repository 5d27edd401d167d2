/** Results apart by what was so when they were made: operator, bin, delivery, mix version; and whether the means differ. */
import { deviation, mean } from './describe.ts';
import { fAbove } from './distributions.ts';
import { LABEL_WORDS, type LabelName, type Series } from './series.types.ts';

export type Group = {
  readonly label: string;
  readonly n: number;
  readonly mean: number;
  /** Null of a single result. */
  readonly deviation: number | null;
};

export type Breakdown = {
  readonly by: LabelName;
  readonly groups: readonly Group[];
  /** Results that carry no such label. */
  readonly unlabelled: number;
  /** One-way analysis of variance; null when there is too little to tell. */
  readonly f: {
    readonly value: number;
    readonly between: number;
    readonly within: number;
    /** Chance of means as different as these, or more, when nothing differs. */
    readonly p: number;
  } | null;
  readonly words: string;
};

/** Chance below which a difference is called one. */
export const DIFFERENT_BELOW = 0.05;

const wordsOf = (by: LabelName, groups: readonly Group[], f: Breakdown['f']): string => {
  const what = LABEL_WORDS[by];
  if (groups.length < 2) return `Only one ${what}: nothing to compare.`;
  if (f === null) return `Too few results by ${what} to tell a difference from chance.`;
  const p = f.p < 0.001 ? 'less than 0.001' : f.p.toFixed(3);
  return f.p < DIFFERENT_BELOW
    ? `The means differ by ${what} more than chance explains (p ${p}).`
    : `No difference by ${what} that chance could not explain (p ${p}).`;
};

/** Groups in the order their labels first appear, with the F test of one-way analysis of variance (NIST e-Handbook 7.4.3). */
export const breakdown = (series: Series, by: LabelName): Breakdown => {
  const values = new Map<string, number[]>();
  let unlabelled = 0;
  for (const point of series) {
    const label = point[by];
    if (label === undefined) unlabelled += 1;
    else {
      const own = values.get(label);
      if (own === undefined) values.set(label, [point.value]);
      else own.push(point.value);
    }
  }
  const groups = [...values.entries()].map(
    ([label, own]): Group => ({
      label,
      n: own.length,
      mean: mean(own),
      deviation: own.length < 2 ? null : deviation(own),
    }),
  );
  const all = [...values.values()].flat();
  const between = groups.length - 1;
  const within = all.length - groups.length;
  const grand = mean(all);
  const apart = groups.reduce((sum, one) => sum + one.n * (one.mean - grand) ** 2, 0);
  const inside = groups.reduce((sum, one) => sum + (one.n - 1) * (one.deviation ?? 0) ** 2, 0);
  const tells = between >= 1 && within >= 2 && inside > 0;
  const value = tells ? apart / between / (inside / within) : 0;
  const f = tells ? { value, between, within, p: fAbove(value, between, within) } : null;
  return { by, groups, unlabelled, f, words: wordsOf(by, groups, f) };
};
