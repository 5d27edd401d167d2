/** Training over HTTP: drills, sessions begun and steered, debriefs, certificates and history. */
import type { FastifyInstance, FastifyReply } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { z } from 'zod';
import type { Debrief } from '../../machines/drills/debrief.types.ts';
import type { Attempt } from '../../machines/live/training.ts';
import { SESSIONS_LIMIT, sessionAskRequestSchema, startSchema } from '../../machines/live/training.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { createRateLimit, TOO_MANY } from '../live/rate-limit.ts';
import { messageOf, PlainError } from '../plain-error.ts';
import { answerSchema, problemSchema } from '../routes/schemas.ts';
import { certificatePdf } from './certificate.ts';
import type { TrainingHouse } from './house.ts';
import { tileFor, whyNotWatch } from './rights.ts';

const asSchema = z.strictObject({
  person: z.string().min(1).max(60).describe('Id of the person who asks'),
});
const sessionParams = z.strictObject({ session: z.string().regex(/^[a-z0-9]{6,20}$/) });
const begunSchema = z.union([
  z.strictObject({ ok: z.literal(true), session: z.string() }),
  z.strictObject({ ok: z.literal(false), because: z.array(z.string()).readonly() }),
]);
const anything = z.unknown();
const failures = { 403: problemSchema, 404: problemSchema, 400: problemSchema };

