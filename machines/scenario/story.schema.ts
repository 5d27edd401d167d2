/**
 * A story file: how a rule of the interlocks would be broken if one thing in them were. Written by the exhaustive
 * exploration from a chart broken on purpose; opened in the console to see where the charts as they are stop it.
 */
import { z } from 'zod';

/** Charts a story may tell of, by the names the line gives them. */
export const STORY_CHARTS = [
  'interlock',
  'burner',
  'oilHeater',
  'emulsionTankInterlock',
  'cutbackTankInterlock',
  'emulsionTank',
  'cutbackTank',
  'alarm',
  'emulsionBatch',
  'warmEmulsionBatch',
  'cutbackBatch',
  'campaign',
  'weigher',
  'lot',
  'seat',
] as const;
export type StoryChart = (typeof STORY_CHARTS)[number];

export type StoryState = string | { readonly [region: string]: StoryState };
const state: z.ZodType<StoryState> = z.lazy(() =>
  z.union([z.string().min(1).max(60), z.record(z.string().min(1).max(60), state)]),
);

const text = z.string().trim().min(3).max(600);
/** States of some charts, by chart. */
const states = z.partialRecord(z.enum(STORY_CHARTS), state);
/** Elements that are not at rest, by their name in the outputs. */
const outputs = z.record(z.string().min(1).max(40), z.union([z.boolean(), z.string(), z.number()]));

export const storyStepSchema = z.strictObject({
  /** The event as the charts hear it, or what the plant does. */
  event: z.string().min(1).max(120),
  /** What it means, for a person at the plant. */
  means: text,
  /** Signals offered as they stand, in this order, until nothing moves; without them the event itself is sent. */
  offers: z
    .array(z.string().regex(/^(on|off)\./, 'begins with on. or off.'))
    .max(60)
    .default([]),
  /** Where the broken charts stand after it; a chart that is not named stands where it stood. */
  states: states.default({}),
  /** What is asked of the gate, and what the broken one lets through of it. */
  /** What the broken charts ask of the plant by themselves, where that is what was broken. */
  demands: outputs.optional(),
  asked: outputs.optional(),
  through: outputs.optional(),
});

export const storySchema = z.strictObject({
  kind: z.literal('story'),
  id: z
    .string()
    .max(60)
    .regex(/^[a-z0-9][a-z0-9-]*$/, 'use lower-case letters, digits and hyphens'),
  name: text,
  /** The rule that would be broken. */
  rule: z.string().regex(/^NR-\d\d$/, 'the ID of a rule, as in NR-01'),
  never: text,
  /** The one thing that was broken on purpose. */
  broken: text,
  /** Where the charts stand at first. */
  start: states,
  steps: z.array(storyStepSchema).min(1).max(60),
});

export type Story = z.infer<typeof storySchema>;
export type StoryStep = z.infer<typeof storyStepSchema>;
