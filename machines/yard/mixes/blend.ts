/** The best blend of bins into a grading band, or which sieve stands in the way and what material would mend it. */
import { roundedToSum } from '../../mix/round-to-interval.ts';
import {
  type BandSieve,
  type BlendProblem,
  fedPctOf,
  misfitOf,
  passingOf,
  stoneSharesOf,
  wrongWith,
} from './blend-problem.ts';
import {
  elasticProgram,
  leastMendProgram,
  marginProgram,
  mendGradingProgram,
  nearestProgram,
  type Solve,
  share,
} from './programs.ts';

export type BlendShare = { readonly bin: number; readonly dryPct: number };

export type SieveFit = {
  readonly sieveMm: number;
  readonly passingPct: number;
  /** Above 0: inside by so much of the way to the nearer edge; below 0: outside by so much, % passing. */
  readonly insidePct: number;
};

export type Outside = {
  readonly sieveMm: number;
  readonly side: 'too coarse' | 'too fine';
  readonly byPct: number;
};

export type Mend = {
  /** Share of the further material in the blend, % of dry stone. */
  readonly sharePct: number;
  readonly grading: readonly { readonly sieveMm: number; readonly passingPct: number }[];
  /** Sieves between which most of it lies. */
  readonly fromMm: number;
  readonly toMm: number;
};

export type BlendAnswer =
  | { readonly kind: 'wrong'; readonly because: readonly string[] }
  | {
      readonly kind: 'fits';
      readonly shares: readonly BlendShare[];
      readonly sieves: readonly SieveFit[];
      /** Margin kept off the edges, % of the band's width; less than asked where no blend keeps more. */
      readonly marginPct: number;
      readonly askedMarginPct: number;
      readonly misfit: number;
    }
  | {
      readonly kind: 'does not fit';
      /** The blend that comes nearest, so that there is something to look at. */
      readonly shares: readonly BlendShare[];
      readonly sieves: readonly SieveFit[];
      readonly outside: readonly Outside[];
      /** Whether it would fit if the bounds of the bins were let go. */
      readonly boundsInTheWay: boolean;
      readonly mend: Mend | null;
    };

const TINY_PCT = 1e-6;
const NO_ANSWER = 'The solver came to no answer: try again with other bounds.';

/** How far inside the band a value lies, % passing; edges at 0 and 100 % are no edges. */
export const insidePct = ({ fromPct, toPct }: BandSieve, value: number): number => {
  const below = fromPct > 0 ? value - fromPct : Number.POSITIVE_INFINITY;
  const above = toPct < 100 ? toPct - value : Number.POSITIVE_INFINITY;
  const inside = Math.min(below, above);
  return Number.isFinite(inside) ? inside : 100;
};

const fitsOf = (problem: BlendProblem, stone: readonly number[]): SieveFit[] =>
  passingOf(problem, stone).map((value, i) => {
    const sieve = problem.sieves[i] as BandSieve;
    return { sieveMm: sieve.sieveMm, passingPct: value, insidePct: insidePct(sieve, value) };
  });

type Counts = readonly number[];

/** Every way to round counts down or up to whole ones so that they add to their whole sum. */
const roundings = (exact: readonly number[], total: number): Counts[] => {
  let ways: { readonly counts: Counts; readonly sum: number }[] = [{ counts: [], sum: 0 }];
  for (const value of exact) {
    const down = Math.floor(value + 1e-9);
    const both = value - down > 1e-9 ? [down, down + 1] : [down];
    ways = ways.flatMap(({ counts, sum }) =>
      both.map((count) => ({ counts: [...counts, count], sum: sum + count })),
    );
  }
  return ways.filter(({ sum }) => sum === total).map(({ counts }) => counts);
};

const sharesOfCounts = (problem: BlendProblem, counts: Counts, stepsPerPct: number): BlendShare[] =>
  problem.bins.flatMap((bin, b) => {
    const count = counts[b] ?? 0;
    return count > 0 ? [{ bin: bin.bin, dryPct: count / stepsPerPct }] : [];
  });

/** Whether rounded shares lie in the band and within the bounds of the bins. */
const holds = (problem: BlendProblem, shares: readonly BlendShare[]): boolean =>
  problem.bins.every((bin) => {
    const pct = shares.find((one) => one.bin === bin.bin)?.dryPct ?? 0;
    return pct >= bin.fromPct - TINY_PCT && pct <= bin.toPct + TINY_PCT;
  }) && fitsOf(problem, roundedStone(problem, shares)).every((fit) => fit.insidePct >= -TINY_PCT);

/**
 * Shares in steps of 0.1 %, as finer is weighed by nobody: of all ways to round them that add to 100 and stay in the band,
 * the one nearest to the target. Steps of 0.01 % where the band is too tight for that.
 */
