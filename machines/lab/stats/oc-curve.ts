/**
 * The operating characteristic of a plan: with what chance a lot is accepted, against what it truly holds.
 *
 * Results are taken as normal: true mean of the lot, spread between its samples, spread of the test itself. Each and
 * mean have closed forms; a retest and the share within limits are integrated numerically (Simpson's rule).
 */
import { lnGamma, normalCdf } from './distributions.ts';
import type { PlanInForce } from './plan-in-force.ts';
import { acceptedMeans } from './share-bounds.ts';

/** Standard deviations in the unit of the property: between samples of one lot, and of the test on one sample. */
export type Spread = { readonly between: number; readonly test: number };

const STEPS = 400;

/** Simpson's rule over STEPS equal parts. */
const integral = (f: (x: number) => number, from: number, to: number): number => {
  if (!(to > from)) return 0;
  const h = (to - from) / STEPS;
  let sum = f(from) + f(to);
  for (let i = 1; i < STEPS; i += 1) sum += (i % 2 === 0 ? 2 : 4) * f(from + i * h);
  return (sum * h) / 3;
};

const density = (x: number, mean: number, sigma: number): number =>
  Math.exp(-0.5 * ((x - mean) / sigma) ** 2) / (sigma * Math.sqrt(2 * Math.PI));

type Window = { readonly low: number; readonly high: number };

/** A rounded result passes up to half a digit beyond its limit. */
const windowOf = ({ from, to, decimals }: PlanInForce): Window => {
  const half = 0.5 * 10 ** -decimals;
  return {
    low: from === null ? Number.NEGATIVE_INFINITY : from - half,
    high: to === null ? Number.POSITIVE_INFINITY : to + half,
  };
};

const chanceIn = ({ low, high }: Window, mean: number, sigma: number): number => {
  if (!(sigma > 0)) return mean >= low && mean <= high ? 1 : 0;
  const below = (x: number): number =>
    x === Number.POSITIVE_INFINITY ? 1 : x === Number.NEGATIVE_INFINITY ? 0 : normalCdf((x - mean) / sigma);
  return below(high) - below(low);
};

/** Chance that one sample fails first and passes by its retest. */
const rescued = (
  room: Window,
  mean: number,
  { between, test }: Spread,
  counts: PlanInForce['retest'],
): number => {
  const variance = between ** 2 + test ** 2;
  const sigma = Math.sqrt(variance);
  if (counts === null || !(sigma > 0) || !(test > 0)) return 0;
  // What counts after the retest and the first result are jointly normal; both tests share the sample, not the test error.
  const shared = counts === 'the retest' ? between ** 2 : between ** 2 + test ** 2 / 2;
  const own = counts === 'the retest' ? variance : between ** 2 + test ** 2 / 2;
  const rest = Math.sqrt(Math.max(0, own - shared ** 2 / variance));
  const passes = (first: number): number =>
    density(first, mean, sigma) * chanceIn(room, mean + (shared / variance) * (first - mean), rest);
  const far = 9 * sigma;
  return (
    integral(passes, mean - far, Math.min(mean + far, room.low)) +
    integral(passes, Math.max(mean - far, room.high), mean + far)
  );
};

/** Chance of each spread of n results, cut in pieces, with the means accepted at it: the same for every true mean. */
const piecesOf = (plan: PlanInForce, sigma: number): { weight: number; low: number; high: number }[] => {
  const freedom = plan.n - 1;
  const norm = Math.exp((freedom / 2) * Math.log(freedom / 2) - lnGamma(freedom / 2));
  // Density of s/sigma: chi with n − 1 degrees of freedom over the root of them.
  const weightAt = (r: number): number =>
    r <= 0 ? 0 : 2 * norm * r ** (freedom - 1) * Math.exp((-freedom * r * r) / 2);
  const to = 1 + 9 / Math.sqrt(2 * freedom);
  const h = to / STEPS;
  return Array.from({ length: STEPS }, (_, i) => {
    const r = (i + 0.5) * h;
    const means = acceptedMeans(r * sigma, plan.n, plan, plan.leastPwlPct);
    return { weight: means === null ? 0 : weightAt(r) * h, low: means?.low ?? 0, high: means?.high ?? 0 };
  });
};

/** Function from a lot's true mean to its chance of being accepted, 0 to 1. */
export const acceptance = (plan: PlanInForce, spread: Spread): ((trueMean: number) => number) => {
  const sigma = Math.hypot(spread.between, spread.test);
  const room = windowOf(plan);
  if (plan.rule === 'mean') return (mean) => chanceIn(room, mean, sigma / Math.sqrt(plan.n));
  if (plan.rule === 'each')
    return (mean) =>
      Math.min(1, chanceIn(room, mean, sigma) + rescued(room, mean, spread, plan.retest)) ** plan.n;
  if (!(sigma > 0)) {
    const exact = { low: plan.from ?? Number.NEGATIVE_INFINITY, high: plan.to ?? Number.POSITIVE_INFINITY };
    return (mean) => chanceIn(exact, mean, 0);
  }
  const pieces = piecesOf(plan, sigma).filter((one) => one.weight > 0);
  return (mean) =>
    pieces.reduce(
      (sum, { weight, low, high }) => sum + weight * chanceIn({ low, high }, mean, sigma / Math.sqrt(plan.n)),
      0,
    );
};

export type OcPoint = { readonly mean: number; readonly chance: number };

/** The curve from one true mean to another in equal steps. */
export const ocCurve = (
  plan: PlanInForce,
  spread: Spread,
  { from, to, steps }: { readonly from: number; readonly to: number; readonly steps: number },
): readonly OcPoint[] => {
  const chance = acceptance(plan, spread);
  return Array.from({ length: steps + 1 }, (_, i) => {
    const mean = from + ((to - from) * i) / steps;
    return { mean, chance: chance(mean) };
  });
};
