/**
 * Runs on a chart of single values: patterns that chance alone seldom makes.
 *
 * The usual eight, Western Electric's four zones and Nelson's further ones (from memory; NIST/SEMATECH e-Handbook 6.3.2
 * prints the first four).
 */

export const RUN_RULES = {
  'beyond the limits': 'one value more than three sigmas from the centre',
  'nine on one side': 'nine values in a row on the same side of the centre',
  'six rising or falling': 'six values in a row, each above the one before or each below it',
  'fourteen up and down': 'fourteen values in a row going up and down by turns',
  'two of three far out': 'two of three values in a row more than two sigmas out, on the same side',
  'four of five out': 'four of five values in a row more than one sigma out, on the same side',
  'fifteen close in': 'fifteen values in a row within one sigma of the centre: the limits may be too wide',
  'eight out': 'eight values in a row more than one sigma out, on either side: two processes may be mixed',
} as const;
export type RunRule = keyof typeof RUN_RULES;
export const RUN_RULE_NAMES = Object.keys(RUN_RULES) as readonly RunRule[];

export type RunFound = {
  readonly rule: RunRule;
  /** Index of the first value of the run and of the one that completes it. */
  readonly from: number;
  readonly i: number;
};

/** Values out on one side among the last `window`; the newest must be one of them. */
const several = (z: readonly number[], i: number, window: number, least: number, out: number): boolean => {
  const newest = z[i] ?? 0;
  const side = Math.sign(newest);
  const recent = z.slice(Math.max(0, i - window + 1), i + 1);
  return (
    Math.abs(newest) > out &&
    recent.filter((one) => Math.sign(one) === side && Math.abs(one) > out).length >= least
  );
};

const steps = (z: readonly number[]): readonly number[] =>
  z.slice(1).map((one, i) => Math.sign(one - (z[i] ?? 0)));

/** How many values before (and with) the newest a rule looks at. */
const LENGTHS: { readonly [R in RunRule]: number } = {
  'beyond the limits': 1,
  'nine on one side': 9,
  'six rising or falling': 6,
  'fourteen up and down': 14,
  'two of three far out': 3,
  'four of five out': 5,
  'fifteen close in': 15,
  'eight out': 8,
};

/** Whether the values up to index i complete a run; z is in sigmas from the centre. */
const holds: { readonly [R in RunRule]: (z: readonly number[], i: number) => boolean } = {
  'beyond the limits': (z, i) => Math.abs(z[i] ?? 0) > 3,
  'nine on one side': (z, i) => {
    const run = z.slice(i - 8, i + 1);
    return run.every((one) => one > 0) || run.every((one) => one < 0);
  },
  'six rising or falling': (z, i) => {
    const run = steps(z.slice(i - 5, i + 1));
    return run.every((one) => one > 0) || run.every((one) => one < 0);
  },
  'fourteen up and down': (z, i) => {
    const run = steps(z.slice(i - 13, i + 1));
    return run.every((one, k) => one !== 0 && (k === 0 || one === -(run[k - 1] ?? 0)));
  },
  'two of three far out': (z, i) => several(z, i, 3, 2, 2),
  'four of five out': (z, i) => several(z, i, 5, 4, 1),
  'fifteen close in': (z, i) => z.slice(i - 14, i + 1).every((one) => Math.abs(one) < 1),
  'eight out': (z, i) => z.slice(i - 7, i + 1).every((one) => Math.abs(one) > 1),
};

/** Two of three and four of five can be complete before the window is full. */
const leastIndex = (rule: RunRule): number =>
  rule === 'two of three far out' ? 1 : rule === 'four of five out' ? 3 : LENGTHS[rule] - 1;

/** Every value that completes a run, rule by rule, in the order of the values. A sigma of 0 cannot tell: nothing found. */
export const runsOf = (
  values: readonly number[],
  { centre, sigma }: { readonly centre: number; readonly sigma: number },
  rules: readonly RunRule[] = RUN_RULE_NAMES,
): readonly RunFound[] => {
  if (!(sigma > 0)) return [];
  const z = values.map((value) => (value - centre) / sigma);
  return z.flatMap((_, i) =>
    rules
      .filter((rule) => i >= leastIndex(rule) && holds[rule](z, i))
      .map((rule) => ({ rule, from: Math.max(0, i - LENGTHS[rule] + 1), i })),
  );
};
