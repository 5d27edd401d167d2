/** What the book of job mixes reads of the lab's book, by structure: moisture, lots and analyses of bins. */
import type { Specification } from '../../scenario/specification.schema.ts';

type Result = { readonly property: string; readonly value: number };

type LotsSeen = {
  readonly [lot: string]: {
    readonly lot: string;
    readonly state: string;
    readonly mixId: string;
    readonly mixVersion: number;
    readonly openedAt: string;
    readonly results: readonly Result[];
  };
};

export type LabSeen = {
  readonly moisture?: readonly {
    readonly bin: number;
    readonly moisturePct: number;
    readonly at: string;
    readonly worksheet: string;
  }[];
  readonly lots?: LotsSeen;
  /** Older lots, by month. */
  readonly past?: { readonly [month: string]: LotsSeen };
  /** Worksheets on no lot, oldest first. */
  readonly others?: readonly {
    readonly id: string;
    readonly subject: { readonly kind: string; readonly id: string } | null;
    readonly testedAt: string;
    readonly aside: unknown;
    readonly results: readonly Result[];
  }[];
  readonly specifications?: { readonly [id: string]: Specification };
};

export type Others = { readonly lab?: LabSeen };
