/** A drill file: what it teaches, how it begins, what goes wrong, what good looks like, what is never done, how it counts. */
import { z } from 'zod';
import { EQUIPMENT_FAULTS } from '../field/outputs.ts';
import { TAG_NAMES } from '../field/tags.ts';
import { type Role, roleSchema } from '../scenario/people.schema.ts';
import { COMMAND_NAMES } from './command-names.ts';
import { conditionSchema, whenSchema } from './condition.schema.ts';
import { crossFindings } from './cross-check.ts';
import { shiftChangeSchema } from './shift-change.schema.ts';

const id = z
  .string()
  .max(40)
  .regex(/^[a-z0-9][a-z0-9-]*$/, 'use lower-case letters, digits and hyphens');
const text = z.string().trim().min(3).max(600);
const when = whenSchema.default([]);
const seconds = z.number().min(0).max(3600);

/** Competencies a drill is scored by. */
export const COMPETENCIES = [
  'reads the plant',
  'fire discipline',
  'batching',
  'faults',
  'communication',
] as const;
export type Competency = (typeof COMPETENCIES)[number];
const competency = z.enum(COMPETENCIES);
const points = z.number().min(1).max(100);

/** Somebody on the way to a certificate may have hints; a drill may say otherwise. */
const HINTS_FOR: Role[] = ['trainee', 'operator'];

/** Whom a trainee can call: each call is recorded, and may bring help. */
export const CALLED = ['fitter', 'supervisor', 'laboratory', 'loader', 'fire brigade'] as const;
export type Called = (typeof CALLED)[number];

const tag = z.enum(TAG_NAMES as [string, ...string[]]);
/** What may be done to the plant, behind the trainee's back. */
export const happeningSchema = z.discriminatedUnion('what', [
  z.strictObject({ what: z.literal('equipment'), equipment: z.enum(EQUIPMENT_FAULTS) }),
  z.strictObject({
    what: z.literal('instrument'),
    tag,
    fault: z.enum(['stuck', 'dead', 'noisy', 'drift', 'span']),
    /** Drift: units of the tag an hour. Span: % of the true value that is added to it. By seed within the two. */
    by: z.tuple([z.number(), z.number()]).default([0, 0]),
  }),
  z.strictObject({
    what: z.literal('message'),
    from: z.string().min(1).max(60),
    text,
    /** What the trainee may answer. Without answers it only tells. */
    answers: z
      .array(z.strictObject({ id, text, means: z.enum(['yes', 'no', 'ask']) }))
      .max(5)
      .default([]),
    /** Whether doing as it says is right; stand-in trainees of good sense go by it, as a person does by the words. */
    rightly: z.boolean().default(true),
    /** The command it urges: a stand-in trainee who agrees gives it. */
    urges: z
      .strictObject({
        do: z.enum(COMMAND_NAMES as [string, ...string[]]),
        with: z.record(z.string(), z.union([z.string(), z.number(), z.boolean()])).default({}),
      })
      .optional(),
  }),
]);
export type Happening = z.infer<typeof happeningSchema>;

/** From and to; the seed chooses between them. */
const jitter = z
  .tuple([seconds, seconds])
  .refine(([from, to]) => from <= to, { error: 'write the shorter time first' });
const atOnce: [number, number] = [0, 0];

const incidentSchema = z.strictObject({
  id,
  /** What the debrief calls it. */
  text,
  /** It begins so long after all of this holds for the first time. */
  when,
  afterS: jitter.default(atOnce),
  /** One of these, chosen by seed. */
  oneOf: z.array(happeningSchema).min(1).max(8),
  /** It ends by itself so long after it began … */
  lastsS: jitter.optional(),
  /** … or so long after this person was called for it. */
  mendedBy: z.enum(CALLED).optional(),
  mendS: jitter.default(atOnce),
  /** What that person says when it is done. */
  mendedWords: text.default('It is mended. You may go on.'),
});
export type Incident = z.infer<typeof incidentSchema>;

/** A command by its name, with any of its fields that must be so. */
export const actionSchema = z.discriminatedUnion('what', [
  z.strictObject({
    what: z.literal('command'),
    do: z.enum(COMMAND_NAMES as [string, ...string[]]),
    with: z.record(z.string(), z.union([z.string(), z.number(), z.boolean()])).default({}),
    /** A command counts when it was carried out; `tried` counts refused ones too. */
    tried: z.boolean().default(false),
  }),
  z.strictObject({ what: z.literal('call'), who: z.enum(CALLED) }),
  z.strictObject({ what: z.literal('answer'), incident: id, answer: id }),
]);
export type Action = z.infer<typeof actionSchema>;

const expectationSchema = z.strictObject({
  id,
  text,
  competency,
  points,
  /** It is called for from the moment all of this holds. */
  from: when,
  /** What does it: any one of these actions, or reaching this condition. One of the two. */
  by: z.array(actionSchema).min(1).max(8).optional(),
  until: z.array(conditionSchema).min(1).max(12).optional(),
  /** Full points within so many seconds of being called for, half within twice as many (or `lateS`), none later. */
  withinS: seconds.min(1),
  lateS: seconds.optional(),
  /** These must have been met before: done before them it counts half. */
  after: z.array(id).max(10).default([]),
  /** It counts only when it came to be called for; else not having come so far is missing it. */
  ifCalledFor: z.boolean().default(false),
  hint: text.optional(),
});
export type Expectation = z.infer<typeof expectationSchema>;

const neverSchema = z.strictObject({
  id,
  text,
  competency,
  /** Taken off for each time it is done, at most three times. */
  points,
  /** The drill is not passed once this was done. */
  fails: z.boolean().default(false),
  /** Any one of these actions while all of `while` holds; without actions, the condition itself for `forS`. */
  by: z.array(actionSchema).max(8).default([]),
  while: when,
  forS: seconds.default(0),
});
export type Never = z.infer<typeof neverSchema>;

export const drillSchema = z
  .strictObject({
    kind: z.literal('drill'),
    id,
    name: z.string().min(1).max(80),
    /** 1 first steps … 5 hard. */
    level: z.int().min(1).max(5),
    teaches: text,
    /** What the trainee is told at the start; nothing in it gives away what will go wrong. */
    brief: text,
    start: z.strictObject({
      /** A shift file, by path from the scenarios folder. */
      shift: z.string().min(1),
      change: shiftChangeSchema.default({}),
      /** The stand-in works the shift, unseen, until all of this holds; then the trainee takes over. */
      until: when,
      withinMin: z.number().min(1).max(300).default(120),
    }),
    /** The drill ends after so long, or when all of `endsWhen` holds. */
    minutes: z.number().min(1).max(120),
    endsWhen: when,
    incidents: z.array(incidentSchema).max(12).default([]),
    expect: z.array(expectationSchema).min(1).max(24),
    never: z.array(neverSchema).max(16).default([]),
    hints: z
      .strictObject({
        /** Points a hint costs, of the competency it belongs to. */
        costs: z.number().min(0).max(20).default(2),
        /** A hint may be asked for so long after what it hints at is called for. */
        afterS: seconds.default(10),
        /** Roles that may have hints, where whoever leads the drill allows them at all. */
        for: z.array(roleSchema).max(7).default(HINTS_FOR),
      })
      .default({ costs: 2, afterS: 10, for: HINTS_FOR }),
    passMark: z.number().min(1).max(100).default(70),
    /** Where the times and limits come from, in words. */
    basis: text,
  })
  .superRefine((drill, ctx) => {
    for (const { path, message } of crossFindings(drill)) ctx.addIssue({ code: 'custom', path, message });
  });

export type Drill = z.infer<typeof drillSchema>;
