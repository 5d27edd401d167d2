/** Entries looked up by day, lot, person, material and kind: what is asked, and what is answered. */
import { z } from 'zod';

export const FOUND_KINDS = ['command', 'refusal', 'fact', 'note'] as const;

export const foundQuerySchema = z.strictObject({
  from: z.iso.date().optional().describe('First day of the shifts looked through'),
  to: z.iso.date().optional().describe('Last day'),
  lot: z.string().min(1).max(60).optional(),
  person: z.string().min(1).max(60).optional().describe('Id of a person'),
  material: z.string().min(1).max(60).optional(),
  kind: z.enum(FOUND_KINDS).optional(),
});
export type FoundQuery = z.infer<typeof foundQuerySchema>;

export type FoundKind = (typeof FOUND_KINDS)[number];