export const registerTraining = <R>(
  app: FastifyInstance,
  house: TrainingHouse<R>,
  log: (line: string) => void,
): void => {
  const api = app.withTypeProvider<ZodTypeProvider>();
  const limit = createRateLimit(() => performance.now());

  /** Answers that there is nothing, or nothing for that person; returns null when all is well. */
  const barred = (
    reply: FastifyReply,
    person: Person | null,
    whose: Pick<Attempt, 'trainee' | 'by'> | null,
  ): FastifyReply | null => {
    if (person === null) return reply.code(403).send({ because: ['Say who you are: a person on the list.'] });
    if (whose === null) return reply.code(404).send({ because: ['There is no such drill.'] });
    const no = whyNotWatch(person, whose);
    return no === null ? null : reply.code(403).send({ because: [no] });
  };
  const whoseIs = (session: string): Pick<Attempt, 'trainee' | 'by'> | null =>
    house.session(session)?.opened ?? house.attempt(session);

  api.get(
    '/api/training/drills',
    { schema: { summary: 'The drills there are, the easiest first', response: { 200: anything } } },
    async () => ({ drills: house.cards(), sessionsLimit: SESSIONS_LIMIT }),
  );

  api.post(
    '/api/training/sessions',
    {
      schema: {
        summary: 'Begin a drill for a trainee, or for oneself',
        body: startSchema,
        response: { 200: begunSchema, 400: problemSchema },
      },
    },
    async ({ body }) => {
      if (!limit.allow(body.by.console)) return { ok: false as const, because: [TOO_MANY] };
      const person = house.personOf(body.by.person);
      if (person === null)
        return { ok: false as const, because: [`${body.by.person} is not on the list of people.`] };
      const { answer, session } = await house.start(body, person);
      if (!answer.ok) return answer;
      return { ok: true as const, session: session ?? '' };
    },
  );

  api.post(
    '/api/training/sessions/:session',
    {
      schema: {
        summary: 'Freeze, steer, message, finish … a drill under way',
        params: sessionParams,
        body: sessionAskRequestSchema,
        response: { 200: answerSchema, 400: problemSchema },
      },
    },
    async ({ params, body: { by, ask } }) => {
      if (!limit.allow(by.console)) return { ok: false as const, because: [TOO_MANY] };
      const person = house.personOf(by.person);
      if (person === null)
        return { ok: false as const, because: [`${by.person} is not on the list of people.`] };
      try {
        return await house.ask(params.session, ask, person);
      } catch (error) {
        log(`A drill could not be steered: ${error instanceof Error ? error.stack : error}`);
        return { ok: false as const, because: [messageOf(error)] };
      }
    },
  );

  api.get(
    '/api/training/sessions',
    { schema: { summary: 'Drills under way', querystring: asSchema, response: { 200: anything } } },
    async ({ query }) => {
      const person = house.personOf(query.person);
      const tiles = house.tiles();
      if (person === null) return { sessions: [] };
      const seen = tiles.filter((tile) => whyNotWatch(person, tile) === null);
      return { sessions: seen.map((tile) => tileFor(person, tile)) };
    },
  );

  api.get(
    '/api/training/sessions/:session',
    {
      schema: {
        summary: 'All of a drill under way: moments, messages, faults',
        params: sessionParams,
        querystring: asSchema,
        response: { 200: anything, ...failures },
      },
    },
    async ({ params, query }, reply) => {
      const person = house.personOf(query.person);
      const session = house.session(params.session);
      const no = barred(reply, person, session?.opened ?? null);
      if (no !== null || session === null || person === null) return no;
      // What goes wrong and what was put in is for those who lead or look on, not for the trainee.
      const detail = session.detail();
      if (person.id === session.opened.trainee.id && session.state !== 'over')
        return { ...detail, faults: [], planned: [], tile: tileFor(person, detail.tile) };
      return detail;
    },
  );

  api.get(
    '/api/training/sessions/:session/view',
    {
      schema: {
        summary: 'The line as it was at a moment of an attempt',
        params: sessionParams,
        querystring: asSchema.extend({ tick: z.coerce.number().int().min(0) }),
        response: { 200: anything, ...failures },
      },
    },
    async ({ params, query }, reply) => {
      const no = barred(reply, house.personOf(query.person), whoseIs(params.session));
      if (no !== null) return no;
      const view = await house.viewAt(params.session, query.tick).catch((error: unknown) => {
        if (error instanceof PlainError) return error;
        throw error;
      });
      if (view instanceof PlainError) return reply.code(404).send({ because: [view.message] });
      if (view === null)
        return reply.code(404).send({ because: ['There is no such moment in that attempt.'] });
      return { view };
    },
  );

  api.get(
    '/api/training/sessions/:session/debrief',
    {
      schema: {
        summary: 'What an attempt came to',
        params: sessionParams,
        querystring: asSchema,
        response: { 200: anything, ...failures },
      },
    },
    async ({ params, query }, reply) => {
      const no = barred(reply, house.personOf(query.person), whoseIs(params.session));
      if (no !== null) return no;
      const debrief = house.debrief(params.session);
      if (debrief === null)
        return reply
          .code(404)
          .send({ because: ['That drill is not over yet: its debrief comes when it is.'] });
      return debrief;
    },
  );

  api.get(
    '/api/training/sessions/:session/certificate.pdf',
    {
      schema: {
        summary: 'A page to print about an attempt; training only',
        params: sessionParams,
        querystring: asSchema,
        response: { ...failures },
      },
    },
    async ({ params, query }, reply) => {
      const no = barred(reply, house.personOf(query.person), whoseIs(params.session));
      if (no !== null) return no;
      const attempt = house.attempt(params.session);
      if (attempt === null) return reply.code(404).send({ because: ['That drill is not over yet.'] });
      const pdf = await certificatePdf(attempt, house.debrief(params.session) as Debrief);
      const name = `drill-${attempt.drill}-${attempt.session}.pdf`;
      reply.header('content-disposition', `inline; filename="${name}"`).type('application/pdf');
      return reply.send(pdf as never);
    },
  );

  api.get(
    '/api/training/history',
    {
      schema: {
        summary: 'Attempts, the newest first, all or of one trainee',
        querystring: asSchema.extend({ trainee: z.string().min(1).max(60).optional() }),
        response: { 200: anything },
      },
    },
    async ({ query }) => {
      const person = house.personOf(query.person);
      return { attempts: person === null ? [] : house.history(person, query.trainee ?? null) };
    },
  );
};
