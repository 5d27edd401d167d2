/** What may be asked of the patches book, and by whom. */
import { z } from 'zod';
import { basisSchema } from './basis.schema.ts';
import { MOST_PATCHES } from './limits.ts';
import { COMPACTED_BY, SURFACES } from './patch.types.ts';

export { MOST_PATCHES } from './limits.ts';
export { PATCHES_PERMISSIONS } from './permissions.ts';

const reason = z.string().trim().min(3).max(300);
const listId = z.string().regex(/^PL-\d{6}-\d{1,4}$/, 'use the name of a patch list, such as PL-260414-1');
const orderId = z.string().regex(/^PO-\d{6}-\d{1,4}$/, 'use the name of an order, such as PO-260414-1');
const row = z.int().min(1).max(MOST_PATCHES);

/** Words as a person wrote them, on one line: control signs become spaces. */
const words = (most: number) =>
  z
    .string()
    .transform((text) => text.replace(/\p{Cc}+/gu, ' ').trim())
    .pipe(z.string().max(most));

/** Sizes are judged by the book itself, so that every row is answered in words. */
export const measuredSchema = z.strictObject({
  place: words(120),
  route: words(60).default(''),
  lengthM: z.number(),
  widthM: z.number(),
  depthMm: z.number(),
  baseReached: z.boolean(),
  compactedBy: z.enum(COMPACTED_BY),
  surface: z.enum(SURFACES).default('bituminous'),
});

export const patchesCommandSchema = z.discriminatedUnion('do', [
  z.strictObject({
    do: z.literal('takeList'),
    name: words(120).pipe(z.string().min(1)),
    source: z.strictObject({
      how: z.enum(['typed', 'pasted', 'file']),
      file: z.string().max(200).nullable(),
      leftOut: z.int().min(0).max(1_000_000),
    }),
    patches: z
      .array(measuredSchema)
      .min(1)
      .max(MOST_PATCHES, {
        error: `A list holds at most ${MOST_PATCHES} patches: split it, for instance by route.`,
      }),
  }),
  z.strictObject({ do: z.literal('changePatch'), list: listId, row, now: measuredSchema, reason }),
  z.strictObject({ do: z.literal('takeOutPatch'), list: listId, row, reason }),
  z.strictObject({ do: z.literal('putBackPatch'), list: listId, row, reason }),
  z.strictObject({ do: z.literal('takeBackList'), list: listId, reason }),
  z.strictObject({ do: z.literal('finishList'), list: listId }),
  z.strictObject({ do: z.literal('changeBasis'), now: basisSchema, reason }),
  z.strictObject({
    do: z.literal('makeOrder'),
    lists: z.array(listId).min(1).max(20),
    route: z.string().max(60).nullable(),
    mix: z.string().min(1).max(60),
    neededBy: z.iso.date(),
    rounding: z.enum(['batches', 'lots']),
    useStock: z.boolean(),
  }),
  z.strictObject({
    do: z.literal('changeOrder'),
    order: orderId,
    neededBy: z.iso.date(),
    batches: z.int().min(1).max(2000),
    reason,
  }),
  z.strictObject({ do: z.literal('withdrawOrder'), order: orderId, reason }),
  z.strictObject({ do: z.literal('putBackOrder'), order: orderId, reason }),
  z.strictObject({ do: z.literal('deliverOrder'), order: orderId }),
  z.strictObject({ do: z.literal('arrangeWeek'), orders: z.array(orderId).max(50).nullable(), reason }),
  z.strictObject({ do: z.literal('setHours'), date: z.iso.date(), hours: z.number().min(0).max(14), reason }),
]);
export type PatchesCommand = z.infer<typeof patchesCommandSchema>;
