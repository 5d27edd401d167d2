/** What a report is asked for: one query gives its paper, its table and its data. */
import { z } from 'zod';

export const REPORT_KINDS = ['shift', 'batch', 'lot', 'certificate', 'alarms', 'refusals'] as const;
export type ReportKind = (typeof REPORT_KINDS)[number];

export const REPORT_TITLES: { readonly [K in ReportKind]: string } = {
  shift: 'Shift report',
  batch: 'Batch sheet',
  lot: 'Lot file',
  certificate: 'Certificate of a lot',
  alarms: 'Alarm performance',
  refusals: 'Refusals and trips',
};

export const filterSchema = z.strictObject({
  shift: z.int().positive().optional().describe('Seq of the opening entry of the shift'),
  from: z.iso.date().optional().describe('First day of the shifts taken, by the plant’s calendar'),
  to: z.iso.date().optional().describe('Last day of the shifts taken'),
  lot: z.string().min(1).max(60).optional(),
  batch: z.int().positive().optional().describe('Number of the batch within its shift'),
  person: z.string().min(1).max(60).optional().describe('Id of a person: only what that person did'),
  material: z.string().min(1).max(60).optional().describe('Only what this material went into'),
});
export type ReportFilter = z.infer<typeof filterSchema>;

/** Which filters a report knows; another one is refused rather than passed over. */
export const FILTERS: { readonly [K in ReportKind]: readonly (keyof ReportFilter)[] } = {
  shift: ['shift', 'from', 'to', 'lot', 'person', 'material'],
  batch: ['shift', 'from', 'to', 'batch'],
  lot: ['shift', 'from', 'to', 'lot', 'material'],
  certificate: ['shift', 'from', 'to', 'lot'],
  alarms: ['shift', 'from', 'to', 'lot'],
  refusals: ['shift', 'from', 'to', 'person', 'lot'],
};

/** Why a filter does not suit a report, in words; empty when it does. */
export const filterComplaints = (kind: ReportKind, filter: ReportFilter): readonly string[] => {
  const given = Object.entries(filter).flatMap(([key, value]) => (value === undefined ? [] : [key]));
  const unknown = given.filter((key) => !(FILTERS[kind] as readonly string[]).includes(key));
  const out = unknown.map(
    (key) =>
      `“${REPORT_TITLES[kind]}” has no filter by ${key}: leave it away (it knows ${FILTERS[kind].join(', ')}).`,
  );
  if (kind === 'batch' && filter.batch === undefined)
    out.push('A batch sheet needs the number of its batch.');
  if (kind === 'lot' && filter.lot === undefined) out.push('A lot file needs the number of its lot.');
  if (kind === 'certificate' && filter.lot === undefined)
    out.push('A certificate needs the number of its lot.');
  if (filter.from !== undefined && filter.to !== undefined && filter.from > filter.to)
    out.push(`The days run backwards: ${filter.from} is after ${filter.to}.`);
  return out;
};
