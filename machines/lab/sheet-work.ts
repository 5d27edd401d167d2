/** Runs a worksheet for the book: what is known beside the readings, and the results as the book keeps them. */
import { sieveOf } from '../scenario/lab-tests.ts';
import type { Readings, Result } from './facts.ts';
import { applies } from './judge/limits.ts';
import type { SheetId } from './sheet-ids.ts';
import { specificationOf } from './standing.ts';
import type { LabLot, LabSample, LabState, SpecificationNote } from './state.ts';
import {
  type GradeLimit,
  type Property,
  SHEETS,
  type SheetContext,
  type WorkedOut,
} from './worksheets/index.ts';

/** Sieves of the test where no specification names any, mm. */
export const COMMON_SIEVES: readonly number[] = [19, 12.5, 9.5, 4.75, 2.36, 1.18, 0.3, 0.075];

const sievesOf = (specification: SpecificationNote | null): readonly number[] => {
  const named = (specification?.limits ?? []).flatMap((limit) => sieveOf(limit.property) ?? []);
  return named.length === 0 ? COMMON_SIEVES : [...new Set(named)].sort((a, b) => b - a);
};

/** Limits that hold, or may hold while the stone's absorption is unknown. */
const limitsOf = (specification: SpecificationNote | null, absorptionPct: number | null): GradeLimit[] =>
  (specification?.limits ?? [])
    .filter((limit) => applies(limit, absorptionPct) !== false)
    .map(({ property, from, to, decimals, source }) => ({
      property: property as Property,
      ...(from === undefined ? {} : { from }),
      ...(to === undefined ? {} : { to }),
      ...(decimals === undefined ? {} : { decimals }),
      source,
    }));

/** What there is to test of a sample, g: the first test leaves what was kept back alone, a retest has nothing else. */
const toTestG = (sample: LabSample | undefined, retest: boolean): number | null => {
  if (sample === undefined || sample.massKg === null) return null;
  const { massKg, retainedKg } = sample;
  const kept = retainedKg ?? 0;
  // Kept back in whole: then it is the only thing that can be tested.
  return Math.round(1e6 * (retest ? kept : kept < massKg ? massKg - kept : massKg)) / 1000;
};

/**
 * What a worksheet is worked out with: of a lot's sample, or of something else when `lot` is null. `retest` left out: it
 * is one when a retest of the sample was ordered and not made yet.
 */
export const sheetContext = (
  state: LabState,
  lot: LabLot | null,
  sampleNo: number | null,
  at: string,
  retest = lot?.retests.some((one) => !one.done && one.sample === sampleNo) ?? false,
): SheetContext => {
  const specification = lot === null ? null : specificationOf(state, lot);
  const sample = lot?.samples.find((one) => one.n === sampleNo);
  return {
    nowAt: at,
    sieves: sievesOf(specification),
    sampleMassG: toTestG(sample, retest),
    sampledAt: sample?.takenAt ?? null,
    limits: limitsOf(specification, lot?.absorptionPct ?? null),
  };
};

export type BookedSheet =
  | {
      readonly ok: true;
      readonly results: readonly Result[];
      readonly notes: readonly string[];
      readonly departures: readonly string[];
    }
  | { readonly ok: false; readonly because: readonly string[] };

/** Works a sheet out; refusals keep the sheet's own words, with the field they are about. */
export const workSheet = (sheet: SheetId, readings: Readings, context: SheetContext): BookedSheet => {
  const { schema, workOut, fields } = SHEETS[sheet];
  const shaped = schema.safeParse(readings);
  if (!shaped.success)
    return {
      ok: false,
      because: shaped.error.issues
        .slice(0, 8)
        .map((issue) =>
          issue.path.length === 0 ? issue.message : `${issue.path.map(String).join('.')}: ${issue.message}`,
        ),
    };
  const worked: WorkedOut = workOut(shaped.data, context);
  if (!worked.ok)
    return {
      ok: false,
      because: worked.because.map(({ field, message }) => {
        const label = field === null ? undefined : fields.find((one) => one.key === field)?.label;
        return label === undefined || message.includes(label) ? message : `${label}: ${message}`;
      }),
    };
  return {
    ok: true,
    results: worked.results.map(({ property, value, unit, reported }) => ({
      property,
      value,
      unit,
      reported,
    })),
    notes: worked.notes,
    departures: worked.departures,
  };
};
