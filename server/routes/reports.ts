/** Reports over HTTP: the same query as data, as CSV and as PDF; and what can be asked for. */
import type { FastifyInstance, FastifyReply } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { alarmReportSchema } from '../../machines/reports/alarm-report.ts';
import { batchSheetSchema } from '../../machines/reports/batch-sheet.ts';
import { certificateSchema } from '../../machines/reports/certificate.ts';
import { choicesSchema } from '../../machines/reports/choices.ts';
import {
  REPORT_KINDS,
  REPORT_TITLES,
  type ReportFilter,
  type ReportKind,
} from '../../machines/reports/filter.ts';
import { foundQuerySchema } from '../../machines/reports/found.ts';
import { lotFileSchema } from '../../machines/reports/lot-file.ts';
import { refusalsReportSchema } from '../../machines/reports/refusals-report.ts';
import { type ReportEnvelope, reportEnvelopeSchema } from '../../machines/reports/report.ts';
import { shiftReportSchema } from '../../machines/reports/shift-report.ts';
import { PlainError } from '../plain-error.ts';
import { createQueue } from '../reports/breathe.ts';
import { choicesOf } from '../reports/choices.ts';
import { foundEntries } from '../reports/found.ts';
import { labelsFrom } from '../reports/labels.ts';
import { labelsPdf } from '../reports/pdf/labels.ts';
import {
  CONTENT_TYPES,
  FORMATS,
  fileNameOf,
  type ReportFormat,
  renderReport,
  reportFrom,
} from '../reports/render.ts';
import type { Store } from '../store/store.ts';
import { entrySchema, problemSchema } from './schemas.ts';

const whole = z.coerce.number().int().positive();

const querySchema = z.strictObject({
  shift: whole.optional().describe('Entry that opens the shift; the newest shift when nothing is said'),
  from: z.iso.date().optional().describe('First day, YYYY-MM-DD'),
  to: z.iso.date().optional().describe('Last day'),
  lot: z.string().min(1).max(60).optional(),
  batch: whole.optional().describe('Number of the batch within its shift'),
  person: z.string().min(1).max(60).optional().describe('Id of a person'),
  material: z.string().min(1).max(60).optional(),
});
const tableQuerySchema = querySchema.extend({
  table: z.string().max(60).optional().describe('CSV only: one table of the report alone'),
});

const DATA_SCHEMAS = {
  shift: reportEnvelopeSchema.extend({ report: shiftReportSchema }),
  batch: reportEnvelopeSchema.extend({ report: batchSheetSchema }),
  lot: reportEnvelopeSchema.extend({ report: lotFileSchema }),
  certificate: reportEnvelopeSchema.extend({ report: certificateSchema }),
  alarms: reportEnvelopeSchema.extend({ report: alarmReportSchema }),
  refusals: reportEnvelopeSchema.extend({ report: refusalsReportSchema }),
} as const;

const FORMAT_WORDS: { readonly [F in ReportFormat]: string } = {
  pdf: 'on paper (PDF)',
  csv: 'as one table (CSV, RFC 4180)',
  json: 'as data, for keeping (JSON)',
};

const foundSchema = z.object({
  shifts: z.array(
    z.object({
      shift: z.int(),
      day: z.string(),
      startsAt: z.string(),
      archived: z.boolean().describe('Its entries lie in an export file: restore the shift to look into it'),
      entries: z.array(entrySchema),
    }),
  ),
  more: z.boolean().describe('There is more than is told: narrow the search'),
});

const WAITING_AT_MOST = 8;

const without = <T extends object>(query: T): ReportFilter =>
  Object.fromEntries(Object.entries(query).filter(([, value]) => value !== undefined));

