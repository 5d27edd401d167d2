/** What a lot is judged on, and what the judgement says. */
import type { Grading } from '../../mix/gradation.ts';
import type { LabTest } from '../../scenario/lab-tests.ts';
import type { Mix } from '../../scenario/mix.schema.ts';
import type { Limit, Rule } from '../../scenario/specification.schema.ts';

/** One result of one worked-out sheet on one sample. */
export type LotResult = {
  /** Number of the sample in the lot's plan. */
  readonly sample: number;
  readonly test: LabTest;
  readonly property: string;
  readonly value: number;
  readonly unit: string;
  /** 0 for the first test of the sample, 1 for its first retest on the retained portion, and so on. */
  readonly retest?: number;
  /** Local plant time of the sheet, for telling the order. */
  readonly at?: string;
};

/** What became of a sample of the plan; `logged` was taken later, from the bay, in place of a lost one. */
export type SampleState = 'ahead' | 'due' | 'taken' | 'missed' | 'not reached' | 'logged';

export type JudgeContext = {
  /** Water absorption of the stone, % by mass, weighted by its shares in the mix; null when nobody has measured it. */
  readonly absorptionPct: number | null;
  readonly lotGrams: number;
  /** Mass the lot was meant to have, g. */
  readonly fullLotGrams: number;
  readonly closed: boolean;
  readonly samples: readonly { readonly n: number; readonly test: LabTest; readonly state: SampleState }[];
  /** For what the mix itself is made to, against the limits. */
  readonly mix?: Mix | null;
  /** Grading of each bin by its number, for the blend the mix is made to. */
  readonly gradings?: ReadonlyMap<number, Grading>;
};

export type ResultJudged = LotResult & {
  /** Whether it takes part in the verdict; a first result set aside by its retest does not, and stays on the sheet. */
  readonly counts: boolean;
  readonly within: boolean | null;
  readonly limits: readonly Limit[];
  readonly words: string;
};

export type Failing = {
  readonly property: string;
  /** What was held against the limit: a result, a mean, or an estimated share. */
  readonly value: number;
  readonly limit: Limit;
  readonly test: LabTest;
  readonly rule: Rule;
  readonly samples: readonly number[];
  readonly words: string;
};

export type Missing = {
  readonly test: LabTest;
  readonly wanted: number;
  readonly have: number;
  readonly words: string;
};

export type Contradiction = {
  /** aim: what the mix is made to lies outside; window: limits leave no room; family, test: the files do not fit. */
  readonly kind: 'aim' | 'edge' | 'window' | 'family' | 'test';
  readonly property: string | null;
  readonly value: number | null;
  readonly limit: Limit | null;
  readonly words: string;
};

export type Judgement = {
  readonly verdict: 'pass' | 'fail' | 'incomplete';
  readonly failing: readonly Failing[];
  readonly missing: readonly Missing[];
  readonly contradictions: readonly Contradiction[];
  readonly results: readonly ResultJudged[];
  /** Which rules were taken and why: short lot, missed sample, retest, unknown absorption. */
  readonly notes: readonly string[];
  /** One sentence for the head of the page. */
  readonly words: string;
};
