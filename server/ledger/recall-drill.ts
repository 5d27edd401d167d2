/** Recall drills: find every patch that holds something, the clock running on the server, the truth known to it alone. */
import { randomUUID } from 'node:crypto';
import type { FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { scoreOf } from '../../machines/yard/trace/recalls/book.ts';
import { traceFromSchema } from '../../machines/yard/trace/recalls/commands.ts';
import type { TraceFrom } from '../../machines/yard/trace/traced.types.ts';
import type { Desk } from '../live/desk.ts';
import { PlainError } from '../plain-error.ts';
import { problemSchema } from '../routes/schemas.ts';
import type { PlantRunner } from '../runner/runner.ts';
import type { Store } from '../store/store.ts';
import { byNumber, trace } from './trace.ts';

type Drill = {
  readonly from: TraceFrom;
  readonly words: string;
  readonly truth: readonly string[];
  readonly person: string;
  readonly startedMs: number;
};

/** Drills under way; the oldest is forgotten first. They live as long as the server runs. */
const AT_ONCE = 50;
/** Patches laid last among which the right ones are to be found. */
const PATCHES_SHOWN = 400;

const bySchema = z.strictObject({
  person: z.string().min(1).max(60),
  console: z.string().min(4).max(64),
});
const noSchema = z.strictObject({ ok: z.literal(false), because: z.array(z.string()).readonly() });
const startedSchema = z.strictObject({
  ok: z.literal(true),
  drill: z.string(),
  words: z.string(),
  patches: z.array(z.object({ patch: z.string(), place: z.string(), at: z.string() })),
});
const doneSchema = z.strictObject({
  ok: z.literal(true),
  seconds: z.number(),
  score: z.int(),
  truth: z.array(z.string()),
  missed: z.array(z.string()),
  wrong: z.array(z.string()),
});

const no = (...because: string[]) => ({ ok: false as const, because });

export type DrillParts = { readonly runner: PlantRunner; readonly store: Store; readonly desk: Desk };

export const registerRecallDrills = (app: FastifyInstance, { runner, store, desk }: DrillParts): void => {
  const api = app.withTypeProvider<ZodTypeProvider>();
  const drills = new Map<string, Drill>();

  api.post(
    '/api/trace/drills',
    {
      schema: {
        summary: 'Begin a recall drill; its clock runs from the answer on',
        body: z.strictObject({ by: bySchema, from: traceFromSchema }),
        response: { 200: z.union([startedSchema, noSchema]), 400: problemSchema },
      },
    },
    async ({ body: { by, from } }) => {
      if (!desk.mayAsk(by.console)) return no('Too many requests: wait a moment.');
      if (desk.personOf(by.person) === null) return no(`${by.person} is not on the list of people.`);
      if (from.kind === 'patch')
        return no('A drill goes forward: choose a delivery, a batch, a lot or a load.');
      try {
        const { words, patches } = await trace(store, from as TraceFrom);
        if (patches.length === 0)
          return no('Nothing of it has been laid in a patch yet: choose something else.');
        const newest = await store.traces.laidNewest(PATCHES_SHOWN);
        const shown = new Map(newest.map((one) => [one.patch, one]));
        for (const { patch, place, laidAt } of patches)
          if (!shown.has(patch)) shown.set(patch, { patch, place, at: laidAt });
        const drill = randomUUID();
        const truth = patches.map(({ patch }) => patch);
        drills.set(drill, {
          from: from as TraceFrom,
          words,
          truth,
          person: by.person,
          startedMs: performance.now(),
        });
        if (drills.size > AT_ONCE) drills.delete(drills.keys().next().value as string);
        // By name, so that their order tells nothing.
        const list = [...shown.values()].sort((a, b) => byNumber(a.patch, b.patch));
        return { ok: true as const, drill, words, patches: list };
      } catch (error) {
        if (error instanceof PlainError) return no(error.message);
        throw error;
      }
    },
  );

  api.post(
    '/api/trace/drills/:drill',
    {
      bodyLimit: 1024 * 1024,
      schema: {
        summary: 'End a recall drill: it is scored and kept in the record',
        params: z.strictObject({ drill: z.string().min(8).max(64) }),
        body: z.strictObject({ by: bySchema, ticked: z.array(z.string().max(80)).max(20_000) }),
        response: { 200: z.union([doneSchema, noSchema]), 400: problemSchema },
      },
    },
    async ({ params: { drill: id }, body: { by, ticked } }) => {
      if (!desk.mayAsk(by.console)) return no('Too many requests: wait a moment.');
      const person = desk.personOf(by.person);
      if (person === null) return no(`${by.person} is not on the list of people.`);
      const drill = drills.get(id);
      if (drill === undefined)
        return no('This drill is over, or the server was started anew meanwhile: begin another.');
      if (drill.person !== person.id) return no(`This drill is ${drill.person}'s: begin one of your own.`);
      const { from, words, truth, startedMs } = drill;
      const seconds = Math.round((performance.now() - startedMs) / 100) / 10;
      const answer = await runner.askBook({
        id: `recall-drill-${id}`,
        book: 'recalls',
        by: { person: person.id, role: person.role },
        command: { do: 'keepDrill', from, words, seconds, truth, ticked },
      });
      if (!answer.ok) return { ok: false as const, because: [...answer.because] };
      drills.delete(id);
      return { ok: true as const, seconds, truth: [...truth], ...scoreOf(truth, ticked) };
    },
  );
};
