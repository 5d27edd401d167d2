/** A question of blending as it comes over the wire, and its limits. */
import { z } from 'zod';
import { binDescriptionSchema } from './commands.ts';

const pct = z.number().min(0).max(100);

export const blendQuestionSchema = z.strictObject({
  bins: z
    .array(
      z.strictObject({
        bin: z.int().min(1).max(9),
        name: z.string().min(1).max(60),
        grading: binDescriptionSchema.shape.grading,
        ownBinderPct: z.number().min(0).max(20),
        fromPct: pct,
        toPct: pct,
      }),
    )
    .min(1, 'give at least one bin')
    .max(8),
  band: z
    .array(
      z.strictObject({ sieveMm: z.number().positive().max(200), fromPct: pct, toPct: pct, targetPct: pct }),
    )
    .min(1, 'the band names no sieve')
    .max(20)
    .refine(
      (sieves) => sieves.every((sieve, i) => i === 0 || sieve.sieveMm < (sieves[i - 1]?.sieveMm ?? 0)),
      {
        error: 'write sieves from large to small, each once',
      },
    ),
  /** Kept off each edge of the band, % of its width there. */
  marginPct: z.number().min(0).max(50),
});

export type BlendQuestion = z.infer<typeof blendQuestionSchema>;
