/** manifest.json of export format 1. */
import { z } from 'zod';
import { EXPORT_FORMAT } from './export.types.ts';

const digest = z.string().regex(/^[0-9a-f]{64}$/, 'is not 64 hex digits');
const count = z.int().min(0);
const text = z.string().max(300);

export const manifestSchema = z.strictObject({
  format: z.literal(EXPORT_FORMAT),
  what: z.literal('patchyard shift'),
  program: text,
  physics: count,
  shift: z.strictObject({ opening: count, id: text, name: text, date: text, startsAt: text }),
  entries: z.strictObject({ first: count, last: count, count, head: digest, bytes: count }),
  seal: z.strictObject({ seq: count, root: digest, key: digest, countersignatures: count }).nullable(),
  files: z
    .array(z.strictObject({ name: z.string().max(200), bytes: count, sha256: digest }))
    .max(10_000)
    .readonly(),
});
