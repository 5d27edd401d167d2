/** What a person may ask about job mixes, and which role may. */
import { z } from 'zod';
import { mixSchema } from '../../scenario/mix.schema.ts';
import type { Role } from '../../scenario/people.schema.ts';

const id = z.string().regex(/^[a-z0-9][a-z0-9-]*$/, 'use lower-case letters, digits and hyphens');
const reason = z.string().trim().min(3, 'give a reason of at least 3 letters').max(300);
const note = z.string().trim().max(300).default('');
const version = z.int().positive();
const amount = z.number().min(-1e6).max(1e6);

export const trialResultSchema = z.strictObject({
  property: z.string().min(1).max(60),
  unit: z.string().max(20),
  predicted: amount.nullable(),
  measured: amount,
});

export const binDescriptionSchema = z.strictObject({
  kind: z.enum(['crushed stone', 'natural sand', 'reclaimed']),
  grading: z
    .array(
      z.strictObject({ sieveMm: z.number().positive().max(200), passingPct: z.number().min(0).max(100) }),
    )
    .min(2, 'give at least two sieves')
    .max(20)
    .refine(
      (points) =>
        points.every((point, i) => {
          const above = points[i - 1];
          return (
            above === undefined || (point.sieveMm < above.sieveMm && point.passingPct <= above.passingPct)
          );
        }),
      { error: 'write sieves from large to small; no more may pass a smaller sieve' },
    ),
  absorptionPct: z.number().min(0).max(10),
  ownBinderPct: z.number().min(0).max(10),
  source: z.string().trim().min(3, 'say where the figures come from').max(200),
});

export const mixesCommandSchema = z.discriminatedUnion('do', [
  z.strictObject({
    do: z.literal('draftMix'),
    /** The whole version; its version number is given by the book. */
    content: mixSchema,
    why: reason,
    from: z.strictObject({ mix: id, version }).nullable().default(null),
  }),
  z.strictObject({ do: z.literal('approveMix'), mix: id, version, note }),
  z.strictObject({ do: z.literal('withdrawMix'), mix: id, version, reason }),
  z.strictObject({
    do: z.literal('recordTrial'),
    mix: id,
    version,
    batch: z.string().min(1).max(40).nullable().default(null),
    kg: z.number().positive().max(20_000),
    results: z.array(trialResultSchema).min(1, 'give at least one result').max(30),
    note,
  }),
  z.strictObject({
    do: z.literal('correctTrial'),
    trial: z.string().min(1).max(40),
    results: z.array(trialResultSchema).min(1, 'give at least one result').max(30),
    reason,
  }),
  z.strictObject({
    do: z.literal('setFactor'),
    factor: z.string().min(1).max(60),
    value: z.number().min(0).max(1e6),
    source: z.string().trim().min(3, 'say where the figure comes from').max(200),
    reason,
  }),
  z.strictObject({
    do: z.literal('describeBin'),
    bin: z.int().min(1).max(4),
    now: binDescriptionSchema,
    reason,
  }),
]);

export type MixesCommand = z.infer<typeof mixesCommandSchema>;
export type MixesCommandName = MixesCommand['do'];

const DRAFTERS: readonly Role[] = ['quality officer', 'supervisor', 'storekeeper', 'trainer'];

export const MIXES_PERMISSIONS: { readonly [K in MixesCommandName]: readonly Role[] } = {
  draftMix: DRAFTERS,
  /** A job mix is released by those who answer for it; common practice, no source. */
  approveMix: ['quality officer', 'supervisor'],
  withdrawMix: DRAFTERS,
  recordTrial: ['quality officer', 'supervisor', 'operator', 'trainer'],
  correctTrial: ['quality officer', 'supervisor', 'trainer'],
  setFactor: ['quality officer', 'supervisor', 'storekeeper', 'trainer'],
  describeBin: ['quality officer', 'supervisor', 'storekeeper', 'trainer'],
};
