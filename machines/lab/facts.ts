/** What happened in the laboratory, in the past tense and complete; corrections are facts of their own and erase nothing. */
import type { SheetId } from './sheet-ids.ts';

/** Raw readings as a person wrote them down, by field of the sheet. */
export type Readings = { readonly [field: string]: string | number | null };

/** One worked-out figure; property ids are those of the specification's limits. */
export type Result = {
  readonly property: string;
  readonly value: number;
  readonly unit: string;
  /** In words, rounded as the method reports it. */
  readonly reported?: string;
};

/** What a test that belongs to no lot was made on. */
export type Subject = {
  readonly kind: 'bin' | 'delivery' | 'material';
  /** Number of the bin, id of the delivery, name of the material. */
  readonly id: string;
};

/** Where the material of a substitute sample came from. */
export type SubstituteSource = 'bay' | 'retained portion';

/** A hold the book set by itself because a result failed, or one a person set. */
export type HoldCause = 'failing result' | 'person';

export type LabFact =
  | {
      readonly is: 'sampleLogged';
      readonly lot: string;
      readonly sample: number;
      /** Person who took it, when, and from which batch of the shift. */
      readonly takenBy: string;
      readonly takenAt: string;
      readonly batch: number;
      readonly massKg: number;
      readonly container: string;
      /** Text of the label, unique: also what its QR code says. */
      readonly label: string;
      readonly retainedKg: number;
      /** Local date; the retained portion is not thrown away before it. */
      readonly discardOn: string;
      readonly remark: string;
    }
  | {
      readonly is: 'sampleSubstituted';
      readonly lot: string;
      readonly sample: number;
      readonly source: SubstituteSource;
      /** The sample whose retained portion was used; null when it was taken from the bay. */
      readonly ofSample: number | null;
      readonly takenBy: string;
      readonly takenAt: string;
      readonly massKg: number;
      readonly container: string;
      readonly label: string;
      readonly retainedKg: number;
      readonly discardOn: string;
      readonly reason: string;
    }
  | {
      readonly is: 'sampleCorrected';
      readonly lot: string;
      readonly sample: number;
      readonly changes: readonly FieldChange[];
      readonly reason: string;
    }
  | {
      readonly is: 'custodyHandedOver';
      readonly lot: string;
      readonly sample: number;
      readonly from: string;
      readonly to: string;
      readonly remark: string;
    }
  | {
      readonly is: 'retainedDiscarded';
      readonly lot: string;
      readonly sample: number;
      /** Null when its date had come. */
      readonly reason: string | null;
    }
  | {
      readonly is: 'worksheetEntered';
      /** T-<yymmdd>-<n>, unique in the record. */
      readonly worksheet: string;
      readonly sheet: SheetId;
      readonly test: string;
      readonly lot: string | null;
      readonly sample: number | null;
      readonly subject: Subject | null;
      /** True when it was made on the retained portion because a retest was ordered. */
      readonly retest: boolean;
      readonly readings: Readings;
      readonly results: readonly Result[];
      readonly notes: readonly string[];
      /** Where the method was left; empty when it was kept. */
      readonly departures: readonly string[];
      readonly testedBy: string;
      readonly testedAt: string;
      /** Which balance was used; '' where none was. */
      readonly balance: string;
      /** True when the readings came from the simulated bench. */
      readonly simulated: boolean;
      readonly remark: string;
    }
  | {
      readonly is: 'worksheetCorrected';
      readonly worksheet: string;
      readonly lot: string | null;
      readonly changes: readonly FieldChange[];
      readonly reason: string;
      readonly readings: Readings;
      readonly results: readonly Result[];
      readonly wasResults: readonly Result[];
      readonly notes: readonly string[];
      readonly departures: readonly string[];
    }
  | {
      readonly is: 'worksheetSetAside';
      readonly worksheet: string;
      readonly lot: string | null;
      readonly reason: string;
    }
  | {
      readonly is: 'worksheetBroughtBack';
      readonly worksheet: string;
      readonly lot: string | null;
      readonly reason: string;
    }
  | {
      readonly is: 'photoAttached';
      readonly worksheet: string;
      readonly lot: string | null;
      /** SHA-256, hex, of the picture as it is kept. */
      readonly sha256: string;
      readonly caption: string;
    }
  | {
      readonly is: 'photoSetAside';
      readonly worksheet: string;
      readonly lot: string | null;
      readonly sha256: string;
      readonly reason: string;
    }
  | {
      readonly is: 'retestOrdered';
      readonly lot: string;
      readonly sample: number;
      readonly test: string;
      readonly reason: string;
    }
  | {
      readonly is: 'lotHeld';
      readonly lot: string;
      readonly cause: HoldCause;
      readonly reason: string;
      /** What usually comes next, in words. */
      readonly nextSteps: readonly string[];
    }
  | { readonly is: 'holdLifted'; readonly lot: string; readonly reason: string }
  | {
      readonly is: 'lotInvestigated';
      readonly lot: string;
      readonly note: string;
      /** Batches of the lot that were looked into. */
      readonly batches: readonly number[];
    }
  | {
      readonly is: 'lotAccepted';
      readonly lot: string;
      readonly remark: string;
      readonly specification: string;
      readonly specificationVersion: number;
      readonly results: readonly Result[];
    }
  | { readonly is: 'lotRejected'; readonly lot: string; readonly reason: string }
  | { readonly is: 'lotSentToWaste'; readonly lot: string; readonly reason: string }
  | { readonly is: 'lotReworked'; readonly lot: string; readonly reason: string }
  | { readonly is: 'concessionAsked'; readonly lot: string; readonly reason: string }
  | {
      readonly is: 'concessionGranted';
      readonly lot: string;
      readonly reason: string;
      readonly askedBy: string;
      /** What did not meet the specification, in words. */
      readonly failing: readonly string[];
    }
  | { readonly is: 'concessionRefused'; readonly lot: string; readonly reason: string }
  | {
      readonly is: 'decisionReopened';
      readonly lot: string;
      readonly reason: string;
      /** The state it was in. */
      readonly was: LotState;
      /** What had left the yard of it by then, g: it lies on the road, and the tracing says where. */
      readonly leftYardGrams: number;
    };

/** One field before and after a correction; null where there was none. */
export type FieldChange = { readonly field: string; readonly was: unknown; readonly now: unknown };

/** Where a lot stands, in the lab's words. */
export const LOT_STATES = [
  'open',
  'closed',
  'sampling',
  'testing',
  'accepted',
  'on hold',
  'rejected',
  'released by concession',
] as const;
export type LotState = (typeof LOT_STATES)[number];

/** A lot may leave the yard in these states and in no other. */
export const MAY_LEAVE: readonly LotState[] = ['accepted', 'released by concession'];

export type LabFactName = LabFact['is'];
