/** A shift file: one plant, its people, its weather, its orders, and what goes wrong. */
import { z } from 'zod';
import { EQUIPMENT_FAULTS } from '../field/outputs.ts';
import { TAG_NAMES } from '../field/tags.ts';
import { EMULSION_MAX_C } from './emulsion-limits.ts';
import type { PlantSpec } from './plant.schema.ts';

const id = z.string().regex(/^[a-z0-9][a-z0-9-]*$/, 'use lower-case letters, digits and hyphens');
const clock = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'write a time of day as HH:MM');
const minute = z
  .number()
  .min(0)
  .max(24 * 60);

export const SKILLS = ['good', 'slow', 'forgetful', 'reckless'] as const;
export const skillSchema = z.enum(SKILLS);
/** good: by the book; slow: late at every step; forgetful: misses acknowledgements and looks; reckless: tries what is forbidden. */
export type Skill = z.infer<typeof skillSchema>;

const tankThisMorning = z
  .strictObject({
    confirmed: z.boolean(),
    waterKg: z.number().min(0).max(2000),
    otherBinderKg: z.number().min(0).max(5000),
  })
  .partial();

export const shiftSchema = z.strictObject({
  kind: z.literal('shift'),
  id,
  name: z.string().min(1),
  /** Files beside this one, by path from the scenarios folder. */
  plant: z.string().min(1),
  people: z.string().min(1),
  mixes: z.array(z.string().min(1)).min(1),
  date: z.iso.date(),
  startsAt: clock,
  hours: z.number().positive().max(14),
  seed: z.int().min(0).max(0xffffffff),
  weather: z.strictObject({
    /** Outside air at the start and at its warmest (15:00), °C. */
    startC: z.number().min(-30).max(50),
    warmestC: z.number().min(-30).max(50),
    rain: z
      .array(z.strictObject({ fromMin: minute, toMin: minute, mmH: z.number().min(0).max(100) }))
      .default([]),
  }),
  /** This morning's moisture tests, where they differ from the plant file's; truePct is what the simulated stone holds. */
  moisture: z
    .array(
      z.strictObject({
        bin: z.int().min(1).max(4),
        testedPct: z.number().min(0).max(15),
        truePct: z.number().min(0).max(15),
      }),
    )
    .default([]),
  /** What the tanks read this morning, °C, where heating overnight left them elsewhere than the plant file says. */
  tanksC: z
    .strictObject({ emulsion: z.number().min(1).max(EMULSION_MAX_C), cutback: z.number().min(1).max(130) })
    .partial()
    .default({}),
  /** What is not as usual in the tanks this morning: contents not confirmed, free water at the bottom, kg, the other binder in it, kg. */
  tanks: z.strictObject({ emulsion: tankThisMorning, cutback: tankThisMorning }).partial().optional(),
  /** What tanks and bins hold as the shift begins, kg, where the shift before left them elsewhere than the plant file says. */
  levels: z
    .strictObject({
      tanksKg: z
        .strictObject({ emulsion: z.number().min(0), cutback: z.number().min(0) })
        .partial()
        .optional(),
      /** By bin, in the plant's order. */
      binsKg: z.array(z.number().min(0)).max(4).optional(),
    })
    .optional(),
  /** Proof tests since the round the plant file names; carried on from shift to shift. */
  proofs: z
    .array(
      z.strictObject({
        cause: z.string().regex(/^(FI|FT|FB|TE|TC)-\d\d$/, 'use the ID of a cause, such as FI-20'),
        on: z.iso.date(),
        result: z.enum(['passed', 'failed']).default('passed'),
        by: z.string().default(''),
        remark: z.string().default(''),
      }),
    )
    .optional(),
  /** A hot work permit the shift before left open: it stands until a person has seen that the work is over. */
  hotWork: z
    .strictObject({
      where: z.string().min(1).max(200),
      reason: z.string().min(1).max(400),
      by: z.string().min(1).max(60),
    })
    .optional(),
  /** Worked through in this order by mix id. */
  orders: z
    .array(
      z.strictObject({
        mix: id,
        tonnes: z.number().positive(),
        bay: z.int().min(1).max(9),
        /** The production order of the yard it is made for, when the shift was opened from the week's schedule. */
        for: z
          .string()
          .regex(/^PO-\d{6}-\d+$/, 'use the name of an order, such as PO-260414-1')
          .optional(),
      }),
    )
    .min(1),
  standIn: z.strictObject({ person: id, skill: skillSchema }).optional(),
  /** What goes wrong, by minutes into the shift. */
  incidents: z
    .array(
      z.discriminatedUnion('what', [
        z.strictObject({
          what: z.literal('instrument'),
          atMin: minute,
          untilMin: minute.optional(),
          tag: z.enum(TAG_NAMES as [string, ...string[]]),
          fault: z.enum(['stuck', 'dead', 'noisy', 'drift', 'span']),
          perHour: z.number().optional(),
          /** Of a span error: how many % of the true value it reads too much. */
          offPct: z.number().min(-50).max(50).optional(),
        }),
        z.strictObject({
          what: z.literal('equipment'),
          atMin: minute,
          untilMin: minute.optional(),
          equipment: z.enum(EQUIPMENT_FAULTS),
        }),
      ]),
    )
    .default([]),
});

export type Shift = z.infer<typeof shiftSchema>;
export type Weather = Shift['weather'];

/** A shift with every file it names read in: all a line needs to start. */
export type Scenario = {
  readonly shift: Shift;
  readonly plant: PlantSpec;
  readonly mixes: readonly import('./mix.schema.ts').Mix[];
  readonly people: readonly import('./people.schema.ts').Person[];
  /** Those the mixes name; left out in records from before there were any. */
  readonly specifications?: readonly import('./specification.schema.ts').Specification[];
};

const tankOfMorning = (plant: PlantSpec, shift: Shift, tank: 'emulsion' | 'cutback') => ({
  ...plant.tanks[tank],
  startC: shift.tanksC[tank] ?? plant.tanks[tank].startC,
  startMassKg: shift.levels?.tanksKg?.[tank] ?? plant.tanks[tank].startMassKg,
});

/** The plant on the morning of a shift: bins as wet, tanks as warm and both as full as the shift says. */
export const plantThisMorning = (plant: PlantSpec, shift: Shift): PlantSpec => ({
  ...plant,
  bins: plant.bins.map((bin, i) => {
    const test = shift.moisture.find((one) => one.bin === i + 1);
    const startKg = shift.levels?.binsKg?.[i];
    const full = startKg === undefined ? bin : { ...bin, startKg };
    return test === undefined
      ? full
      : { ...full, testedMoisturePct: test.testedPct, trueMoisturePct: test.truePct };
  }),
  tanks: {
    emulsion: tankOfMorning(plant, shift, 'emulsion'),
    cutback: tankOfMorning(plant, shift, 'cutback'),
  },
});
