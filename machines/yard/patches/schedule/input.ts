/** What the plan is made from, out of the books: orders that stand, mixes in force, bays, tanks, hours. */
import type { Mix } from '../../../scenario/mix.schema.ts';
import { isLive } from '../naming.ts';
import { leftToMakeKg } from '../orders.ts';
import { bayContents, mixesInForce, type PatchesOthers, storeKg } from '../others.ts';
import type { ProductionOrder } from '../patch.types.ts';
import type { PatchesState } from '../state.ts';
import { addDays, hoursOn } from './days.ts';
import type { PlanBay, PlanDay, PlanInput, PlanJob } from './plan.types.ts';
import { batchMin, binderKgOfBatch, heatingMin, kindOf } from './rates.ts';

/** Three weeks: what does not fit in them is said to be stuck. */
export const DAYS_AHEAD = 21;

/** Plans begin on the day after the shift on record: its own day is its own. */
const daysFrom = (state: PatchesState, date: string): readonly PlanDay[] =>
  Array.from({ length: DAYS_AHEAD }, (_, i) => {
    const day = addDays(date, i + 1);
    return { date: day, minutes: hoursOn(state.week, day) * 60 };
  });

const jobOf = (state: PatchesState, order: ProductionOrder, mix: Mix): PlanJob => ({
  order: order.id,
  mix: mix.id,
  mixName: mix.name,
  kind: kindOf(mix),
  family: mix.family,
  batches: Math.ceil(leftToMakeKg(order) / mix.batchKg - 1e-9),
  batchKg: mix.batchKg,
  batchMin: batchMin(mix),
  binderKg: binderKgOfBatch(mix),
  heatMin: state.plant === null ? 0 : heatingMin(state.plant, mix),
  neededBy: order.neededBy,
});

export const ordersToMake = (state: PatchesState): readonly ProductionOrder[] =>
  Object.values(state.orders).filter((order) => isLive(order) && leftToMakeKg(order) > 0);

const baysOf = (state: PatchesState, others: PatchesOthers): readonly PlanBay[] => {
  const contents = bayContents(others);
  return (state.plant?.bays ?? []).map(({ id, name, capacityT }) => ({
    id,
    name,
    capacityKg: capacityT * 1000,
    kg: contents[id]?.kg ?? 0,
    mixes: contents[id]?.mixes ?? [],
  }));
};

/** Null before any shift: nothing is known of the plant then. */
export const planInput = (state: PatchesState, others: PatchesOthers): PlanInput | null => {
  const { shift } = state;
  if (shift === null || state.plant === null) return null;
  const mixes = mixesInForce(state, others);
  const find = (id: string): Mix | undefined => mixes.find((mix) => mix.id === id);
  const last = find(shift.orders[shift.order]?.mix ?? '');
  return {
    startsAt: shift.startsAt,
    days: daysFrom(state, shift.date),
    jobs: ordersToMake(state).flatMap((order) => {
      const mix = find(order.mix);
      return mix === undefined ? [] : [jobOf(state, order, mix)];
    }),
    bays: baysOf(state, others),
    binderKg: { emulsion: storeKg(others, 'tank:emulsion'), cutback: storeKg(others, 'tank:cutback') },
    leftAs: last === undefined ? null : kindOf(last),
    arranged: state.week.arranged,
  };
};

/** Orders whose mix has no approved version any more: they cannot be planned until one is approved. */
export const ordersWithoutMix = (state: PatchesState, others: PatchesOthers): readonly string[] => {
  const mixes = mixesInForce(state, others).map(({ id }) => id);
  return ordersToMake(state).flatMap(({ id, mix }) => (mixes.includes(mix) ? [] : [id]));
};
