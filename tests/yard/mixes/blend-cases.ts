/** Random blending problems, and the same problem put to quadprog (Goldfarb and Idnani) on its own. */
import fc from 'fast-check';
import quadprog from 'quadprog';
import {
  type BandSieve,
  type BlendProblem,
  halfWidthPct,
} from '../../../machines/yard/mixes/blend-problem.ts';

const SIEVES = [12.5, 9.5, 4.75, 2.36, 1.18, 0.6, 0.3, 0.075];

/** A grading: falling numbers, 100 at the top now and then. */
const gradingCase = fc
  .array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: SIEVES.length, maxLength: SIEVES.length })
  .map((values) => values.map((v) => Math.round(v * 10) / 10).sort((a, b) => b - a));

export type Case = { readonly problem: BlendProblem; readonly margin: number };

const rounded = (value: number): number => Math.round(value * 10) / 10;

/** A problem round a blend that exists, so that many fit; `reach` 0 makes bands too narrow for most. */
export const problemCase = (least: number, most: number): fc.Arbitrary<BlendProblem> =>
  fc
    .record({
      gradings: fc.array(gradingCase, { minLength: 2, maxLength: 5 }),
      weights: fc.array(fc.double({ min: 0.05, max: 1, noNaN: true }), { minLength: 5, maxLength: 5 }),
      reach: fc.array(fc.double({ min: least, max: most, noNaN: true }), {
        minLength: SIEVES.length * 2,
        maxLength: SIEVES.length * 2,
      }),
      lean: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 8, maxLength: 8 }),
      old: fc.array(fc.constantFrom(0, 0, 0, 4.5), { minLength: 5, maxLength: 5 }),
      cap: fc.constantFrom(100, 100, 70, 55),
    })
    .map(({ gradings, weights, reach, lean, old, cap }) => {
      const own = weights.slice(0, gradings.length);
      const sum = own.reduce((total, one) => total + one, 0);
      const sieves: BandSieve[] = SIEVES.map((sieveMm, i) => {
        const through = gradings.reduce(
          (total, grading, b) => total + ((own[b] as number) / sum) * (grading[i] as number),
          0,
        );
        const fromPct = rounded(Math.max(0, through - (reach[i] as number)));
        const toPct = rounded(Math.min(100, Math.max(fromPct, through + (reach[i + 8] as number))));
        return {
          sieveMm,
          fromPct,
          toPct,
          targetPct: rounded(fromPct + (toPct - fromPct) * (lean[i] as number)),
        };
      });
      return {
        sieves,
        marginPct: 0,
        bins: gradings.map((passing, b) => ({
          bin: b + 1,
          name: `bin ${b + 1}`,
          fedPerStone: 1 / (1 - (old[b] as number) / 100),
          fromPct: 0,
          toPct: b === 0 ? cap : 100,
          passing,
        })),
      };
    });

/** The best blend by quadprog: shares of stone, or null when it finds no feasible point. */
export const byQuadprog = (problem: BlendProblem): number[] | null => {
  const n = problem.bins.length;
  const from1 = <T>(list: readonly T[]): T[] => [undefined as T, ...list];
  const D = problem.bins.map((a) =>
    from1(
      problem.bins.map(
        (b) =>
          (a === b ? 1e-9 : 0) +
          problem.sieves.reduce((sum, sieve, i) => {
            const w = 1 / halfWidthPct(sieve) ** 2;
            return sum + 2 * w * (a.passing[i] as number) * (b.passing[i] as number);
          }, 0),
      ),
    ),
  );
  const d = problem.bins.map((a) =>
    problem.sieves.reduce(
      (sum, sieve, i) => sum + (2 * (a.passing[i] as number) * sieve.targetPct) / halfWidthPct(sieve) ** 2,
      0,
    ),
  );
  const rows: { readonly a: readonly number[]; readonly b: number }[] = [
    { a: problem.bins.map(() => 1), b: 1 },
    ...problem.bins.map((_, b) => ({ a: problem.bins.map((__, o) => (o === b ? 1 : 0)), b: 0 })),
    ...problem.bins.flatMap((bin, b) =>
      bin.toPct < 100
        ? [
            {
              a: problem.bins.map(
                (other, o) => (bin.toPct / 100) * other.fedPerStone - (o === b ? bin.fedPerStone : 0),
              ),
              b: 0,
            },
          ]
        : [],
    ),
    ...problem.sieves.flatMap((sieve, i) => [
      { a: problem.bins.map((bin) => bin.passing[i] as number), b: sieve.fromPct },
      { a: problem.bins.map((bin) => -(bin.passing[i] as number)), b: -sieve.toPct },
    ]),
  ];
  const A = Array.from({ length: n }, (_, o) => from1(rows.map(({ a }) => a[o] as number)));
  const { solution, message } = quadprog.solveQP(
    from1(D),
    from1(d),
    from1(A),
    from1(rows.map(({ b }) => b)),
    1,
  );
  return message === '' ? solution.slice(1) : null;
};
