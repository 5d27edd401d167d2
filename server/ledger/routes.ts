/** The books of lab and yard over HTTP: what they show, and commands put to them. */
import type { FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { viewOfBook } from '../../machines/ledger/ledger.ts';
import { BOOK_NAMES } from '../../machines/record/book.types.ts';
import { NOT_BY_PEOPLE } from '../../machines/yard/trace/recalls/commands.ts';
import type { Desk } from '../live/desk.ts';
import { answerSchema, problemSchema } from '../routes/schemas.ts';
import type { PlantRunner } from '../runner/runner.ts';
import type { Store } from '../store/store.ts';

import { lotFound } from './lot.ts';

export type LedgerParts = { readonly runner: PlantRunner; readonly store: Store; readonly desk: Desk };

const bookParams = z.strictObject({ book: z.enum(BOOK_NAMES) });
/** A list of 5,000 patches is one command. */
const BODY_LIMIT_BYTES = 8 * 1024 * 1024;

export const askSchema = z.strictObject({
  id: z.string().min(8).max(64).describe('Chosen by the sender; the same id is carried out once'),
  by: z.strictObject({
    person: z.string().min(1).max(60).describe('Id of a person on the list'),
    console: z.string().min(4).max(64).describe('Id of the console, kept by it'),
  }),
  command: z.looseObject({ do: z.string().min(1).max(60) }),
});

export const registerLedger = (app: FastifyInstance, { runner, store, desk }: LedgerParts): void => {
  const api = app.withTypeProvider<ZodTypeProvider>();

  api.get(
    '/api/ledger/:book',
    {
      schema: {
        summary: 'One book of lab or yard as a console shows it',
        params: bookParams,
        response: {
          200: z.object({
            seq: z.int().describe('Newest entry any book heard'),
            at: z.string().describe("The plant's own clock"),
            view: z.unknown(),
          }),
          400: problemSchema,
        },
      },
    },
    async ({ params: { book } }, reply) => {
      const { ledger, seq } = await store.books();
      const at = runner.plantClock();
      reply.header('cache-control', 'no-store');
      return { seq, at, view: viewOfBook(ledger, book, at) };
    },
  );

  api.get(
    '/api/ledger/lots/:lot',
    {
      schema: {
        summary:
          'Everything on record about one lot: what each book knows of it, and every entry that names it',
        params: z.strictObject({ lot: z.string().min(1).max(60) }),
        response: { 200: z.unknown(), 404: problemSchema },
      },
    },
    async ({ params: { lot } }, reply) => {
      const found = await lotFound(store, lot);
      if (found === null) return reply.code(404).send({ because: [`The record names no lot ${lot}.`] });
      reply.header('cache-control', 'no-store');
      return found;
    },
  );

  api.post(
    '/api/ledger/:book/commands',
    {
      bodyLimit: BODY_LIMIT_BYTES,
      schema: {
        summary: 'Put a command to a book; answered when it is on record',
        params: bookParams,
        body: askSchema,
        response: { 200: answerSchema, 400: problemSchema },
      },
    },
    async ({ params: { book }, body: { id, by, command } }) => {
      if (!desk.mayAsk(by.console))
        return { ok: false as const, because: ['Too many requests: wait a moment.'] };
      const person = desk.personOf(by.person);
      if (person === null)
        return { ok: false as const, because: [`${by.person} is not on the list of people.`] };
      if (book === 'recalls' && NOT_BY_PEOPLE.includes(command.do))
        return { ok: false as const, because: ['A drill is kept by the program itself when it is over.'] };
      return runner.askBook({ id, book, by: { person: person.id, role: person.role }, command });
    },
  );
};
