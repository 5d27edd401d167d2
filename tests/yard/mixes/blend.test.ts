/** The best blend, held against a second solver, against its own optimality condition, and against plain search. */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { bestBlend } from '../../../machines/yard/mixes/blend.ts';
import {
  type BandSieve,
  type BlendProblem,
  halfWidthPct,
  misfitOf,
  passingOf,
} from '../../../machines/yard/mixes/blend-problem.ts';
import {
  elasticProgram,
  marginProgram,
  nearestProgram,
  type Solve,
  share,
} from '../../../machines/yard/mixes/programs.ts';
import { blendSolver } from '../../../server/ledger/blend-solver.ts';
import { byQuadprog, problemCase } from './blend-cases.ts';

let solve: Solve;
beforeAll(async () => {
  solve = await blendSolver();
});

const band = (...rows: (readonly [number, number, number])[]): BandSieve[] =>
  rows.map(([sieveMm, fromPct, toPct]) => ({ sieveMm, fromPct, toPct, targetPct: (fromPct + toPct) / 2 }));

const problem = (sieves: BandSieve[], passing: readonly (readonly number[])[], more = {}): BlendProblem => ({
  sieves,
  marginPct: 0,
  bins: passing.map((own, b) => ({
    bin: b + 1,
    name: `bin ${b + 1}`,
    fedPerStone: 1,
    fromPct: 0,
    toPct: 100,
    passing: own,
  })),
  ...more,
});

const sharesIn = (one: BlendProblem, values: { readonly [name: string]: number }): number[] =>
  one.bins.map((_, b) => values[share(b)] ?? 0);

it('comes to an answer where the quadratic solver gives up', () => {
  const sieves: BandSieve[] = [
    { sieveMm: 12.5, fromPct: 92.5769117602971, toPct: 100, targetPct: 96.28845588014855 },
    { sieveMm: 9.5, fromPct: 85.60521752922014, toPct: 100, targetPct: 92.80260876461007 },
    { sieveMm: 4.75, fromPct: 75.55178363404627, toPct: 93.26988196888308, targetPct: 84.41083280146468 },
    { sieveMm: 2.36, fromPct: 76.39047371461709, toPct: 84.46918731704017, targetPct: 80.42983051582863 },
    { sieveMm: 0.6, fromPct: 37.73779648950727, toPct: 48.67731241402597, targetPct: 43.20755445176662 },
    { sieveMm: 0.075, fromPct: 0, toPct: 4.22454533232431, targetPct: 2.112272666162155 },
  ];
  const answer = bestBlend(
    problem(sieves, [
      [100, 93.45, 84.411, 80.43, 43.206, 0],
      [100, 84.782, 75.123, 68.252, 66.626, 51.913],
    ]),
    solve,
  );
  expect(answer.kind === 'fits' && answer.shares[0]?.bin).toBe(1);
  expect(answer.kind === 'fits' && (answer.shares[0]?.dryPct ?? 0)).toBeGreaterThan(99);
});

describe('a blend by hand', () => {
  // Two bins, one sieve counts: 20 % of the coarse and 80 % of the fine pass it, so x·20 + (1−x)·80 = 50 at x = 0.5.
  const two = problem(band([10, 100, 100], [2, 40, 60]), [
    [100, 20],
    [100, 80],
  ]);

  it('meets the middle of the band with half of each', () => {
    const answer = bestBlend(two, solve);
    expect(answer.kind).toBe('fits');
    if (answer.kind !== 'fits') return;
    expect(answer.shares).toEqual([
      { bin: 1, dryPct: 50 },
      { bin: 2, dryPct: 50 },
    ]);
    expect(answer.sieves[1]).toEqual({ sieveMm: 2, passingPct: 50, insidePct: 10 });
  });

  it('keeps a bound of a bin: at most 40 % of the coarse leaves 56 % passing', () => {
    const [coarse, fine] = two.bins as [BlendProblem['bins'][number], BlendProblem['bins'][number]];
    const answer = bestBlend({ ...two, bins: [{ ...coarse, toPct: 40 }, fine] }, solve);
    expect(answer.kind === 'fits' && answer.sieves[1]?.passingPct).toBeCloseTo(56, 9);
  });

  it('keeps as much of the margin as can be kept, and says how much', () => {
    // At most 10 % of the coarse bin: 74 % pass at least, so 60–80 is met with 6 at the upper edge: 6 of 20 is 30 %.
    const [coarse, fine] = two.bins as [BlendProblem['bins'][number], BlendProblem['bins'][number]];
    const tight = {
      ...two,
      sieves: band([10, 100, 100], [2, 60, 80]),
      marginPct: 40,
      bins: [{ ...coarse, toPct: 10 }, fine],
    };
    const answer = bestBlend(tight, solve);
    expect(answer.kind === 'fits' && answer.marginPct).toBeCloseTo(30, 4);
  });

  it('counts the share of reclaimed pavement as fed: 50 % of stone at 10 % old binder is 52.6 % of what is fed', () => {
    const [coarse, fine] = two.bins as [BlendProblem['bins'][number], BlendProblem['bins'][number]];
    // 0.5/0.9 = 0.5556 fed for 0.5 stone; 0.5556/(0.5556 + 0.5) = 52.63 %, rounded to 52.6.
    const answer = bestBlend({ ...two, bins: [{ ...coarse, fedPerStone: 1 / 0.9 }, fine] }, solve);
    expect(answer.kind === 'fits' && answer.shares).toEqual([
      { bin: 1, dryPct: 52.6 },
      { bin: 2, dryPct: 47.4 },
    ]);
  });
});

