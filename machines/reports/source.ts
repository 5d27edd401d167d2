/** What a report is made from: the entries of whole shifts and what is known about each. */
import type { Entry } from '../record/entry.ts';
import type { Scenario } from '../scenario/shift.schema.ts';
import type { LabWork } from './lab-work.ts';

/** Seal of a closed shift as it is printed. */
export type SealPrint = {
  /** Merkle root over the entries of the shift, hex. */
  readonly root: string;
  /** Fingerprint of the plant's key that signed it. */
  readonly key: string;
  readonly signature: string;
  readonly first: number;
  readonly last: number;
  readonly count: number;
  /** Seq of the seal entry. */
  readonly seq: number;
  readonly wall: string;
  readonly countersigned: readonly {
    readonly by: string;
    readonly remark: string;
    readonly key: string;
    readonly wall: string;
  }[];
};

export type ShiftSource = {
  /** Seq of the opening entry: what names the shift. */
  readonly shift: number;
  readonly scenario: Scenario | null;
  /** Entries of the shift in order, from its opening on. Readings may be missing when no trace is asked for. */
  readonly entries: Iterable<Entry>;
  readonly seal: SealPrint | null;
  /** What the lab did with the lot that is asked for, in this or a later shift; left out where no lot is. */
  readonly lab?: LabWork | null;
};

/** Everything a report is made from, with the key the plant signs with today. */
export type ReportSource = {
  readonly shifts: readonly ShiftSource[];
  /** Fingerprint of the plant's key; null when this data folder has none yet. */
  readonly plantKey: string | null;
};