const sharesOf = (problem: BlendProblem, stone: readonly number[]): BlendShare[] => {
  const fed = fedPctOf(problem, stone);
  for (const stepsPerPct of [10, 100]) {
    const ways = roundings(
      fed.map((pct) => pct * stepsPerPct),
      100 * stepsPerPct,
    )
      .map((counts) => sharesOfCounts(problem, counts, stepsPerPct))
      .filter((shares) => holds(problem, shares))
      .map((shares) => ({ shares, misfit: misfitOf(problem, roundedStone(problem, shares)) }))
      .sort((a, b) => a.misfit - b.misfit);
    if (ways[0] !== undefined) return ways[0].shares;
  }
  // Tighter still, or a blend that lies outside whatever is done: the sum is kept, and what it passes is told.
  return roundedToSum(fed, 0.01).flatMap((dryPct, b) => {
    const bin = problem.bins[b]?.bin;
    return dryPct > 0 && bin !== undefined ? [{ bin, dryPct }] : [];
  });
};

/** Shares of stone of a rounded blend, in the order of the bins. */
export const roundedStone = (problem: BlendProblem, shares: readonly BlendShare[]): number[] =>
  stoneSharesOf(
    problem,
    problem.bins.map((bin) => shares.find((one) => one.bin === bin.bin)?.dryPct ?? 0),
  );

const valuesOf = (problem: BlendProblem, values: { readonly [name: string]: number }): number[] =>
  problem.bins.map((_, b) => Math.max(0, values[share(b)] ?? 0));

const mendOf = (problem: BlendProblem, solve: Solve): Mend | null => {
  const least = solve(leastMendProgram(problem));
  const leastShare = least.values.y ?? 0;
  if (least.status !== 'optimal' || leastShare < 1e-6) return null;
  // A quarter more than the least, so that what is bought need not be perfect.
  const best = solve(mendGradingProgram(problem, Math.min(1, leastShare * 1.25)));
  const y = best.values.y ?? 0;
  if (best.status !== 'optimal' || y < 1e-6) return null;
  const grading = problem.sieves.map(({ sieveMm }, i) => ({
    sieveMm,
    passingPct: Math.min(100, Math.max(0, (100 * (best.values[`z${i}`] ?? 0)) / y)),
  }));
  const top = grading.findLast((point) => point.passingPct >= 90) ?? grading[0];
  const foot = grading.find((point) => point.passingPct <= 10);
  return { sharePct: 100 * y, grading, fromMm: foot?.sieveMm ?? 0, toMm: top?.sieveMm ?? 0 };
};

const outsideOf = (problem: BlendProblem, sieves: readonly SieveFit[]): Outside[] =>
  sieves.flatMap(({ passingPct }, i): Outside[] => {
    const sieve = problem.sieves[i] as BandSieve;
    const { sieveMm } = sieve;
    if (passingPct < sieve.fromPct - 1e-4)
      return [{ sieveMm, side: 'too coarse', byPct: sieve.fromPct - passingPct }];
    if (passingPct > sieve.toPct + 1e-4)
      return [{ sieveMm, side: 'too fine', byPct: passingPct - sieve.toPct }];
    return [];
  });

const nearestMiss = (problem: BlendProblem, solve: Solve): BlendAnswer => {
  const elastic = solve(elasticProgram(problem, true));
  if (elastic.status !== 'optimal') return { kind: 'wrong', because: [NO_ANSWER] };
  const stone = valuesOf(problem, elastic.values);
  const free = solve(elasticProgram(problem, false));
  const sieves = fitsOf(problem, stone);
  return {
    kind: 'does not fit',
    shares: sharesOf(problem, stone),
    sieves,
    outside: outsideOf(problem, sieves),
    boundsInTheWay: free.status === 'optimal' && free.objective < TINY_PCT,
    mend: mendOf(problem, solve),
  };
};

/**
 * The blend nearest to the target that keeps the margin asked for, or as much of it as any blend can. Least squares,
 * deviations in half widths of the band; solved by the linear and quadratic solver given.
 */
export const bestBlend = (problem: BlendProblem, solve: Solve): BlendAnswer => {
  const because = wrongWith(problem);
  if (because.length > 0) return { kind: 'wrong', because };
  const widest = solve(marginProgram(problem));
  if (widest.status === 'other') return { kind: 'wrong', because: [NO_ANSWER] };
  if (widest.status !== 'optimal') return nearestMiss(problem, solve);
  // A hair less than the widest, so that the second solver is not refused by the rounding of the first.
  const margin = Math.max(0, (widest.values.m ?? 0) - 1e-7);
  const nearest = solve(nearestProgram(problem, margin));
  // That one fits is known: should the second solver give up, the blend with the widest margin is told.
  const { values } = nearest.status === 'optimal' ? nearest : widest;
  const shares = sharesOf(problem, valuesOf(problem, values));
  const stone = roundedStone(problem, shares);
  return {
    kind: 'fits',
    shares,
    sieves: fitsOf(problem, stone),
    marginPct: 100 * margin,
    askedMarginPct: problem.marginPct,
    misfit: misfitOf(problem, stone),
  };
};
