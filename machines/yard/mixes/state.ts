/** What the book of job mixes holds: every version with who made and approved it. Plain JSON. */
import type { Who } from '../../line/facts.ts';
import type { Mix } from '../../scenario/mix.schema.ts';
import type { PlantSpec } from '../../scenario/plant.schema.ts';
import type { BinDescription, Factor, TrialResult } from './facts.ts';

export type VersionState = 'draft' | 'approved' | 'superseded' | 'withdrawn';

export type MixVersion = {
  readonly content: Mix;
  readonly state: VersionState;
  /** Who drafted it; null when it came with the files of a shift. */
  readonly draftedBy: Who | null;
  readonly draftedAt: string;
  readonly why: string;
  readonly from: { readonly mix: string; readonly version: number } | null;
  /** Null while a draft, and for a version that came approved with the files of a shift. */
  readonly approvedBy: Who | null;
  readonly approvedAt: string | null;
  readonly note: string;
  /** The version it took the place of when approved: in force again if this one is withdrawn. */
  readonly tookPlaceOf: number | null;
  readonly withdrawn: { readonly by: Who; readonly at: string; readonly reason: string } | null;
  /** A shift opened with a file of the same id and version but other content. */
  readonly differs: string | null;
};

export type Trial = {
  readonly trial: string;
  readonly mix: string;
  readonly version: number;
  readonly batch: string | null;
  readonly kg: number;
  readonly results: readonly TrialResult[];
  readonly note: string;
  readonly by: Who;
  readonly at: string;
  readonly corrections: readonly {
    readonly by: Who;
    readonly at: string;
    readonly reason: string;
    readonly was: readonly TrialResult[];
  }[];
};

export type MixesState = {
  /** By mix id, versions in order of their number. */
  readonly mixes: { readonly [mix: string]: readonly MixVersion[] };
  /** The newest trials of all mixes, oldest first. */
  readonly trials: readonly Trial[];
  readonly trialCount: number;
  /** Factors of cost, energy and carbon dioxide that differ from the defaults. */
  readonly factors: { readonly [factor: string]: Factor };
  /** By number of the bin, where a person described it anew. */
  readonly bins: { readonly [bin: string]: BinDescription };
  /** Version of each mix that the newest shift was opened with. */
  readonly running: { readonly [mix: string]: number };
  /** The plant of the newest shift, as it stood on its morning; null before any. */
  readonly plant: PlantSpec | null;
  /** The newest shift's first hour and outside air, for forecasts; null before any. */
  readonly morning: { readonly date: string; readonly startsAt: string; readonly startC: number } | null;
};

export const EMPTY_MIXES: MixesState = {
  mixes: {},
  trials: [],
  trialCount: 0,
  factors: {},
  bins: {},
  running: {},
  plant: null,
  morning: null,
};
