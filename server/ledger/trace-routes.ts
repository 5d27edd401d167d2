/** Tracing over HTTP: suggestions for the search box, a trace as JSON, and the same as a table. */
import type { FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { traceCsv } from '../../machines/ledger/trace-csv.ts';
import type { TraceFrom } from '../../machines/yard/trace/traced.types.ts';
import { PlainError } from '../plain-error.ts';
import { problemSchema } from '../routes/schemas.ts';
import type { Store } from '../store/store.ts';
import { trace } from './trace.ts';
import { suggest } from './trace-origins.ts';

const time = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}(?:T\d{2}:\d{2}(?::\d{2})?)?$/, 'write it as 2026-05-12 or 2026-05-12T08:30')
  .optional();
export const traceQuerySchema = z.strictObject({
  kind: z.enum(['delivery', 'batch', 'lot', 'load', 'patch', 'operator', 'scale']),
  id: z.string().trim().min(1).max(80),
  from: time.describe('For an operator or a scale: from this time of the plant’s clock on'),
  to: time,
});

const fromOf = ({ kind, id, from, to }: z.infer<typeof traceQuerySchema>): TraceFrom =>
  kind === 'operator' || kind === 'scale'
    ? { kind, id, ...(from === undefined ? {} : { from }), ...(to === undefined ? {} : { to }) }
    : { kind, id };

export const registerTrace = (app: FastifyInstance, store: Store): void => {
  const api = app.withTypeProvider<ZodTypeProvider>();

  const traced = async (query: z.infer<typeof traceQuerySchema>) => {
    try {
      return await trace(store, fromOf(query));
    } catch (error) {
      if (error instanceof PlainError) return error.message;
      throw error;
    }
  };

  api.get(
    '/api/trace',
    {
      schema: {
        summary: 'Where something went, to the gram, or what a patch is made of',
        querystring: traceQuerySchema,
        response: { 200: z.unknown(), 400: problemSchema, 404: problemSchema },
      },
    },
    async ({ query }, reply) => {
      const found = await traced(query);
      if (typeof found === 'string') return reply.code(404).send({ because: [found] });
      reply.header('cache-control', 'no-store');
      return found;
    },
  );

  api.get(
    '/api/trace.csv',
    { schema: { summary: 'The same as a table', querystring: traceQuerySchema } },
    async ({ query }, reply) => {
      const found = await traced(query);
      if (typeof found === 'string') return reply.code(404).send({ because: [found] });
      const name = `trace-${query.kind}-${query.id.replace(/[^A-Za-z0-9_-]+/g, '-')}.csv`;
      return reply
        .type('text/csv; charset=utf-8')
        .header('content-disposition', `attachment; filename="${name}"`)
        .header('cache-control', 'no-store')
        .send(traceCsv(found));
    },
  );

  api.get(
    '/api/trace/suggest',
    {
      schema: {
        summary: 'What a trace can start from whose name contains a text, the newest first',
        querystring: z.strictObject({ text: z.string().max(80).default('') }),
        response: {
          200: z.array(
            z.object({
              kind: traceQuerySchema.shape.kind,
              id: z.string(),
              words: z.string(),
            }),
          ),
          400: problemSchema,
        },
      },
    },
    async ({ query: { text } }) => [...(await suggest(store, text.trim()))],
  );
};
