/** A people file: who works here and in which role. */
import { z } from 'zod';

export const ROLES = [
  'operator',
  'supervisor',
  'quality officer',
  'storekeeper',
  'trainer',
  'trainee',
  'auditor',
] as const;
export const roleSchema = z.enum(ROLES);
export type Role = z.infer<typeof roleSchema>;

export const personSchema = z.strictObject({
  id: z.string().regex(/^[a-z0-9][a-z0-9-]*$/, 'use lower-case letters, digits and hyphens'),
  name: z.string().min(1),
  role: roleSchema,
});
export type Person = z.infer<typeof personSchema>;

export const peopleSchema = z
  .strictObject({ kind: z.literal('people'), people: z.array(personSchema).min(1) })
  .superRefine((file, ctx) => {
    const ids = new Set<string>();
    file.people.forEach((person, i) => {
      if (ids.has(person.id))
        ctx.addIssue({ code: 'custom', path: ['people', i, 'id'], message: `${person.id} stands twice` });
      ids.add(person.id);
    });
  });
export type People = z.infer<typeof peopleSchema>;
