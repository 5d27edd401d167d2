/** What the lab did with a lot, as the papers show it: samples, worksheets, results against limits, decisions. Plain data. */
import { z } from 'zod';

const stamp = z.string().describe('Plant’s own date and clock, YYYY-MM-DD HH:MM:SS');

export const labSampleSchema = z.object({
  sample: z.int(),
  test: z.string(),
  part: z.string().describe('Which part of the lot it was drawn in: 1 of 2'),
  state: z.string(),
  atKg: z.number().nullable().describe('Tonnage in the lot, kg; null while its plan is sealed'),
  takenBy: z.string().nullable(),
  taken: stamp.nullable(),
  batch: z.int().nullable(),
  massKg: z.number().nullable(),
  container: z.string().nullable(),
  label: z.string().nullable(),
  retainedKg: z.number().nullable(),
  discardOn: z.string().nullable(),
  discarded: z.boolean(),
  substitute: z.string().nullable().describe('Where it came from and why, when it stands for a lost one'),
  custody: z.array(z.object({ at: stamp, from: z.string(), to: z.string(), remark: z.string() })),
  corrections: z.array(z.object({ at: stamp, by: z.string(), reason: z.string(), changes: z.string() })),
});
export type LabSamplePrint = z.infer<typeof labSampleSchema>;

export const labSheetSchema = z.object({
  id: z.string(),
  title: z.string(),
  test: z.string(),
  sample: z.int().nullable(),
  retest: z.boolean(),
  testedBy: z.string(),
  tested: stamp,
  enteredBy: z.string(),
  entered: stamp,
  balance: z.string(),
  simulated: z.boolean(),
  readings: z.array(z.object({ label: z.string(), value: z.string(), unit: z.string() })),
  working: z.array(
    z.object({
      label: z.string(),
      numbers: z.string(),
      value: z.number(),
      unit: z.string(),
      decimals: z.int(),
    }),
  ),
  results: z.array(
    z.object({
      property: z.string(),
      words: z.string(),
      value: z.number(),
      unit: z.string(),
      decimals: z.int(),
    }),
  ),
  notes: z.array(z.string()),
  departures: z.array(z.string()),
  remark: z.string(),
  corrections: z.array(
    z.object({ at: stamp, by: z.string(), reason: z.string(), changes: z.string(), was: z.string() }),
  ),
  aside: z.string().nullable().describe('Why it does not count; null while it does'),
  photos: z.array(
    z.object({
      sha256: z.string(),
      caption: z.string(),
      at: stamp,
      by: z.string(),
      aside: z.string().nullable(),
    }),
  ),
});
export type LabSheetPrint = z.infer<typeof labSheetSchema>;

/** One property of the lot against one limit. */
export const labLineSchema = z.object({
  property: z.string(),
  words: z.string(),
  unit: z.string(),
  decimals: z.int(),
  values: z.string().describe('All results, sample by sample; a retest behind its first test'),
  judged: z.number().describe('What was held against the limit: worst result, mean, or estimated share'),
  rule: z.string(),
  limit: z.string(),
  source: z.string(),
  status: z.string(),
  within: z.boolean(),
});
export type LabLine = z.infer<typeof labLineSchema>;

export const labWorkSchema = z.object({
  lot: z.string(),
  state: z.string(),
  done: z.string().nullable(),
  verdict: z.enum(['pass', 'fail', 'incomplete']),
  specification: z
    .object({
      id: z.string(),
      version: z.int(),
      name: z.string(),
      source: z.string(),
      shelfLifeDays: z.int(),
    })
    .nullable(),
  missing: z.array(z.string()),
  failing: z.array(z.string()),
  contradictions: z.array(z.string()),
  notes: z.array(z.string()),
  lines: z.array(labLineSchema),
  samples: z.array(labSampleSchema),
  sheets: z.array(labSheetSchema),
  events: z.array(z.object({ at: stamp, by: z.string(), what: z.string(), reason: z.string() })),
  plan: z
    .object({
      commitment: z.string(),
      nonce: z.string().nullable(),
      findings: z.array(z.string()).nullable(),
      text: z.string().nullable().describe('What the commitment is the SHA-256 of; null while it is sealed'),
    })
    .nullable(),
  decision: z
    .object({
      what: z.string(),
      by: z.string(),
      role: z.string(),
      at: stamp,
      reason: z.string(),
      askedBy: z.string().nullable().describe('Who asked for the concession'),
      seq: z.int(),
      hash: z.string(),
    })
    .nullable(),
  record: z
    .object({ seq: z.int(), hash: z.string(), wall: z.string() })
    .describe('Newest entry that names the lot, in whichever shift'),
  keepsUntil: z.string().nullable().describe('Day the shelf life ends, counted from when the lot was closed'),
});
export type LabWork = z.infer<typeof labWorkSchema>;
