/** The lab book's state: plain JSON, small however old the plant grows. */
import type { Grading } from '../mix/gradation.ts';
import type { Mix } from '../scenario/mix.schema.ts';
import type {
  FieldChange,
  HoldCause,
  LotState,
  Readings,
  Result,
  Subject,
  SubstituteSource,
} from './facts.ts';
import type { SheetId } from './sheet-ids.ts';

/** One sample the plan of a lot asks for. */
export type LabSample = {
  readonly n: number;
  /** What it is for: a test kind of the specification, or '' where the mix names none. */
  readonly test: string;
  /** Which part of the lot it was drawn in, 1..ofParts. */
  readonly part: number;
  readonly ofParts: number;
  readonly state: 'ahead' | 'due' | 'taken' | 'missed' | 'not reached' | 'logged';
  /** Tonnage in the lot, kg, once it was called; null before. */
  readonly atKg: number | null;
  /** What lay in the lot when it was called, g. */
  readonly calledAtGrams: number | null;
  /** When it fell due; null before. */
  readonly dueAt: string | null;
  /** Who took it, when, from which batch; null before. */
  readonly takenBy: string | null;
  readonly takenAt: string | null;
  readonly batch: number | null;
  readonly massKg: number | null;
  readonly container: string | null;
  readonly label: string | null;
  readonly retainedKg: number | null;
  readonly discardOn: string | null;
  readonly discarded: boolean;
  readonly substitute: null | {
    readonly source: SubstituteSource;
    readonly ofSample: number | null;
    readonly reason: string;
  };
  readonly custody: readonly {
    readonly at: string;
    readonly from: string;
    readonly to: string;
    readonly remark: string;
  }[];
  readonly corrections: readonly Correction[];
};

export type Correction = {
  readonly at: string;
  readonly by: string;
  readonly reason: string;
  readonly changes: readonly FieldChange[];
};

/** One worksheet as it stands, with every correction made to it. */
export type LabWorksheet = {
  readonly id: string;
  readonly sheet: SheetId;
  readonly test: string;
  readonly lot: string | null;
  readonly sample: number | null;
  readonly subject: Subject | null;
  readonly retest: boolean;
  readonly readings: Readings;
  readonly results: readonly Result[];
  readonly notes: readonly string[];
  readonly departures: readonly string[];
  readonly testedBy: string;
  readonly testedAt: string;
  readonly enteredBy: string;
  readonly enteredAt: string;
  readonly balance: string;
  readonly simulated: boolean;
  readonly remark: string;
  readonly corrections: readonly (Correction & { readonly wasResults: readonly Result[] })[];
  /** Not counted any more, and why; null while it counts. */
  readonly aside: null | { readonly at: string; readonly by: string; readonly reason: string };
  readonly photos: readonly {
    readonly sha256: string;
    readonly caption: string;
    readonly at: string;
    readonly by: string;
    readonly aside: string | null;
  }[];
};

/** What was done with or decided about a lot, in words, oldest first. */
export type LotEvent = {
  readonly at: string;
  readonly by: string;
  readonly what: string;
  readonly reason: string;
};

