/** The plan of the days ahead: the best sequence there is, or the one a person set, with its reasons. */
import type { Plan, PlanInput, PlanJob } from './plan.types.ts';
import { layAll, search } from './search.ts';
import { explained } from './why.ts';

/** A person's sequence, with orders it does not name behind it in the plan's own. */
const asArranged = (best: readonly PlanJob[], arranged: readonly string[]): readonly PlanJob[] => [
  ...arranged.flatMap((id) => best.find(({ order }) => order === id) ?? []),
  ...best.filter(({ order }) => !arranged.includes(order)),
];

const idsOf = (sequence: readonly PlanJob[]): readonly string[] => sequence.map(({ order }) => order);

const planned = (input: PlanInput): Plan => {
  const best = search(input);
  const sequence = input.arranged === null ? best.sequence : asArranged(best.sequence, input.arranged);
  const byHand = idsOf(sequence).join() !== idsOf(best.sequence).join();
  const standing = byHand ? layAll(input, sequence) : best.standing;
  const runs = explained(input, standing, byHand);
  return {
    startsAt: input.startsAt,
    days: input.days.map((day, i) => ({
      ...day,
      runs: runs.filter((run) => run.day === i).map(({ day: _day, ...run }) => run),
    })),
    sequence: idsOf(sequence),
    cost: standing.cost,
    late: standing.late,
    stuck: standing.stuck,
    proved: best.proved,
    byHand,
    best: { sequence: idsOf(best.sequence), cost: best.standing.cost },
  };
};

let last: { readonly of: string; readonly plan: Plan } | null = null;

/** The plan of that input. The last one is kept: consoles ask for it far more often than it changes. */
export const planWeek = (input: PlanInput): Plan => {
  const of = JSON.stringify(input);
  if (last?.of !== of) last = { of, plan: planned(input) };
  return last.plan;
};
