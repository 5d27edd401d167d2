/** The ticket of a load over HTTP, as paper. */
import type { FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { z } from 'zod';
import type { StockState } from '../../machines/yard/stock/state.types.ts';
import { ticketOf } from '../../machines/yard/stock/ticket.ts';
import { loadTicketPdf } from '../reports/pdf/load-ticket.ts';
import type { Store } from '../store/store.ts';
import { problemSchema } from './schemas.ts';

export const registerLoadTicket = (app: FastifyInstance, store: Store): void => {
  const api = app.withTypeProvider<ZodTypeProvider>();
  api.get(
    '/api/loads/:load/ticket.pdf',
    {
      schema: {
        summary:
          'Ticket of a load on paper (PDF): lots by mass, weights, patches, cautions, a square to scan',
        params: z.strictObject({
          load: z.string().regex(/^L-\d{6}-\d+$/, 'the name of a load, as L-260414-1'),
        }),
        response: { 200: z.unknown(), 400: problemSchema, 404: problemSchema },
      },
    },
    async ({ params: { load } }, reply) => {
      const { ledger } = await store.books();
      const ticket = ticketOf(ledger.stock as StockState, load);
      if (ticket === null)
        return reply
          .code(404)
          .send({ because: [`There is no load ${load} at hand: older ones are found under Records.`] });
      return reply
        .type('application/pdf')
        .header('content-disposition', `inline; filename="load-${load}.pdf"`)
        .header('cache-control', 'no-store')
        .send(await loadTicketPdf(ticket));
    },
  );
};
