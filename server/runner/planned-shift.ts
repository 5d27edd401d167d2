/** The next shift as the yard's plan has it: its day's runs as orders, in the mix versions that are approved. */
import type { Ledger } from '../../machines/ledger/ledger.ts';
import type { Scenario, Shift } from '../../machines/scenario/shift.schema.ts';
import { mixesInForce, type PatchesOthers } from '../../machines/yard/patches/others.ts';
import { planInput } from '../../machines/yard/patches/schedule/input.ts';
import { planWeek } from '../../machines/yard/patches/schedule/plan.ts';
import type { Run } from '../../machines/yard/patches/schedule/plan.types.ts';
import type { PatchesState } from '../../machines/yard/patches/state.ts';

/** Every shift opened from the plan has this id; lots and seeds tell them apart by day and number. */
export const PLANNED_SHIFT = 'planned-shift';

export type Planned =
  | { readonly ok: true; readonly files: Scenario; readonly date: string }
  | { readonly ok: false; readonly because: readonly string[] };

/** Runs of one order into one bay are one order of the shift. */
const ordersOf = (runs: readonly Run[]): Shift['orders'] => {
  const orders: Shift['orders'] = [];
  for (const { order, mix, bay, kg } of runs) {
    const same = orders.find((one) => one.for === order && one.bay === bay);
    if (same === undefined) orders.push({ mix, tonnes: kg / 1000, bay, for: order });
    else same.tonnes += kg / 1000;
  }
  return orders;
};

/**
 * The first planned day that has work, on the plant, people and weather of `base`. Incidents of the base are left out:
 * they belong to its own day.
 */
export const plannedShift = (ledger: Ledger, base: Scenario): Planned => {
  const patches = ledger.patches as PatchesState;
  const others = ledger as unknown as PatchesOthers;
  const input = planInput(patches, others);
  const day = input === null ? undefined : planWeek(input).days.find(({ runs }) => runs.length > 0);
  if (day === undefined)
    return {
      ok: false,
      because: [
        'The plan of the yard has no work for the days ahead: make an order there first (Yard, Patches).',
      ],
    };
  const orders = ordersOf(day.runs);
  const mixes = mixesInForce(patches, others);
  // Those to be made first; the others stay at hand, as a line may be asked for them.
  const wanted = [...new Set(orders.map(({ mix }) => mix))];
  const ordered = wanted.flatMap((id) => mixes.find((mix) => mix.id === id) ?? []);
  const rest = mixes.filter(({ id }) => !wanted.includes(id));
  const shift: Shift = {
    ...base.shift,
    id: PLANNED_SHIFT,
    name: 'Planned shift',
    hours: day.minutes / 60,
    orders,
    incidents: [],
  };
  return { ok: true, files: { ...base, shift, mixes: [...ordered, ...rest] }, date: day.date };
};
