/** What a trace answers: the flow as a picture draws it, and the lists people work with. Plain JSON. */
import type { NodeKind, NodeRef } from './edges.ts';

/** What a trace starts from. Times are the plant's clock, YYYY-MM-DDTHH:MM:SS or the beginning of one. */
export type TraceFrom =
  | { readonly kind: 'delivery' | 'batch' | 'lot' | 'load' | 'patch'; readonly id: string }
  | { readonly kind: 'operator'; readonly id: string; readonly from?: string; readonly to?: string }
  /** Batches weighed between two zeroings of a scale (named by the entry of the first), or between two times. */
  | { readonly kind: 'scale'; readonly id: string; readonly from?: string; readonly to?: string };

export type TracedNode = NodeRef & {
  /** More about it, such as who made a batch; '' when nothing is known. */
  readonly words: string;
  /** Grams that came in by ways that may carry what is traced, less what went on. */
  readonly affectedGrams: number;
  readonly shareInGrams: number;
  readonly shareOutGrams: number;
};
export type TracedEdge = {
  readonly from: NodeRef;
  readonly to: NodeRef;
  readonly grams: number;
  readonly shareGrams: number;
};

/** A hole that may hold what is traced. */
export type TracedPatch = {
  readonly patch: string;
  readonly place: string;
  readonly laidAt: string;
  readonly by: string;
  readonly loads: readonly string[];
  readonly lots: readonly string[];
  /** Mix in it that is affected, and what is traced of it by share. */
  readonly affectedGrams: number;
  readonly shareGrams: number;
};

/** Mix that is not in a hole yet, or never will be. */
export type TracedLeft = {
  readonly kind: NodeKind;
  readonly id: string;
  readonly affectedGrams: number;
  readonly shareGrams: number;
};

export type TracedBatch = {
  readonly batch: string;
  readonly shift: number;
  readonly number: number;
  readonly lot: string;
  readonly mix: string;
  readonly by: string;
  readonly at: string;
  readonly bay: number | null;
  /** By share in what is traced (backward), or of what is traced in it (forward). */
  readonly shareGrams: number;
};

export type TracedPart = { readonly kind: NodeKind | null; readonly id: string; readonly grams: number };

export type Traced = {
  readonly direction: 'forward' | 'backward';
  readonly from: TraceFrom;
  /** In a sentence. */
  readonly words: string;
  /** Grams that left what is traced, or that lie in the patch. */
  readonly grams: number;
  readonly patches: readonly TracedPatch[];
  readonly affectedPatchGrams: number;
  /** Forward: where the rest is; in bays, on vehicles, gone to waste or into the air. */
  readonly left: readonly TracedLeft[];
  readonly batches: readonly TracedBatch[];
  readonly lots: readonly string[];
  readonly loads: readonly string[];
  /** Backward: what it is made of, by delivery. */
  readonly madeOf: readonly TracedPart[];
  readonly nodes: readonly TracedNode[];
  readonly edges: readonly TracedEdge[];
};

/** Something a trace can start from, for the search box. */
export type Suggestion = {
  readonly kind: TraceFrom['kind'];
  readonly id: string;
  readonly words: string;
};
