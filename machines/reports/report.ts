/** Every report under one roof: its schema, and how it is made from the record. */
import { z } from 'zod';
import { alarmReportSchema, makeAlarmReport } from './alarm-report.ts';
import { batchSheetSchema, makeBatchSheet } from './batch-sheet.ts';
import { certificateSchema, makeCertificate } from './certificate.ts';
import type { ReportFilter, ReportKind } from './filter.ts';
import { tellShift } from './head-of.ts';
import { lotFileSchema, makeLotFile } from './lot-file.ts';
import { makeRefusalsReport, refusalsReportSchema } from './refusals-report.ts';
import { makeShiftReport, shiftReportSchema } from './shift-report.ts';
import type { ReportSource } from './source.ts';

export const reportSchema = z.discriminatedUnion('kind', [
  shiftReportSchema,
  batchSheetSchema,
  lotFileSchema,
  certificateSchema,
  alarmReportSchema,
  refusalsReportSchema,
]);
export type Report = z.infer<typeof reportSchema>;

/** What the data form of a report is: the report, its own digest, and the name printed on paper. */
export const reportEnvelopeSchema = z.object({
  id: z.string().describe('Printed on every page of the paper form'),
  sha256: z.string().describe('SHA-256 of the RFC 8785 form of `report`'),
  report: reportSchema,
});
export type ReportEnvelope = z.infer<typeof reportEnvelopeSchema>;

export type Made =
  | { readonly ok: true; readonly report: Report }
  | { readonly ok: false; readonly why: string };

const found = <R extends Report>(report: R | null, why: string): Made =>
  report === null ? { ok: false, why } : { ok: true, report };

/**
 * Makes one report. Shift, batch, lot and certificate take the last of the shifts given; alarms and refusals take all.
 * `why` says what to do when the record holds no such thing.
 */
export const makeReport = (kind: ReportKind, source: ReportSource, filter: ReportFilter): Made => {
  const told = source.shifts.map(tellShift);
  const last = told.at(-1);
  if (last === undefined)
    return {
      ok: false,
      why: 'The record holds no shift for this report: choose other days or another shift.',
    };
  const key = source.plantKey;
  switch (kind) {
    case 'shift':
      return { ok: true, report: makeShiftReport(last, filter, key) };
    case 'batch':
      return found(
        makeBatchSheet(last, filter, key),
        `Shift ${last.source.shift} has no batch ${filter.batch}: choose one of its ${last.told.batches.length} batches.`,
      );
    case 'lot':
      return found(
        makeLotFile(last, filter, key),
        `Shift ${last.source.shift} has no lot ${filter.lot}: its lots are ${last.told.lots.map((lot) => lot.id).join(', ') || 'none yet'}.`,
      );
    case 'certificate':
      return makeCertificate(last, filter, key);
    case 'alarms':
      return { ok: true, report: makeAlarmReport(told, filter, key) };
    case 'refusals':
      return { ok: true, report: makeRefusalsReport(told, filter, key) };
  }
};