describe('a solver that fails', () => {
  const two = problem(band([10, 100, 100], [2, 40, 60]), [
    [100, 20],
    [100, 80],
  ]);
  const failing =
    (...which: readonly number[]): Solve =>
    (program) => {
      calls += 1;
      const solved = solve(program);
      return which.includes(calls) ? { ...solved, status: 'other', values: {} } : solved;
    };
  let calls = 0;

  it('at the second program: what the first found is told, never that nothing fits', () => {
    calls = 0;
    const answer = bestBlend(two, failing(2));
    expect(answer.kind === 'fits' && answer.sieves.every((fit) => fit.insidePct > -1e-6)).toBe(true);
  });

  it('at all of them: in words', () => {
    calls = 0;
    const answer = bestBlend(two, failing(1, 2, 3));
    expect(answer).toEqual({ kind: 'wrong', because: [expect.stringContaining('came to no answer')] });
  });
});

describe('a blend that cannot be', () => {
  it('names the sieve, the side and by how much, as a plain search finds it', () => {
    const one = problem(band([10, 90, 100], [4, 30, 50], [1, 20, 30]), [
      [100, 60, 5],
      [80, 10, 2],
    ]);
    const answer = bestBlend(one, solve);
    expect(answer.kind).toBe('does not fit');
    if (answer.kind !== 'does not fit') return;
    expect(answer.outside.every(({ sieveMm, side }) => sieveMm === 1 && side === 'too coarse')).toBe(true);
    const miss = (x: number): number =>
      passingOf(one, [x, 1 - x]).reduce((sum, value, i) => {
        const sieve = one.sieves[i] as BandSieve;
        return sum + Math.max(0, sieve.fromPct - value, value - sieve.toPct) / halfWidthPct(sieve);
      }, 0);
    const searched = Math.min(...Array.from({ length: 10_001 }, (_, i) => miss(i / 10_000)));
    expect(solve(elasticProgram(one, true)).objective).toBeCloseTo(searched, 3);
    expect(answer.outside[0]?.byPct).toBeCloseTo(searched * 5, 2);
  });

  it('says when bounds of the bins are what is in the way', () => {
    const one = problem(band([10, 100, 100], [2, 40, 60]), [
      [100, 20],
      [100, 80],
    ]);
    const held = { ...one, bins: one.bins.map((bin, b) => (b === 1 ? { ...bin, toPct: 20 } : bin)) };
    const answer = bestBlend(held, solve);
    expect(answer.kind === 'does not fit' && answer.boundsInTheWay).toBe(true);
  });

  it('names a material that mends it: with that material as a further bin the blend fits', () => {
    fc.assert(
      fc.property(problemCase(0, 1.5), (case_) => {
        // Bands moved off what any of these bins gives.
        const moved = {
          ...case_,
          sieves: case_.sieves.map((sieve, i) => {
            const toPct = Math.min(100, sieve.toPct + (i > 3 ? 12 : 0));
            const fromPct = Math.min(toPct, sieve.fromPct + (i > 3 ? 9 : 0));
            return { ...sieve, fromPct, toPct, targetPct: (fromPct + toPct) / 2 };
          }),
          bins: case_.bins.map((bin) => ({ ...bin, toPct: 100 })),
        };
        const answer = bestBlend(moved, solve);
        if (answer.kind !== 'does not fit' || answer.mend === null) return;
        const further = {
          bin: 9,
          name: 'further',
          fedPerStone: 1,
          fromPct: 0,
          toPct: 100,
          passing: answer.mend.grading.map((point) => point.passingPct),
        };
        const grading = answer.mend.grading.map((point) => point.passingPct);
        expect(grading.every((value, i) => i === 0 || value <= (grading[i - 1] as number) + 1e-6)).toBe(true);
        const widened = {
          ...moved,
          bins: [...moved.bins, further],
          sieves: moved.sieves.map((sieve) => ({
            ...sieve,
            fromPct: Math.max(0, sieve.fromPct - 1e-3),
            toPct: Math.min(100, sieve.toPct + 1e-3),
          })),
        };
        expect(bestBlend(widened, solve).kind).toBe('fits');
      }),
      { numRuns: 20, seed: 611 },
    );
  });

  it.each([
    ['least shares above 100', [60, 50], [100, 100], 'The least shares of the bins add to 110 %'],
    ['most shares below 100', [0, 0], [40, 50], 'The most shares of the bins add to 90 % only'],
    ['from above to', [50, 0], [40, 100], 'Bin 1 is to give at least 50 % and at most 40 %'],
  ])('is asked wrongly: %s', (_, from, to, words) => {
    const one = problem(band([2, 40, 60]), [[20], [80]]);
    const asked = {
      ...one,
      bins: one.bins.map((bin, b) => ({ ...bin, fromPct: from[b] as number, toPct: to[b] as number })),
    };
    const answer = bestBlend(asked, solve);
    expect(answer.kind).toBe('wrong');
    expect(answer.kind === 'wrong' && answer.because.join(' ')).toContain(words);
  });
});

