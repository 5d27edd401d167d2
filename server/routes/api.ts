/** The HTTP interface: state, people, commands and the record. */
import type { FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { Presence } from '../live/absence.ts';
import type { Desk } from '../live/desk.ts';
import type { Runner } from '../runner/runner.ts';
import type { Store } from '../store/store.ts';
import * as shape from './schemas.ts';

export type ApiParts = {
  readonly runner: Runner;
  readonly store: Store;
  readonly desk: Desk;
  readonly presence: Presence;
};

export const registerApi = (app: FastifyInstance, { runner, store, desk, presence }: ApiParts): void => {
  const api = app.withTypeProvider<ZodTypeProvider>();

  api.get(
    '/api/state',
    { schema: { summary: 'The line as it is now', response: { 200: shape.stateSchema } } },
    async () => {
      const { view, run } = runner.shown();
      return { view, run };
    },
  );

  api.get(
    '/api/people',
    {
      schema: { summary: 'People of this plant and their roles', response: { 200: shape.peopleListSchema } },
    },
    async () => ({ people: [...desk.people()] }),
  );

  api.post(
    '/api/commands',
    {
      schema: {
        summary: 'Give the line a command; answered when it is on record',
        body: shape.commandRequestSchema,
        response: { 200: shape.answerSchema, 400: shape.problemSchema },
      },
    },
    async ({ body: { id, by, command } }) => {
      const person = desk.personOf(by.person);
      if (person === null && command.do !== 'emergencyStop')
        return { ok: false as const, because: [`${by.person} is not on the list of people.`] };
      presence.heard(by.console);
      return desk.command(person, by.console, { id, command });
    },
  );

  api.get(
    '/api/record',
    {
      schema: {
        summary: 'Entries of the record in order, page by page',
        querystring: shape.recordQuerySchema,
        response: { 200: shape.recordSchema, 400: shape.problemSchema },
      },
    },
    async ({ query: { after, limit, kind, fact, lot } }) => {
      const entries = await store.read({
        after,
        limit,
        ...(kind === undefined ? {} : { kind }),
        ...(fact === undefined ? {} : { fact }),
        ...(lot === undefined ? {} : { lot }),
      });
      return { entries: [...entries], next: entries.length < limit ? null : (entries.at(-1)?.seq ?? null) };
    },
  );

  api.get(
    '/api/record/head',
    { schema: { summary: 'The newest entry of the record', response: { 200: shape.headSchema } } },
    async () => {
      const { seq, hash, atMs } = await store.tail();
      return { seq, hash, atMs };
    },
  );

  api.get(
    '/api/health',
    {
      schema: {
        summary: 'Whether the line runs and its record can be written',
        response: { 200: shape.healthSchema, 503: shape.healthSchema },
      },
    },
    async (_request, reply) => {
      const { run, view } = runner.shown();
      const ok = run.trouble === null;
      return reply
        .code(ok ? 200 : 503)
        .send({ ok, trouble: run.trouble, seq: run.seq, plantMs: view.shift.atMs });
    },
  );
};
