/** The best sequence of orders: every one of them is tried, but for those already worse than the best found. */
import { beginning, compareCost, lay, type Standing } from './lay.ts';
import type { PlanInput, PlanJob } from './plan.types.ts';

/** So many orders are laid while searching; beyond it the best found so far is taken and said to be unproved. */
const MOST_LAID = 20_000;

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

/**
 * Exact by branch and bound: stuck batches, days late and changes only grow as orders are added, and so does the end,
 * so a beginning that is no better than the best whole sequence needs no more looking into.
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
      if (compareCost(next.cost, best.standing.cost) >= 0) continue;
      look(
        next,
        [...done, job],
        rest.filter((one) => one !== job),
      );
    }
  };
  look(beginning(input), [], guess);
  return { ...best, proved: laid < MOST_LAID };
};
