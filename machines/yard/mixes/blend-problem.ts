/**
 * Blending bins into a grading band, put as numbers: sieves, shares and their bounds, target and margin.
 *
 * Unknowns are shares of stone, since sieves see stone only. Reclaimed pavement brings old binder, so its share as fed
 * is larger than its share of stone; bounds on shares as fed stay linear when multiplied by the sum of what is fed.
 */
import { passingPct } from '../../mix/gradation.ts';
import type { BlendQuestion } from './blend.schema.ts';

export type BandSieve = {
  readonly sieveMm: number;
  readonly fromPct: number;
  readonly toPct: number;
  /** Wanted; the middle of the band where nobody says. */
  readonly targetPct: number;
};

export type BlendBin = {
  readonly bin: number;
  readonly name: string;
  /** kg fed for each kg of its stone: 1, more for reclaimed pavement. */
  readonly fedPerStone: number;
  /** Bounds on its share of dry aggregate as fed, %. */
  readonly fromPct: number;
  readonly toPct: number;
  /** % passing, in the order of the sieves. */
  readonly passing: readonly number[];
};

export type BlendProblem = {
  /** From the largest to the smallest. */
  readonly sieves: readonly BandSieve[];
  readonly bins: readonly BlendBin[];
  /** Kept off each edge of the band, % of its width there; edges at 0 and 100 % need none. */
  readonly marginPct: number;
};

/** The problem a question puts: % passing of every bin at the sieves of the band. */
export const blendProblem = ({ bins, band, marginPct }: BlendQuestion): BlendProblem => ({
  sieves: band,
  marginPct,
  bins: bins.map(({ bin, name, ownBinderPct, fromPct, toPct, grading }) => ({
    bin,
    name,
    fedPerStone: 1 / (1 - ownBinderPct / 100),
    fromPct,
    toPct,
    passing: band.map(({ sieveMm }) => passingPct(grading, sieveMm)),
  })),
});

/** Half the width of the band at a sieve, never below 0.5 %: what deviations are measured in. */
export const halfWidthPct = ({ fromPct, toPct }: BandSieve): number => Math.max(0.5, (toPct - fromPct) / 2);

/** % passing each sieve from shares of stone (adding to 1). */
export const passingOf = (problem: BlendProblem, stoneShares: readonly number[]): number[] =>
  problem.sieves.map((_, i) =>
    problem.bins.reduce((sum, bin, b) => sum + (stoneShares[b] ?? 0) * (bin.passing[i] as number), 0),
  );

/** Sum of squared deviations from the target, each in half widths of the band: what a best blend makes least. */
export const misfitOf = (problem: BlendProblem, stoneShares: readonly number[]): number =>
  passingOf(problem, stoneShares).reduce((sum, value, i) => {
    const sieve = problem.sieves[i] as BandSieve;
    return sum + ((value - sieve.targetPct) / halfWidthPct(sieve)) ** 2;
  }, 0);

/** Shares as fed (%, adding to 100) from shares of stone. */
export const fedPctOf = (problem: BlendProblem, stoneShares: readonly number[]): number[] => {
  const fed = problem.bins.map((bin, b) => (stoneShares[b] ?? 0) * bin.fedPerStone);
  const sum = fed.reduce((total, share) => total + share, 0);
  return fed.map((share) => (sum > 0 ? (100 * share) / sum : 0));
};

/** Shares of stone (adding to 1) from shares as fed in %. */
export const stoneSharesOf = (problem: BlendProblem, fedPct: readonly number[]): number[] => {
  const stone = problem.bins.map((bin, b) => (fedPct[b] ?? 0) / bin.fedPerStone);
  const sum = stone.reduce((total, share) => total + share, 0);
  return stone.map((share) => (sum > 0 ? share / sum : 0));
};

/** What is wrong with the question itself, in words; none when it can be put to a solver. */
export const wrongWith = (problem: BlendProblem): string[] => {
  const { bins, sieves } = problem;
  const because: string[] = [];
  if (bins.length === 0) because.push('There is no bin to blend: open a shift, so that the plant is known.');
  if (sieves.length === 0) because.push('The band names no sieve: choose a specification, or type a band.');
  for (const bin of bins) {
    if (bin.fromPct > bin.toPct)
      because.push(
        `Bin ${bin.bin} is to give at least ${bin.fromPct} % and at most ${bin.toPct} %: put the lesser figure first.`,
      );
  }
  const least = bins.reduce((sum, bin) => sum + bin.fromPct, 0);
  const most = bins.reduce((sum, bin) => sum + bin.toPct, 0);
  if (least > 100 + 1e-9)
    because.push(`The least shares of the bins add to ${least} %: take some of them down to 100 % in all.`);
  if (bins.length > 0 && most < 100 - 1e-9)
    because.push(`The most shares of the bins add to ${most} % only: raise some of them to 100 % in all.`);
  for (const sieve of sieves)
    if (sieve.fromPct > sieve.toPct)
      because.push(
        `At ${sieve.sieveMm} mm the band runs from ${sieve.fromPct} to ${sieve.toPct} %: put the lesser figure first.`,
      );
  return because;
};