export type LabLot = {
  readonly lot: string;
  readonly state: LotState;
  /** What was done about a lot that was rejected. */
  readonly done: null | 'sent to waste' | 'being reworked';
  readonly mixId: string;
  readonly mixVersion: number;
  readonly family: Mix['family'];
  readonly bay: number;
  readonly grams: number;
  /** Mass a full lot has, kg. */
  readonly ofKg: number;
  readonly batches: readonly number[];
  /** Mass of each of its batches, g, in the same order. */
  readonly batchGrams: readonly number[];
  readonly short: boolean;
  readonly openedAt: string;
  readonly closedAt: string | null;
  /** seq of its shift's opening entry. */
  readonly shift: number;
  /** Id and version of the specification it is judged by; null where its mix names none. */
  readonly specification: string | null;
  readonly specificationVersion: number | null;
  readonly verdict: 'pass' | 'fail' | 'incomplete';
  /** What the rules would have a person do next; the program proposes and never decides. */
  readonly proposal: 'accept' | 'decide what follows' | 'wait';
  /** What is still missing and what fails, in words. */
  readonly missing: readonly string[];
  readonly failing: readonly string[];
  /** The lot's figures by property, as they were judged; retests by the specification's rule. */
  readonly results: readonly Result[];
  /** What was so when it was made, for breakdowns; machines/lab/series.ts says which label of a chart each is. */
  readonly labels: { readonly [name: string]: string };
  /** Water absorption of its stone when it was opened, %: by the lab's own tests, else by the plant file; null: unknown. */
  readonly absorptionPct: number | null;
  /** Seal of the sampling plan. `nonce` and `atKg` are known once the lot is closed. */
  readonly plan: null | {
    readonly commitment: string;
    readonly nonce: string | null;
    readonly atKg: readonly number[] | null;
    /** Null while sealed; else what speaks against the opened plan, empty when it holds. */
    readonly findings: readonly string[] | null;
  };
  /** What had left the yard when a decision was last re-opened, g; left out when none was. */
  readonly leftYardGrams?: number;
  readonly decidedBy: string | null;
  readonly decidedAt: string | null;
  /** Who asks for a concession and why; null when nobody does. */
  readonly concession: null | { readonly askedBy: string; readonly at: string; readonly reason: string };
  readonly retests: readonly {
    readonly sample: number;
    readonly test: string;
    readonly reason: string;
    readonly done: boolean;
  }[];
  /** Held by a failing result or a person, until the hold is lifted or the lot decided. */
  readonly held: boolean;
  /** A hold a person set is lifted by a person; one a failing result set ends with the decision too. Null: not held. */
  readonly heldBy: HoldCause | null;
  /** Standard next steps of the hold it is under. */
  readonly nextSteps: readonly string[];
  readonly samples: readonly LabSample[];
  readonly worksheets: readonly LabWorksheet[];
  readonly events: readonly LotEvent[];
  /** True when samples, worksheets and events were left out of the state; the record has them. */
  readonly folded: boolean;
};

/** The newest moisture test of a cold bin, free for mixes and stock to use. */
export type MoistureTest = {
  readonly bin: number;
  readonly moisturePct: number;
  readonly at: string;
  readonly worksheet: string;
};

/** By year and month, as '26-05'. */
export type PastLots = { readonly [month: string]: { readonly [lot: string]: LabLot } };

export type LabState = {
  /** Of the shift at hand or last: seq of its opening, its date and what mixes and profiles it was opened with. */
  readonly shift: null | { readonly seq: number; readonly date: string };
  /** What goes for the next lot: newest confirmed delivery of each binder, when the bucket was last zeroed, outside air. */
  readonly now: {
    readonly deliveries: { readonly emulsion: string; readonly cutback: string };
    readonly pending: { readonly emulsion: string; readonly cutback: string };
    readonly bucketZeroed: string;
    readonly airC: string;
    /** Grading of the stone in each cold bin by the plant file; null where it has none. */
    readonly gradings?: readonly (Grading | null)[];
    /** Water absorption of the stone in each cold bin by the plant file, %. */
    readonly absorptionPct: readonly number[];
  };
  /** By `<id>@<version>`. */
  readonly mixes: { readonly [key: string]: MixNote };
  readonly specifications: { readonly [key: string]: SpecificationNote };
  /** The newest lots, about two weeks of work. Ask lots.ts for a lot: it looks among the older ones too. */
  readonly lots: { readonly [lot: string]: LabLot };
  /** Older ones by month, so that hearing copies no more than a month of them. */
  readonly past: PastLots;
  /** Worksheets on no lot, oldest first; a bounded number of them. */
  readonly others: readonly LabWorksheet[];
  readonly moisture: readonly MoistureTest[];
  /** Worksheets are numbered by the day they were entered. */
  readonly numbering: { readonly day: string; readonly worksheets: number };
};

/** A mix as the scenario brought it. */
export type MixNote = Mix;
/** A specification as the scenario brought it; the schema is machines/scenario/specification.schema.ts. */
export type SpecificationNote = import('../scenario/specification.schema.ts').Specification;

export const EMPTY_LAB: LabState = {
  shift: null,
  now: {
    deliveries: { emulsion: 'OPENING', cutback: 'OPENING' },
    pending: { emulsion: '', cutback: '' },
    bucketZeroed: '',
    airC: '',
    absorptionPct: [],
  },
  mixes: {},
  specifications: {},
  lots: {},
  past: {},
  others: [],
  moisture: [],
  numbering: { day: '', worksheets: 0 },
};
