/** What reports and entries can be asked for: real choices for the form controls. */
import { z } from 'zod';

export const choicesSchema = z.object({
  shifts: z.array(
    z.object({
      shift: z.int(),
      scenario: z.string(),
      day: z.string(),
      ended: z.boolean(),
      sealed: z.boolean(),
      batches: z.int(),
      lots: z.int(),
    }),
  ),
  /** Of the shift asked for, else of the newest. */
  shift: z.int().nullable(),
  lots: z.array(z.string()),
  batches: z.array(z.int()),
  people: z.array(z.object({ id: z.string(), name: z.string() })),
  materials: z.array(z.string()),
});
export type Choices = z.infer<typeof choicesSchema>;
