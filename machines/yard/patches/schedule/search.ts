/** The best sequence of orders: every one of them is tried, but for those already worse than the best found. */
import { beginning, compareCost, lay, type Standing } from './lay.ts';
import type { Cost, PlanInput, PlanJob } from './plan.types.ts';
import type { RunKind } from './rates.ts';

/** So many orders are laid while searching; beyond it the best found so far is taken and said to be unproved. */
const MOST_LAID = 10_000;
/** Sums of minutes differ in their last places by the order they are added in. */
const ROUNDING_MIN = 1e-6;

export type Found = {
  readonly sequence: readonly PlanJob[];
  readonly standing: Standing;
  readonly proved: boolean;
};

export const layAll = (input: PlanInput, sequence: readonly PlanJob[]): Standing =>
  sequence.reduce((at, job) => lay(input, at, job), beginning(input));

const by = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** A sound sequence to begin with: kinds together, the kind needed first in front, inside it by day. */
const firstGuess = (jobs: readonly PlanJob[]): readonly PlanJob[] => {
  const earliest = new Map<string, string>();
  for (const { kind, neededBy } of jobs) {
    const known = earliest.get(kind);
    if (known === undefined || neededBy < known) earliest.set(kind, neededBy);
  }
  return [...jobs].sort(
    (a, b) =>
      by(earliest.get(a.kind) ?? '', earliest.get(b.kind) ?? '') ||
      by(a.kind, b.kind) ||
      by(a.neededBy, b.neededBy) ||
      by(a.mix, b.mix) ||
      by(a.order, b.order),
  );
};

/** Fewest changes on the way into a kind, from whichever other; none when it is the kind the line stands at. */
const LEAST_INTO: { readonly [K in RunKind]: number } = {
  'cold emulsion': 1,
  'warm emulsion': 1,
  cutback: 2,
};

/** No sequence of the rest can cost less: every other kind is entered once at least, and every batch takes its time. */
const leastCost = ({ cost, kind }: Standing, rest: readonly PlanJob[]): Cost => {
  const kinds = new Set(rest.map((job) => job.kind));
  let changes = cost.changes;
  if (kind !== null) for (const one of kinds) if (one !== kind) changes += LEAST_INTO[one];
  const minutes = rest.reduce((sum, job) => sum + job.batches * job.batchMin, 0);
  return { ...cost, changes, finishMin: cost.finishMin + minutes - ROUNDING_MIN };
};

/**
 * Exact by branch and bound: stuck batches, days late, changes and the end only grow as orders are added, so a
 * beginning that can come out no better than the best whole sequence needs no more looking into. Where a batch of the
 * rest is stuck the bound holds too, as that alone costs more.
 */
export const search = (input: PlanInput): Found => {
  const guess = firstGuess(input.jobs);
  const byDay = [...input.jobs].sort((a, b) => by(a.neededBy, b.neededBy) || by(a.order, b.order));
  let best = { sequence: guess, standing: layAll(input, guess) };
  const other = layAll(input, byDay);
  if (compareCost(other.cost, best.standing.cost) < 0) best = { sequence: byDay, standing: other };
  let laid = 0;
  const look = (at: Standing, done: readonly PlanJob[], rest: readonly PlanJob[]): void => {
    if (rest.length === 0) {
      if (compareCost(at.cost, best.standing.cost) < 0) best = { sequence: done, standing: at };
      return;
    }
    for (const job of rest) {
      if (laid >= MOST_LAID) return;
      laid += 1;
      const next = lay(input, at, job);
      const left = rest.filter((one) => one !== job);
      if (compareCost(leastCost(next, left), best.standing.cost) >= 0) continue;
      look(next, [...done, job], left);
    }
  };
  look(beginning(input), [], guess);
  return { ...best, proved: laid < MOST_LAID };
};
