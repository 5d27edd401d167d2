/** The head every report carries: whose, which shifts, under which filter, resting on which entry of the record. */
import { z } from 'zod';
import { filterSchema } from './filter.ts';

const stamp = z.string().describe('Plant’s own date and clock, YYYY-MM-DD HH:MM:SS');

export const sealSchema = z.object({
  root: z.string(),
  key: z.string(),
  signature: z.string(),
  first: z.int(),
  last: z.int(),
  count: z.int(),
  seq: z.int(),
  wall: z.string(),
  countersigned: z.array(z.object({ by: z.string(), remark: z.string(), key: z.string(), wall: z.string() })),
});

export const shiftHeadSchema = z.object({
  shift: z.int(),
  id: z.string(),
  name: z.string(),
  plant: z.string(),
  date: z.string(),
  from: stamp,
  to: stamp.describe('Newest moment in the record of this shift'),
  ended: z.boolean(),
  endedBy: z.string().nullable(),
  runS: z.number(),
  program: z.string(),
  firstSeq: z.int(),
  lastSeq: z.int(),
  /** Null: this shift has not been sealed. */
  seal: sealSchema.nullable(),
});
export type ShiftHead = z.infer<typeof shiftHeadSchema>;

export const headSchema = z.object({
  plant: z.string(),
  shifts: z.array(shiftHeadSchema),
  filter: filterSchema,
  record: z
    .object({ seq: z.int(), hash: z.string(), wall: z.string() })
    .describe('Newest entry this report rests on'),
  plantKey: z.string().nullable().describe('Fingerprint of the key the plant seals with'),
});
export type ReportHead = z.infer<typeof headSchema>;

export const personSchema = z.object({ id: z.string(), name: z.string(), role: z.string() });
export type PersonPrint = z.infer<typeof personSchema>;
