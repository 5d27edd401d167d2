/** What happened to job mixes, in the past tense and complete: versions, trials, figures of bins and costs. */
import type { Mix } from '../../scenario/mix.schema.ts';

/** What a bin holds, beyond the plant file: its kind decides which rules bind it. */
export type BinDescription = {
  readonly kind: 'crushed stone' | 'natural sand' | 'reclaimed';
  /** % passing by dry mass, from the largest sieve to the smallest. */
  readonly grading: readonly { readonly sieveMm: number; readonly passingPct: number }[];
  readonly absorptionPct: number;
  /** Binder that reclaimed pavement brings of its own, % of its dry mass; 0 for new stone. */
  readonly ownBinderPct: number;
  /** Where these figures come from, in words. */
  readonly source: string;
};

/** One figure of a trial: what was predicted and what was found. */
export type TrialResult = {
  readonly property: string;
  readonly unit: string;
  readonly predicted: number | null;
  readonly measured: number;
};

export type Factor = { readonly value: number; readonly source: string };

export type MixFact =
  | {
      readonly is: 'mixDrafted';
      /** Id of the mix. */
      readonly mix: string;
      readonly version: number;
      /** The whole version; never changed afterwards. */
      readonly content: Mix;
      readonly why: string;
      /** The version it was made from, or null when it was begun anew. */
      readonly from: { readonly mix: string; readonly version: number } | null;
    }
  | {
      readonly is: 'mixApproved';
      readonly mix: string;
      readonly version: number;
      readonly note: string;
      /** The version it takes the place of. */
      readonly supersedes: number | null;
    }
  | {
      readonly is: 'mixWithdrawn';
      readonly mix: string;
      readonly version: number;
      readonly was: 'draft' | 'approved';
      readonly reason: string;
      /** The version that is in force again. */
      readonly backTo: number | null;
    }
  | {
      readonly is: 'trialRecorded';
      readonly trial: string;
      readonly mix: string;
      readonly version: number;
      /** The line's batch as '<lot>/<n>', or null when it was mixed by hand. */
      readonly batch: string | null;
      readonly kg: number;
      readonly results: readonly TrialResult[];
      readonly note: string;
    }
  | {
      readonly is: 'trialCorrected';
      readonly trial: string;
      readonly was: readonly TrialResult[];
      readonly now: readonly TrialResult[];
      readonly reason: string;
    }
  | {
      readonly is: 'factorSet';
      readonly factor: string;
      readonly was: Factor;
      readonly now: Factor;
      readonly reason: string;
    }
  | {
      readonly is: 'binDescribed';
      /** Number of the bin, from 1. */
      readonly bin: number;
      readonly was: BinDescription | null;
      readonly now: BinDescription;
      readonly reason: string;
    };
