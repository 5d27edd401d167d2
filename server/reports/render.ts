/** One query, three forms: the data, the table and the paper of a report. */
import { canonical } from '../../machines/record/canonical.ts';
import { csvOf, tablesOf } from '../../machines/reports/csv.ts';
import { documentOf } from '../../machines/reports/documents/document-of.ts';
import { filterComplaints, type ReportFilter, type ReportKind } from '../../machines/reports/filter.ts';
import { makeReport, type Report, type ReportEnvelope } from '../../machines/reports/report.ts';
import { NOT_A_CONTROLLER } from '../../machines/reports/words.ts';
import { sha256 } from '../digest.ts';
import type { Store } from '../store/store.ts';
import { pdfOf } from './pdf/pdf.ts';
import { NothingMeant, reportSource } from './source.ts';

export const FORMATS = ['pdf', 'csv', 'json'] as const;
export type ReportFormat = (typeof FORMATS)[number];

export const CONTENT_TYPES: { readonly [F in ReportFormat]: string } = {
  pdf: 'application/pdf',
  csv: 'text/csv; charset=utf-8; header=present',
  json: 'application/json; charset=utf-8',
};

/** Name and number of a report: what it is of, and the beginning of its digest. */
const idOf = (report: Report, digest: string): string => {
  const [first] = report.head.shifts;
  const last = report.head.shifts.at(-1);
  const days = first?.date === last?.date ? (first?.date ?? '') : `${first?.date}-to-${last?.date}`;
  const of =
    report.kind === 'lot' || report.kind === 'certificate'
      ? report.lot.lot
      : report.kind === 'batch'
        ? `${days}-${report.batch.batch}`
        : days;
  return `${report.kind}-${of}-${digest.slice(0, 10)}`;
};

export const envelopeOf = (report: Report): ReportEnvelope => {
  const digest = sha256(canonical(report));
  return { id: idOf(report, digest), sha256: digest, report };
};

/** Makes a report from the record. Throws PlainError, in words a person can act on, when there is nothing to make. */
export const reportFrom = async (
  store: Store,
  kind: ReportKind,
  filter: ReportFilter,
): Promise<ReportEnvelope> => {
  const complaints = filterComplaints(kind, filter);
  if (complaints.length > 0) throw new NothingMeant(complaints.join(' '));
  const made = makeReport(kind, await reportSource(store, kind, filter), filter);
  if (!made.ok) throw new NothingMeant(made.why);
  return envelopeOf(made.report);
};

/** Names of the tables of a report, for taking one of them alone as CSV. */
export const tableNames = (envelope: ReportEnvelope): readonly string[] =>
  tablesOf(documentOf(envelope.report)).map((table) => table.id);

/** What stands on every page of the paper, for the first rows of the table form. */
const aboutOf = ({ id, sha256: digest, report }: ReportEnvelope): [string, string | number][] => [
  ['Report', id],
  ['SHA-256 of its data', digest],
  ['Plant', report.head.plant],
  ...report.head.shifts.map((shift): [string, string] => [
    `Shift #${shift.shift}`,
    `${shift.name}, ${shift.from} to ${shift.to}, ${shift.seal === null ? 'not sealed' : `sealed, root ${shift.seal.root}`}`,
  ]),
  ['Record up to entry', report.head.record.seq],
  ['Hash of that entry', report.head.record.hash],
  ['Plant’s key, fingerprint', report.head.plantKey ?? 'none has been made yet'],
  ['Caution', NOT_A_CONTROLLER],
];

/** Bytes of a report in one form; `table` takes one table of it alone (CSV only). */
export const renderReport = async (
  envelope: ReportEnvelope,
  format: ReportFormat,
  table?: string,
): Promise<Buffer> => {
  switch (format) {
    case 'json':
      return Buffer.from(`${JSON.stringify(envelope, null, 2)}\n`);
    case 'csv': {
      if (table !== undefined && !tableNames(envelope).includes(table))
        throw new NothingMeant(
          `This report has no table ${table}: its tables are ${tableNames(envelope).join(', ')}.`,
        );
      return Buffer.from(csvOf(documentOf(envelope.report), table, aboutOf(envelope)));
    }
    case 'pdf':
      return pdfOf(envelope);
  }
};

export const fileNameOf = (envelope: ReportEnvelope, format: ReportFormat): string =>
  `${envelope.id.replace(/[^\w.-]+/g, '-')}.${format}`;
