/** Lays orders on days one behind the other: hours, change-overs, heating, room in the bays, binder there. */
import { daysBetween } from './days.ts';
import type { Cost, PlanBay, PlanInput, PlanJob, Run, Stuck } from './plan.types.ts';
import {
  CAMPAIGN_MIN,
  CHANGE_MIN,
  type Change,
  CLEARING_MIN,
  changesBetween,
  OPENING_MIN,
  type RunKind,
} from './rates.ts';

type Laid = Omit<Run, 'why'> & { readonly day: number };

/** Where the plan stands after the orders laid so far; never changed in place. */
export type Standing = {
  readonly day: number;
  /** Minute of that day from which the line is free; -1 before it is opened. */
  readonly minute: number;
  readonly kind: RunKind | null;
  /** Campaign lit today. */
  readonly lit: boolean;
  readonly bays: readonly PlanBay[];
  readonly binderKg: PlanInput['binderKg'];
  readonly runs: readonly Laid[];
  readonly late: readonly { readonly order: string; readonly days: number }[];
  readonly stuck: readonly Stuck[];
  readonly cost: Cost;
};

export const beginning = ({ bays, binderKg, leftAs }: PlanInput): Standing => ({
  day: 0,
  minute: -1,
  kind: leftAs,
  lit: false,
  bays,
  binderKg,
  runs: [],
  late: [],
  stuck: [],
  cost: { stuckBatches: 0, lateDays: 0, changes: 0, finishMin: 0 },
});

/** The bay a mix goes to: one that holds it already with room, else an empty one; the roomier first. */
const bayFor = (bays: readonly PlanBay[], mix: string, batchKg: number): PlanBay | null => {
  const roomy = bays
    .filter((bay) => bay.capacityKg - bay.kg >= batchKg)
    .sort((a, b) => b.capacityKg - b.kg - (a.capacityKg - a.kg) || a.id - b.id);
  const own = roomy.find((bay) => bay.mixes.length === 1 && bay.mixes[0] === mix);
  return own ?? roomy.find((bay) => bay.mixes.length === 0) ?? null;
};

const filled = (bays: readonly PlanBay[], id: number, mix: string, kg: number): readonly PlanBay[] =>
  bays.map((bay) => (bay.id === id ? { ...bay, kg: bay.kg + kg, mixes: [mix] } : bay));

const nextDay = (at: Standing): Standing => ({ ...at, day: at.day + 1, minute: -1, lit: false });

type Start = { readonly fromMin: number; readonly waitMin: number; readonly changes: readonly Change[] };

const startOf = (at: Standing, job: PlanJob): Start => {
  const changes = changesBetween(at.kind, job.kind);
  const changeMin = changes.reduce((sum, change) => sum + CHANGE_MIN[change], 0);
  const lightMin = job.kind === 'cold emulsion' || (at.lit && changes.length === 0) ? 0 : CAMPAIGN_MIN;
  const free = (at.minute < 0 ? OPENING_MIN : at.minute) + changeMin + lightMin;
  return { fromMin: Math.max(free, job.heatMin), waitMin: Math.max(0, job.heatMin - free), changes };
};

const workedMin = (days: PlanInput['days'], day: number, minute: number): number =>
  days.slice(0, day).reduce((sum, { minutes }) => sum + minutes, 0) + minute;

const stop = (at: Standing, job: PlanJob, batches: number, why: string): Standing => ({
  ...at,
  stuck: [...at.stuck, { order: job.order, batches, why }],
  cost: { ...at.cost, stuckBatches: at.cost.stuckBatches + batches },
});

const tonnes = (kg: number): string => `${(kg / 1000).toFixed(1)} t`;

/** Lays one order behind what stands already; what cannot be laid is stuck, with words that say what to do. */
export const lay = (input: PlanInput, before: Standing, job: PlanJob): Standing => {
  let at = before;
  let left = job.batches;
  let lastDay: string | null = null;
  if (!Number.isFinite(job.heatMin))
    return stop(
      at,
      job,
      left,
      `The heater cannot bring the ${job.family} tank into the window of ${job.mixName}.`,
    );
  while (left > 0) {
    const day = input.days[at.day];
    if (day === undefined) {
      at = stop(at, job, left, 'The days planned ahead are full: give more hours, or plan it later.');
      break;
    }
    const start = startOf(at, job);
    const time = Math.floor((day.minutes - CLEARING_MIN - start.fromMin) / job.batchMin + 1e-9);
    if (time < 1) {
      at = nextDay(at);
      continue;
    }
    const bay = bayFor(at.bays, job.mix, job.batchKg);
    if (bay === null) {
      at = stop(
        at,
        job,
        left,
        `No bay has room for ${job.mixName}: clear a bay, or have lots taken away first.`,
      );
      break;
    }
    const binder = at.binderKg[job.family];
    const byBinder = binder === null ? left : Math.floor(binder / job.binderKg + 1e-9);
    if (byBinder < 1) {
      const missing = tonnes(left * job.binderKg);
      at = stop(
        at,
        job,
        left,
        `The ${job.family} tank will be empty: have ${missing} delivered, then it can be made.`,
      );
      break;
    }
    const room = Math.floor((bay.capacityKg - bay.kg) / job.batchKg + 1e-9);
    const batches = Math.min(left, time, room, byBinder);
    const kg = batches * job.batchKg;
    const toMin = start.fromMin + batches * job.batchMin;
    const run: Laid = {
      day: at.day,
      order: job.order,
      mix: job.mix,
      kind: job.kind,
      bay: bay.id,
      fromMin: start.fromMin,
      toMin,
      batches,
      kg,
      changes: start.changes,
      waitMin: start.waitMin,
    };
    left -= batches;
    lastDay = day.date;
    at = {
      ...at,
      minute: toMin,
      kind: job.kind,
      lit: job.kind !== 'cold emulsion',
      bays: filled(at.bays, bay.id, job.mix, kg),
      binderKg:
        binder === null ? at.binderKg : { ...at.binderKg, [job.family]: binder - batches * job.binderKg },
      runs: [...at.runs, run],
      cost: {
        ...at.cost,
        changes: at.cost.changes + start.changes.length,
        finishMin: workedMin(input.days, at.day, toMin),
      },
    };
  }
  const days = lastDay === null ? 0 : Math.max(0, daysBetween(job.neededBy, lastDay));
  if (days === 0) return at;
  return {
    ...at,
    late: [...at.late, { order: job.order, days }],
    cost: { ...at.cost, lateDays: at.cost.lateDays + days },
  };
};

/** Below 0 when `a` is the better: fewer stuck batches, then fewer days late, fewer changes, an earlier end. */
export const compareCost = (a: Cost, b: Cost): number =>
  a.stuckBatches - b.stuckBatches ||
  a.lateDays - b.lateDays ||
  a.changes - b.changes ||
  a.finishMin - b.finishMin;