describe('on random problems', () => {
  it('agrees with quadprog on whether a blend exists and how near it comes', () => {
    let fitting = 0;
    let not = 0;
    fc.assert(
      fc.property(fc.oneof(problemCase(2, 20), problemCase(-3, 1)), (one) => {
        const other = byQuadprog(one);
        const own = solve(nearestProgram(one, 0));
        if (other === null) {
          not += 1;
          // Feasible by a hair for one solver may be infeasible by a hair for the other.
          if (own.status === 'optimal') expect(solve(elasticProgram(one, true)).objective).toBeLessThan(1e-4);
          return;
        }
        fitting += 1;
        expect(own.status).toBe('optimal');
        const [best, theirs] = [misfitOf(one, sharesIn(one, own.values)), misfitOf(one, other)];
        expect(Math.abs(best - theirs)).toBeLessThan(1e-4 * (1 + theirs));
      }),
      { numRuns: 100, seed: 606 },
    );
    expect(fitting).toBeGreaterThan(30);
    expect(not).toBeGreaterThan(8);
  });

  it('no feasible step makes it better: the gradient is least at the blend itself (Karush, Kuhn and Tucker)', () => {
    fc.assert(
      fc.property(problemCase(2, 20), (one) => {
        const own = solve(nearestProgram(one, 0));
        if (own.status !== 'optimal') return;
        const at = sharesIn(one, own.values);
        const off = passingOf(one, at).map((value, i) => {
          const sieve = one.sieves[i] as BandSieve;
          return (2 * (value - sieve.targetPct)) / halfWidthPct(sieve) ** 2;
        });
        const gradient = one.bins.map((bin) =>
          bin.passing.reduce((sum, value, i) => sum + value * (off[i] as number), 0),
        );
        // The margin program with its objective replaced: the least the linearised misfit can be over all blends.
        const linear = marginProgram({ ...one, marginPct: 0 }).replace(
          /^Maximize\n obj: m$/m,
          `Minimize\n obj: ${gradient.map((g, b) => `${g < 0 ? '-' : '+'} ${Math.abs(g)} ${share(b)}`).join(' ')}`,
        );
        const least = solve(linear);
        expect(least.status).toBe('optimal');
        const here = gradient.reduce((sum, g, b) => sum + g * (at[b] as number), 0);
        const size = 1 + Math.max(...gradient.map(Math.abs));
        expect((here - least.objective) / size).toBeLessThan(2e-4);
      }),
      { numRuns: 80, seed: 607 },
    );
  });

  it('the rounded blend adds to 100, keeps to its band within 0.01 % and lies next to the best', () => {
    fc.assert(
      fc.property(problemCase(1, 20), (one) => {
        const answer = bestBlend(one, solve);
        if (answer.kind !== 'fits') return;
        expect(answer.shares.reduce((sum, part) => sum + part.dryPct, 0)).toBeCloseTo(100, 9);
        for (const fit of answer.sieves) expect(fit.insidePct).toBeGreaterThan(-0.011);
        const best = misfitOf(one, sharesIn(one, solve(nearestProgram(one, 0)).values));
        expect(answer.misfit).toBeGreaterThan(best - 1e-3);
      }),
      { numRuns: 60, seed: 608 },
    );
  });
});
