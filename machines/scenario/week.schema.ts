/** A week file: one shift file worked day after day in one record, with what differs each day, and who works the lab. */
import { z } from 'zod';
import { shiftSchema } from './shift.schema.ts';

const id = z.string().regex(/^[a-z0-9][a-z0-9-]*$/, 'use lower-case letters, digits and hyphens');
const { date, startsAt, hours, seed, orders, incidents, moisture, tanksC } = shiftSchema.shape;

export const weekSchema = z.strictObject({
  kind: z.literal('week'),
  id,
  name: z.string().min(1),
  /** The shift file every day is made from, by path from the scenarios folder. */
  shift: z.string().min(1),
  /** Who works the lab, by id of the people file, and how well. */
  lab: z.strictObject({
    officer: id,
    supervisor: id,
    seed: z.int().min(0).max(0xffffffff),
    /** Test error in single-operator standard deviations: 1 a good technician, 0 none. */
    error: z.number().min(0).max(5).default(1),
  }),
  /** What takes part in the charts of the report, and how many lots of the beginning set their limits. */
  charts: z.strictObject({
    property: z.string().min(1),
    baseline: z.int().min(3).max(50),
    /** Where the process should run and how lots vary about it, when that is known from before. */
    centre: z.number().optional(),
    sigma: z.number().positive().optional(),
  }),
  days: z
    .array(
      z.strictObject({
        day: z.string().min(1),
        date,
        seed,
        startsAt: startsAt.optional(),
        hours: hours.optional(),
        orders: orders.optional(),
        incidents: incidents.optional(),
        moisture: moisture.optional(),
        tanksC: tanksC.optional(),
        /** What a reader should know about this day. */
        note: z.string().default(''),
      }),
    )
    .min(1)
    .max(31)
    .refine((days) => days.every((day, i) => i === 0 || day.date > (days[i - 1]?.date ?? '')), {
      error: 'days must follow each other',
    }),
});
export type Week = z.infer<typeof weekSchema>;
