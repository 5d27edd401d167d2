/**
 * What a drill came to, as plain JSON: the debrief page, the certificate and the headless command all read this.
 * All `atMs`, `fromMs` … are plant time since the shift began, as on the shift ribbon.
 */
import type { Tag } from '../field/tags.ts';
import type { RibbonView } from '../line/view.types.ts';
import type { Competency } from './drill.schema.ts';

export type ExpectedView = {
  readonly id: string;
  readonly text: string;
  readonly competency: Competency;
  /** Null: it was never called for, and does not count. */
  readonly fromMs: number | null;
  readonly dueMs: number | null;
  readonly metMs: number | null;
  readonly standing: 'in time' | 'late' | 'out of order' | 'missed' | 'not called for';
  readonly points: number;
  readonly of: number;
  /** "asked for at 12:30, done after 8 s of 20 s" */
  readonly reason: string;
};

export type DoneView = {
  readonly atMs: number;
  readonly who: string;
  /** In words: "Put out the burner", "Called the fitter", "Answered: No". */
  readonly text: string;
  readonly accepted: boolean;
  readonly because: readonly string[];
};

export type UnsafeView = {
  readonly atMs: number;
  /** tried: refused, but asked for. done: carried out. physical: so it truly was in the plant. */
  readonly kind: 'tried' | 'done' | 'physical';
  readonly text: string;
  readonly times: number;
  readonly fails: boolean;
};

export type CompetencyView = {
  readonly name: Competency;
  /** 0 to 100. */
  readonly score: number;
  readonly points: number;
  readonly of: number;
  /** Each a sentence: what brought or cost points. */
  readonly reasons: readonly string[];
};

export type TruthTrace = {
  readonly tag: Tag;
  readonly label: string;
  readonly unit: string;
  /** Times at which the instrument had a fault, and which. */
  readonly lied: readonly { readonly fromMs: number; readonly toMs: number | null; readonly fault: string }[];
  readonly samples: readonly { readonly atMs: number; readonly truth: number; readonly reading: number }[];
};

/** Vapour under the hood, the dryer flame, and solvent in the pug mill, as they truly were. */
export type VapourSample = {
  readonly atMs: number;
  readonly vapourLelPct: number;
  readonly flame: boolean;
  readonly solventKg: number;
};

export type TwinView = {
  /** What the interlock stepped in against first, in words. */
  readonly because: string;
  readonly fromMs: number;
  /** As it was, and as it would have been with every demand passed straight to the plant. */
  readonly guarded: readonly VapourSample[];
  readonly unguarded: readonly VapourSample[];
  /** When in the twin a flame burned while solvent was in the mill, or null. */
  readonly flameWithSolventMs: number | null;
  readonly worstLelPct: number;
  readonly guardedWorstLelPct: number;
  /** What the twin's own mass balance fails to close by, kg. */
  readonly massErrorKg: number;
  /** One or two plain sentences. */
  readonly words: string;
  /** Says plainly that this is a model. */
  readonly caution: string;
};

export type Debrief = {
  readonly drill: {
    readonly id: string;
    readonly name: string;
    readonly level: number;
    readonly teaches: string;
    readonly basis: string;
  };
  readonly seed: number;
  readonly trainee: { readonly person: string; readonly name: string };
  readonly startMs: number;
  readonly endMs: number;
  readonly ended: string;
  /** 0 to 100, whole. */
  readonly score: number;
  readonly passMark: number;
  readonly passed: boolean;
  /** Why it was or was not passed, in a sentence. */
  readonly verdict: string;
  readonly competencies: readonly CompetencyView[];
  readonly expected: readonly ExpectedView[];
  readonly done: readonly DoneView[];
  readonly incidents: readonly {
    readonly id: string;
    readonly text: string;
    /** What it was this time: "Vapour at hood: drift". */
    readonly what: string;
    readonly fromMs: number | null;
    readonly toMs: number | null;
  }[];
  readonly messages: readonly {
    readonly atMs: number;
    readonly from: string;
    readonly text: string;
    readonly answer: string | null;
  }[];
  readonly hints: readonly { readonly atMs: number; readonly text: string; readonly cost: number }[];
  readonly unsafe: readonly UnsafeView[];
  readonly truth: readonly TruthTrace[];
  readonly vapour: readonly VapourSample[];
  /** Null when the interlock never had to step in. */
  readonly twin: TwinView | null;
  readonly ribbon: RibbonView;
};
