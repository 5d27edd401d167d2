/** What a plan of the week is made from, and what it says. */
import type { Change, RunKind } from './rates.ts';

export type PlanDay = { readonly date: string; readonly minutes: number };

export type PlanJob = {
  readonly order: string;
  readonly mix: string;
  readonly mixName: string;
  readonly kind: RunKind;
  readonly family: 'emulsion' | 'cutback';
  /** Batches still to be made. */
  readonly batches: number;
  readonly batchKg: number;
  readonly batchMin: number;
  readonly binderKg: number;
  /** Minutes into the day before the tank can be in its window. */
  readonly heatMin: number;
  readonly neededBy: string;
};

export type PlanBay = {
  readonly id: number;
  readonly name: string;
  readonly capacityKg: number;
  readonly kg: number;
  readonly mixes: readonly string[];
};

export type PlanInput = {
  readonly days: readonly PlanDay[];
  readonly startsAt: string;
  readonly jobs: readonly PlanJob[];
  readonly bays: readonly PlanBay[];
  /** Binder there, kg; null is not known, and then no limit. */
  readonly binderKg: { readonly emulsion: number | null; readonly cutback: number | null };
  /** How the line was left. */
  readonly leftAs: RunKind | null;
  /** Sequence a person set. */
  readonly arranged: readonly string[] | null;
};

export type Run = {
  readonly order: string;
  readonly mix: string;
  readonly kind: RunKind;
  readonly bay: number;
  readonly fromMin: number;
  readonly toMin: number;
  readonly batches: number;
  readonly kg: number;
  readonly changes: readonly Change[];
  /** Minutes it stood waiting for its tank to be warm. */
  readonly waitMin: number;
  readonly why: readonly string[];
};

export type Stuck = { readonly order: string; readonly batches: number; readonly why: string };

/** What a sequence costs, told in this order: first is worst. */
export type Cost = {
  /** Batches that cannot be made at all within the days looked at. */
  readonly stuckBatches: number;
  /** Days late, summed over orders. */
  readonly lateDays: number;
  readonly changes: number;
  /** Minutes of work from the first morning to the last batch, in working time. */
  readonly finishMin: number;
};

export type Plan = {
  readonly startsAt: string;
  readonly days: readonly (PlanDay & { readonly runs: readonly Run[] })[];
  readonly sequence: readonly string[];
  readonly cost: Cost;
  readonly late: readonly { readonly order: string; readonly days: number }[];
  readonly stuck: readonly Stuck[];
  /** Whether every sequence was weighed: false when there were too many to. */
  readonly proved: boolean;
  /** A person's sequence is followed; `best` is what the plan's own would cost. */
  readonly byHand: boolean;
  readonly best: { readonly sequence: readonly string[]; readonly cost: Cost };
};
