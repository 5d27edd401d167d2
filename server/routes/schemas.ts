/** Shapes of what the HTTP interface takes and gives. */
import { z } from 'zod';
import { commandSchema } from '../../machines/line/commands.ts';
import { personSchema } from '../../machines/scenario/people.schema.ts';

export const answerSchema = z.union([
  z.strictObject({ ok: z.literal(true) }),
  z.strictObject({ ok: z.literal(false), because: z.array(z.string()).readonly() }),
]);

export const commandRequestSchema = z.strictObject({
  id: z.string().min(8).max(64).describe('Chosen by the sender; the same id is carried out once'),
  by: z.strictObject({
    person: z.string().min(1).max(60).describe('Id of a person on the list'),
    console: z.string().min(4).max(64).describe('Id of the console, kept by it'),
  }),
  command: commandSchema,
});

export const recordQuerySchema = z.strictObject({
  after: z.coerce.number().int().min(0).default(0).describe('Entries with a higher seq'),
  limit: z.coerce.number().int().min(1).max(1000).default(100),
  kind: z
    .enum([
      'opening',
      'readings',
      'command',
      'fact',
      'note',
      'seal',
      'countersignature',
      'keyRotated',
      'ledger',
    ])
    .optional(),
  fact: z.string().max(60).optional().describe('Only facts of this name, such as batchDischarged'),
  lot: z.string().max(60).optional(),
});

export const entrySchema = z.object({
  seq: z.int(),
  kind: z.string(),
  atMs: z.number(),
  wall: z.string(),
  prev: z.string(),
  hash: z.string(),
  body: z.unknown(),
});

export const recordSchema = z.object({
  entries: z.array(entrySchema),
  next: z.int().nullable().describe('Give as `after` for the next page; null at the end'),
});

export const headSchema = z.object({ seq: z.int(), hash: z.string(), atMs: z.number() });

export const stateSchema = z.object({
  view: z.unknown().describe('The whole line in words and numbers, as a console draws it'),
  run: z.unknown().describe('Speed, pause, newest entry, trouble'),
});

export const healthSchema = z.object({
  ok: z.boolean(),
  trouble: z.string().nullable(),
  seq: z.int(),
  plantMs: z.number(),
});

export const peopleListSchema = z.object({ people: z.array(personSchema).readonly() });
export const problemSchema = z.object({ because: z.array(z.string()) });
