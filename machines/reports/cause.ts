/** Causes of the flame interlock under their numbers. */
import { z } from 'zod';
import { CAUSES } from '../charts/flame-interlock/flame-interlock.causes.ts';

export const causeSchema = z.object({ id: z.string(), words: z.string() });

/** A cause in words; one this program does not know keeps its number. */
export const causeOf = (id: string): z.infer<typeof causeSchema> => {
  const known = (CAUSES as { readonly [id: string]: { readonly cause: string } | undefined })[id];
  return { id, words: known?.cause ?? '' };
};
