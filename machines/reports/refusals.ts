/** Refusals and trips as lines of a report. */
import { z } from 'zod';
import { causeOf, causeSchema } from './cause.ts';
import { stampOf } from './clock.ts';
import { personSchema } from './head.ts';
import { nameOf, personOf, type ShiftTold } from './head-of.ts';

export const refusalSchema = z.object({
  shift: z.int(),
  seq: z.int().describe('Entry of the record'),
  at: z.string(),
  atS: z.number(),
  command: z.string(),
  by: personSchema,
  because: z.array(z.string()),
});
export type RefusalLine = z.infer<typeof refusalSchema>;

export const tripSchema = z.object({
  shift: z.int(),
  at: z.string(),
  atS: z.number(),
  causes: z.array(causeSchema),
  reset: z.string().nullable(),
  resetBy: z.string().nullable(),
  stoodS: z.number().describe('From latched to reset, or to the end of the shift'),
});
export type TripLine = z.infer<typeof tripSchema>;

export const refusalsOf = ({ source, told, start }: ShiftTold): RefusalLine[] =>
  told.refusals.map((one) => ({
    shift: source.shift,
    seq: one.seq,
    at: stampOf(start, one.atMs),
    atS: one.atMs / 1000,
    command: one.command,
    by: personOf(source, one.by),
    because: [...one.because],
  }));

export const tripsOf = ({ source, told, start }: ShiftTold): TripLine[] =>
  told.trips.map((one) => ({
    shift: source.shift,
    at: stampOf(start, one.atMs),
    atS: one.atMs / 1000,
    causes: one.causes.map(causeOf),
    reset: one.resetMs === null ? null : stampOf(start, one.resetMs),
    resetBy: one.resetBy === null ? null : nameOf(source, one.resetBy),
    stoodS: ((one.resetMs ?? told.endedMs ?? told.lastMs) - one.atMs) / 1000,
  }));
