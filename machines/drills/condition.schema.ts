/** The schema of one condition of a drill: a plain yes-or-no question about clock, line, plant or the drill itself. */
import { z } from 'zod';
import { SIGNAL_NAMES } from '../charts/signals.ts';
import { TAG_NAMES } from '../field/tags.ts';
import { ALARMS } from '../line/alarms.ts';
import { FACT_NAMES, PROCEDURE_NAMES, STAGE_NAMES, STEP_NAMES } from './names.ts';

/** What may be asked of the simulated plant's truth; the units stand in the names. */
export const TRUTHS = [
  'hoodLelPct',
  'solventInMixKg',
  'otherBinderKg',
  'dryerFlame',
  'drumFuelLelPct',
  'puffs',
  'coatedPct',
  'mixFreeWaterPct',
  'mixKg',
  'holdingBinC',
  'emulsionTankC',
  'cutbackTankC',
  'wasteKg',
] as const;
export type TruthName = (typeof TRUTHS)[number];

const words = z.string().min(1).max(60);
const list = (names: [string, ...string[]]) => z.array(z.enum(names)).min(1).max(20);
/** The condition is met when what it asks is so; with `on: false`, when it is not. */
const on = z.boolean().default(true);
const bounds = { above: z.number().optional(), below: z.number().optional() };
const tag = z.enum(TAG_NAMES as [string, ...string[]]);

export const conditionSchema = z.discriminatedUnion('is', [
  /** Seconds since the trainee took over. */
  z.strictObject({ is: z.literal('after'), seconds: z.number().min(0).max(7200) }),
  z.strictObject({ is: z.literal('signal'), signal: z.enum(SIGNAL_NAMES as [string, ...string[]]), on }),
  /** Present step of the batch, ISA-88 state of it, stage of the drying campaign. */
  z.strictObject({ is: z.literal('step'), in: list(STEP_NAMES), on }),
  z.strictObject({ is: z.literal('procedure'), in: list(PROCEDURE_NAMES), on }),
  z.strictObject({ is: z.literal('stage'), in: list(STAGE_NAMES), on }),
  z.strictObject({ is: z.literal('reading'), tag, ...bounds }),
  z.strictObject({ is: z.literal('truth'), of: z.enum(TRUTHS), ...bounds }),
  z.strictObject({
    is: z.literal('alarm'),
    alarm: z.enum(ALARMS.map((one) => one.id) as [string, ...string[]]),
    in: z
      .array(
        z.enum([
          'normal',
          'unacknowledged',
          'acknowledged',
          'returned unacknowledged',
          'shelved',
          'suppressed by design',
          'out of service',
        ]),
      )
      .min(1),
  }),
  /** At least so many batches since the trainee took over: discharged to a bay, or dumped. */
  z.strictObject({ is: z.literal('batches'), made: z.int().min(1).max(50) }),
  z.strictObject({ is: z.literal('dumped'), least: z.int().min(1).max(50) }),
  /** A fact of the line since the trainee took over, at least so often. */
  z.strictObject({
    is: z.literal('fact'),
    fact: z.enum(FACT_NAMES),
    least: z.int().min(1).max(100).default(1),
    on,
  }),
  /** An incident of this drill that has begun (or, with `mended`, is over). */
  z.strictObject({ is: z.literal('incident'), id: words, mended: z.boolean().default(false), on }),
  /** Something good of this drill that was met. */
  z.strictObject({ is: z.literal('met'), id: words, on }),
  z.strictObject({ is: z.literal('order'), order: z.int().min(1).max(50), on }),
]);
export type Condition = z.infer<typeof conditionSchema>;

/** All of them must hold. */
export const whenSchema = z.array(conditionSchema).max(12);
