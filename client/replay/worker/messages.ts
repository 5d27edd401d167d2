/** What the page and its replay worker say to each other. Plain values only: they are copied between threads. */

import type { LineView, RibbonView } from '../../../machines/line/view.types.ts';
import type {
  ExportErrorCode,
  ExportManifest,
  ExportVerdict,
} from '../../../machines/record/export.types.ts';
import type { Scenario } from '../../../machines/scenario/shift.schema.ts';
import type { Difference } from './fold.ts';
import type { ReplayLine } from './lines.ts';
import type { Trace } from './traces.ts';

/** Two moments can be looked at side by side; each has its own place in the shift. */
export type Side = 'a' | 'b';

export type ToWorker =
  | { readonly do: 'open'; readonly file: Blob }
  /** Check the file only: asked of a second worker, so that neither waits for the other. */
  | { readonly do: 'check'; readonly file: Blob }
  | { readonly do: 'seek'; readonly side: Side; readonly tick: number; readonly id: number }
  | {
      readonly do: 'trace';
      readonly id: number;
      readonly tags: readonly string[];
      readonly fromTick: number;
      readonly toTick: number;
      readonly columns: number;
    };

/** What the file says it holds. */
export type Opened = {
  readonly manifest: ExportManifest;
  readonly scenario: Scenario;
  readonly lastTick: number;
  readonly entries: number;
  readonly readingGroups: number;
  readonly tags: readonly string[];
  readonly lines: readonly ReplayLine[];
  readonly ended: boolean;
  /** Why the charts are not run again over this record; null when they are. */
  readonly declined: string | null;
};

/** What the shift came to as far as it has been run again: enough to draw the whole ribbon. */
export type SoFar = {
  readonly tick: number;
  readonly done: boolean;
  readonly ribbon: RibbonView;
  readonly lots: LineView['lots'];
  readonly batches: LineView['batches'];
  readonly differences: readonly Difference[];
  readonly differing: number;
};

export type FromWorker =
  | { readonly is: 'reading'; readonly share: number }
  | { readonly is: 'opened'; readonly opened: Opened }
  | { readonly is: 'unreadable'; readonly code: ExportErrorCode | 'fault'; readonly why: string }
  | { readonly is: 'soFar'; readonly soFar: SoFar }
  /** The charts could not be run any further: what was reached stays usable. */
  | { readonly is: 'stuck'; readonly tick: number; readonly why: string }
  | {
      readonly is: 'view';
      readonly side: Side;
      readonly id: number;
      readonly tick: number;
      readonly view: LineView;
    }
  | { readonly is: 'trace'; readonly id: number; readonly trace: Trace }
  | { readonly is: 'checking'; readonly share: number }
  | { readonly is: 'checked'; readonly verdict: ExportVerdict };
