/** The state of the patches book: lists, orders, the figures of the take-off, and what the plan needs of the plant. */
import type { Mix } from '../../scenario/mix.schema.ts';
import type { PlantSpec } from '../../scenario/plant.schema.ts';
import { type Basis, DEFAULT_BASIS } from './basis.ts';
import type { PatchList, ProductionOrder } from './patch.types.ts';

/** An order of the shift that runs, and the production order it was opened for. */
export type ShiftOrder = { readonly mix: string; readonly bay: number; readonly for: string | null };

export type DayUse = { readonly date: string; readonly mix: string; readonly kg: number };

export type PatchesState = {
  readonly lists: Readonly<Record<string, PatchList>>;
  readonly orders: Readonly<Record<string, ProductionOrder>>;
  readonly basis: Basis;
  /** Last numbers given, so that a name is never used twice. */
  readonly numbered: { readonly day: string; readonly lists: number; readonly orders: number };
  /** As the shift opened last has them. */
  readonly plant: PlantSpec | null;
  readonly mixes: readonly Mix[];
  readonly shift: {
    readonly id: string;
    readonly date: string;
    readonly startsAt: string;
    readonly hours: number;
    readonly ended: boolean;
    readonly orders: readonly ShiftOrder[];
    /** Order worked on, from 0. */
    readonly order: number;
  } | null;
  /** Mix and production order of the lots that are open in this shift. */
  readonly lots: Readonly<
    Record<string, { readonly mix: string; readonly bay: number; readonly for: string | null }>
  >;
  /** The mix of the loads made out last. */
  readonly loads: readonly { readonly load: string; readonly mix: string }[];
  /** Mix laid in patches by day and mix, the last 60 days that had any. */
  readonly use: readonly DayUse[];
  readonly week: {
    /** Hours of each day of the week, Monday first; 0 is a day off. */
    readonly hours: readonly number[];
    /** Days that differ, by date. */
    readonly days: Readonly<Record<string, number>>;
    /** Orders in the order a person put them; null leaves it to the plan. */
    readonly arranged: readonly string[] | null;
    readonly why: string | null;
  };
};

export const EMPTY_PATCHES: PatchesState = {
  lists: {},
  orders: {},
  basis: DEFAULT_BASIS,
  numbered: { day: '', lists: 0, orders: 0 },
  plant: null,
  mixes: [],
  shift: null,
  lots: {},
  loads: [],
  use: [],
  week: { hours: [8, 8, 8, 8, 8, 0, 0], days: {}, arranged: null, why: null },
};
