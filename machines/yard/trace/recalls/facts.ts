/** What happened with recalls and recall drills, in the past tense and complete. */
import type { TraceFrom } from '../traced.types.ts';

export const TICKS = ['crew told', 'inspected', 'found sound', 'taken out'] as const;
export type TickWhat = (typeof TICKS)[number];

export type DrillResult = {
  readonly from: TraceFrom;
  readonly words: string;
  readonly seconds: number;
  /** Patches that were to be found. */
  readonly truth: readonly string[];
  readonly ticked: readonly string[];
  readonly missed: readonly string[];
  /** Ticked although nothing of it is in them. */
  readonly wrong: readonly string[];
  /** 0..100. */
  readonly score: number;
};

export type RecallFact =
  | {
      readonly is: 'recallOpened';
      readonly recall: string;
      readonly from: TraceFrom;
      readonly words: string;
      readonly reason: string;
    }
  | {
      readonly is: 'patchTicked';
      readonly recall: string;
      readonly patch: string;
      readonly n: number;
      readonly what: TickWhat;
      readonly note: string;
    }
  | {
      readonly is: 'tickTakenBack';
      readonly recall: string;
      readonly patch: string;
      readonly n: number;
      readonly what: TickWhat;
      readonly reason: string;
    }
  | { readonly is: 'recallClosed'; readonly recall: string; readonly remark: string }
  | { readonly is: 'recallReopened'; readonly recall: string; readonly reason: string }
  | ({ readonly is: 'recallDrillDone' } & DrillResult);
