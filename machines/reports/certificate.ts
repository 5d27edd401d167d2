/** The certificate of one lot: what it is, what it was held against, who decided, and how that can be checked. */
import { z } from 'zod';
import { lotLineOf, lotLineSchema } from './batches.ts';
import type { ReportFilter } from './filter.ts';
import { headSchema } from './head.ts';
import { headOf, type ShiftTold } from './head-of.ts';
import { labWorkSchema } from './lab-work.ts';
import { mixOf } from './parts.ts';

/** The certificate leaves out how each figure came about: the lot file has that. */
const certifiedSchema = labWorkSchema
  .omit({ samples: true, sheets: true, events: true, plan: true, decision: true })
  .extend({
    decision: labWorkSchema.shape.decision.unwrap(),
    simulated: z.boolean().describe('Whether results came from the simulated bench'),
    departures: z.array(z.string()),
    retests: z.int(),
    aside: z.int().describe('Worksheets set aside'),
    photos: z.int(),
    samplesTaken: z.int(),
  });

export const certificateSchema = z.object({
  kind: z.literal('certificate'),
  head: headSchema,
  lot: lotLineSchema,
  binder: z.string().nullable(),
  mixName: z.string().nullable(),
  lab: certifiedSchema,
});
export type Certificate = z.infer<typeof certificateSchema>;

export type CertificateMade =
  | { readonly ok: true; readonly report: Certificate }
  | { readonly ok: false; readonly why: string };

/** The certificate of the lot named by the filter, or why there is none yet. */
export const makeCertificate = (
  one: ShiftTold,
  filter: ReportFilter,
  plantKey: string | null,
): CertificateMade => {
  const { source, told } = one;
  const lot = told.lots.find((found) => found.id === filter.lot);
  if (lot === undefined)
    return {
      ok: false,
      why: `Shift ${source.shift} has no lot ${filter.lot}: its lots are ${told.lots.map((known) => known.id).join(', ') || 'none yet'}.`,
    };
  const { lab } = source;
  if (lab === undefined || lab === null)
    return { ok: false, why: `The lab has no work on lot ${lot.id}: test it first.` };
  const { samples, sheets, events: _events, plan: _plan, decision, ...rest } = lab;
  if (decision === null)
    return {
      ok: false,
      why: `Lot ${lot.id} is ${lab.state} in the lab: a certificate is made when somebody has accepted, rejected or released it.${lab.missing.length === 0 ? '' : ` Missing: ${lab.missing.join('; ')}.`}`,
    };
  const mix = mixOf(source, lot.mix, lot.mixVersion);
  return {
    ok: true,
    report: {
      kind: 'certificate',
      head: headOf([one], filter, plantKey),
      lot: lotLineOf(one, lot),
      binder: mix?.binder.grade ?? null,
      mixName: mix?.name ?? null,
      lab: {
        ...rest,
        decision,
        simulated: sheets.some((sheet) => sheet.simulated && sheet.aside === null),
        departures: [
          ...new Set(sheets.filter((sheet) => sheet.aside === null).flatMap((sheet) => sheet.departures)),
        ],
        retests: sheets.filter((sheet) => sheet.retest).length,
        aside: sheets.filter((sheet) => sheet.aside !== null).length,
        photos: sheets.flatMap((sheet) => sheet.photos).length,
        samplesTaken: samples.filter((sample) => sample.taken !== null).length,
      },
    },
  };
};
