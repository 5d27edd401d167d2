/** What a worksheet of the lab is: its fields, its timed steps, and what it makes of raw readings. */
import type { z } from 'zod';
import type { Property } from './properties.ts';

export type SheetId =
  | 'moisture'
  | 'sieve'
  | 'extraction'
  | 'ignition'
  | 'emulsion-residue'
  | 'cutback-residue'
  | 'wet-coating'
  | 'static-immersion'
  | 'particle-count'
  | 'water-resistance'
  | 'workability'
  | 'bond'
  | 'binder-delivery'
  | 'aggregate';

/** The kinds of test a specification asks for; a kind may have more than one sheet. */
export type TestKind =
  | 'gradation'
  | 'binder content'
  | 'bond'
  | 'workability'
  | 'water resistance'
  | 'moisture'
  | 'coating'
  | 'emulsion residue'
  | 'cutback residue'
  | 'binder delivery'
  | 'aggregate';

export type FieldKind = 'mass' | 'temp' | 'number' | 'percent' | 'count' | 'choice' | 'time';

export type Choice = { readonly is: string; readonly label: string };

export type FieldSpec = {
  /** Of a field that is asked for each of several things, keys are `<key>:<thing>` (see fieldsOf). */
  readonly key: string;
  readonly label: string;
  /** The letter it has in the formulas of the working. */
  readonly symbol?: string;
  /** '' for choices and times. */
  readonly unit: string;
  /** Fields of one group stand together. */
  readonly group: string;
  readonly kind: FieldKind;
  /** Places after the point that are asked for. */
  readonly decimals: number;
  readonly hint?: string;
  /** May be left empty. */
  readonly optional?: boolean;
  readonly choices?: readonly Choice[];
  /** What is possible at all; anything outside is refused. */
  readonly from?: number;
  readonly to?: number;
  /** Asked only when that choice was made. */
  readonly when?: { readonly key: string; readonly is: readonly string[] };
  /** Asked once for each sieve of the context, or once for each of these. */
  readonly each?: 'sieve' | readonly string[];
  /** Of a mass: the balance must be read this finely. */
  readonly readabilityG?: number;
};

export type Step = {
  readonly title: string;
  readonly instruction: string;
  /** How long it takes, for the clock on the screen. */
  readonly seconds?: number;
  /** Temperature to hold or to reach. */
  readonly tempC?: number;
};

/** As they were entered: text as typed, or numbers. null and '' are empty. */
export type Readings = Readonly<Record<string, string | number | null>>;

export type GradeLimit = {
  readonly property: Property;
  readonly from?: number;
  readonly to?: number;
  /** Digits a value is rounded to before it is held against the limit; else those of the property. */
  readonly decimals?: number;
  readonly source?: string;
};

export type SheetContext = {
  /** The plant's own clock, YYYY-MM-DDTHH:MM:SS: nothing measured can be later. */
  readonly nowAt: string;
  /** Openings in mm of the sieves to use, in any order. */
  readonly sieves: readonly number[];
  /** Mass of the sample the portion is taken from, g. */
  readonly sampleMassG: number | null;
  /** When the sample was taken: no test can have ended before it, nor sooner after it than the test takes. */
  readonly sampledAt?: string | null;
  /** Limits of the grade or the specification, to show how results lie to them. */
  readonly limits?: readonly GradeLimit[];
};

/** One line of the working: what, by which formula, with which numbers, gives what. */
export type WorkingLine = {
  readonly label: string;
  /** As `M = W − D`; letters are those of the fields and of earlier lines. */
  readonly formula: string;
  /** What stands after the sign, with the numbers put in. */
  readonly numbers: string;
  readonly value: number;
  readonly unit: string;
  readonly decimals: number;
};

export type Result = {
  readonly property: Property;
  /** Rounded as far as the method keeps it; judged and charted by this. */
  readonly value: number;
  readonly unit: string;
  /** In words for certificate and screen, rounded as the method reports it. */
  readonly reported: string;
  /** Before rounding. */
  readonly exact: number;
};

/** field is the key of the reading that is wrong, null when it is the sheet as a whole. */
export type Refusal = { readonly field: string | null; readonly message: string };

export type WorkedOut =
  | {
      readonly ok: true;
      readonly results: readonly Result[];
      readonly working: readonly WorkingLine[];
      readonly notes: readonly string[];
      /** Where the method was left (a temperature outside its window, a time too short); empty when it was kept. */
      readonly departures: readonly string[];
    }
  | { readonly ok: false; readonly because: readonly Refusal[] };

export type Sheet = {
  readonly id: SheetId;
  readonly test: TestKind;
  readonly title: string;
  /** Where method and figures come from, in words. */
  readonly basis: string;
  readonly cautions: readonly string[];
  readonly fields: readonly FieldSpec[];
  readonly steps: readonly Step[];
  /** Least time from taking the sample to the result, minutes. */
  readonly leastMinutes: number;
  /** The shape of readings; what they mean is looked at by workOut. */
  readonly schema: z.ZodType<Readings>;
  readonly workOut: (readings: Readings, context: SheetContext) => WorkedOut;
};