export const registerReports = (app: FastifyInstance, store: Store): void => {
  const api = app.withTypeProvider<ZodTypeProvider>();
  const queue = createQueue(WAITING_AT_MOST);

  /** The report, or null when the answer has been given already. */
  const made = async (
    kind: ReportKind,
    filter: ReportFilter,
    reply: FastifyReply,
  ): Promise<ReportEnvelope | null> => {
    const turn = queue.run(() => reportFrom(store, kind, filter));
    if (turn === null) {
      await reply
        .code(503)
        .send({ because: ['Too many reports are being made at once: try again in a moment.'] });
      return null;
    }
    try {
      return await turn;
    } catch (error) {
      if (!(error instanceof PlainError)) throw error;
      await reply.code(404).send({ because: [error.message] });
      return null;
    }
  };

  api.get(
    '/api/reports/choices',
    {
      schema: {
        summary: 'Shifts, lots, batches, people and materials a report can be asked for',
        querystring: z.strictObject({ shift: whole.optional() }),
        response: { 200: choicesSchema },
      },
    },
    async ({ query }) => choicesOf(store, query.shift),
  );

  api.get(
    '/api/record/found',
    {
      schema: {
        summary: 'Entries by day, lot, person, material and kind, the newest first',
        querystring: foundQuerySchema,
        response: { 200: foundSchema, 400: problemSchema },
      },
    },
    async ({ query }) => {
      const found = await foundEntries(store, query);
      return { ...found, shifts: found.shifts.map((one) => ({ ...one, entries: [...one.entries] })) };
    },
  );

  api.get(
    '/api/lab/labels',
    {
      schema: {
        summary: 'Labels for the samples of a lot, on paper (PDF): a square to scan and the words',
        querystring: z.strictObject({
          lot: z.string().min(1).max(60),
          sample: whole.optional().describe('This sample alone'),
        }),
      },
    },
    async ({ query: { lot, sample } }, reply) => {
      const turn = queue.run(async () => labelsPdf(await labelsFrom(store, lot, sample)));
      if (turn === null)
        return reply.code(503).send({ because: ['Too much is being made at once: try again in a moment.'] });
      try {
        const bytes = await turn;
        return reply
          .type('application/pdf')
          .header('content-disposition', `inline; filename="labels-${lot.replace(/[^\w.-]+/g, '-')}.pdf"`)
          .header('cache-control', 'no-store')
          .send(bytes);
      } catch (error) {
        if (!(error instanceof PlainError)) throw error;
        return reply.code(404).send({ because: [error.message] });
      }
    },
  );

  for (const kind of REPORT_KINDS) {
    api.get(
      `/api/reports/${kind}`,
      {
        schema: {
          summary: `${REPORT_TITLES[kind]}, as data`,
          querystring: querySchema,
          response: { 200: DATA_SCHEMAS[kind], 400: problemSchema, 404: problemSchema, 503: problemSchema },
        },
      },
      async ({ query }, reply) => {
        const envelope = await made(kind, without(query), reply);
        return envelope === null ? reply : reply.header('cache-control', 'no-store').send(envelope as never);
      },
    );
    for (const format of FORMATS)
      api.get(
        `/api/reports/${kind}.${format}`,
        {
          schema: {
            summary: `${REPORT_TITLES[kind]}, ${FORMAT_WORDS[format]}`,
            querystring: format === 'csv' ? tableQuerySchema : querySchema,
          },
        },
        async ({ query }, reply) => {
          const { table, ...filter } = query as z.infer<typeof tableQuerySchema>;
          const envelope = await made(kind, without(filter), reply);
          if (envelope === null) return reply;
          const bytes = await renderReport(envelope, format, table).catch((error) => error as Error);
          if (bytes instanceof PlainError) return reply.code(404).send({ because: [bytes.message] });
          if (bytes instanceof Error) throw bytes;
          return reply
            .type(CONTENT_TYPES[format])
            .header('content-disposition', `attachment; filename="${fileNameOf(envelope, format)}"`)
            .header('cache-control', 'no-store')
            .send(bytes);
        },
      );
  }
};
