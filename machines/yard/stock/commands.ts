/** What a person may ask of the stock: one schema a command, and who may give it. */
import { z } from 'zod';
import type { Role } from '../../scenario/people.schema.ts';

const reason = z.string().trim().min(3, 'give a reason of at least 3 letters').max(300);
const words = (max: number) => z.string().trim().max(max);
const tank = z.enum(['emulsion', 'cutback']);
const store = z.union([
  z.enum(['tank:emulsion', 'tank:cutback', 'additive:anti-strip']),
  z.templateLiteral(['bin:', z.int().min(1).max(4)]),
  z.templateLiteral(['pile:', z.int().min(1).max(4)]),
]);
const place = z.union([z.templateLiteral(['bay:', z.int().min(1).max(9)]), z.literal('bags')]);
const kg = z.number().positive().max(200_000);
const id = z.string().trim().min(1).max(60);

const measure = z.discriminatedUnion('how', [
  z.strictObject({ how: z.literal('weighed'), kg: z.number().min(0).max(200_000) }),
  z.strictObject({
    how: z.literal('cone'),
    /** Across the foot, m. */
    diameterM: z.number().positive().max(40),
    heightM: z.number().positive().max(15),
    looseKgM3: z.number().min(800).max(2400),
  }),
  z.strictObject({
    how: z.literal('windrow'),
    widthM: z.number().positive().max(40),
    heightM: z.number().positive().max(15),
    lengthM: z.number().positive().max(100),
    looseKgM3: z.number().min(800).max(2400),
  }),
]);

export const stockCommandSchema = z.discriminatedUnion('do', [
  z.strictObject({
    do: z.literal('registerDelivery'),
    material: z.enum(['emulsion', 'cutback', 'aggregate', 'anti-strip']),
    /** Of an aggregate: whose heap it is tipped on. */
    bin: z.int().min(1).max(4).optional(),
    ticket: z.string().trim().min(2, 'give the number of the ticket').max(40),
    supplier: words(80).default(''),
    kg,
    keepsUntil: z.iso.date().optional(),
    note: words(300).default(''),
  }),
  z.strictObject({
    do: z.literal('correctDelivery'),
    delivery: id,
    kg: kg.optional(),
    ticket: z.string().trim().min(2).max(40).optional(),
    keepsUntil: z.iso.date().nullable().optional(),
    reason,
  }),
  z.strictObject({ do: z.literal('cancelDelivery'), delivery: id, reason }),
  z.strictObject({
    do: z.literal('dipTank'),
    tank,
    dipMm: z.number().min(0).max(4000),
    tempC: z.number().min(-10).max(200),
    /** Given when the books are to be brought to the dip. */
    adjustReason: reason.optional(),
  }),
  z.strictObject({
    do: z.literal('countStore'),
    store,
    kg: z.number().min(0).max(500_000),
    how: words(80).default('counted'),
    adjustReason: reason.optional(),
  }),
  z.strictObject({
    do: z.literal('setRule'),
    store,
    leadDays: z.number().min(0).max(120),
    reserveDays: z.number().min(0).max(60),
    orderKg: z.number().positive().max(200_000),
    lossPct: z.number().min(0).max(20),
    keepsDays: z.int().min(1).max(3650).nullable(),
    reason,
  }),
  z.strictObject({ do: z.literal('stockTake'), place, measure, reason }),
  z.strictObject({
    do: z.literal('moveMix'),
    from: place,
    to: place,
    lot: id.optional(),
    kg,
    reason,
  }),
  z.strictObject({ do: z.literal('wasteMix'), from: place, lot: id, kg: kg.optional(), reason }),
  z.strictObject({ do: z.literal('reworkLot'), place, lot: id, reason }),
  z.strictObject({
    do: z.literal('fillBags'),
    from: place,
    mix: id.optional(),
    nominalKg: z.number().min(1).max(50).default(50),
    accuracyClass: z.number().min(0.2).max(2).default(1),
    bags: z.int().min(1).max(400),
    /** Of the sample: one reading a bag. The rest count as what the sample's mean says. */
    weighedKg: z.array(z.number().positive().max(60)).min(1).max(400),
  }),
  z.strictObject({
    do: z.literal('makeOutLoad'),
    mix: id,
    as: z.enum(['bulk', 'bags']).default('bulk'),
    vehicle: z.string().trim().min(2, 'name the vehicle').max(40),
    crew: words(80).default(''),
    list: words(60).default(''),
    route: words(60).default(''),
    for: z
      .array(
        z.strictObject({
          /** '<list>/<row>', or a name of one's own. Where and kg are taken from the patch list when left out. */
          patch: id,
          where: words(120).optional(),
          kg: z.number().positive().max(40_000).optional(),
        }),
      )
      .max(400)
      .default([]),
    /** Needed when no patches are named. */
    kg: kg.optional(),
  }),
  z.strictObject({ do: z.literal('cancelLoad'), load: id, reason }),
  z.strictObject({
    do: z.literal('weighOut'),
    load: id,
    tareKg: z.number().min(0).max(60_000),
    grossKg: z.number().positive().max(80_000),
    /** Where it is drawn; without it the rule looks through all bays. */
    place: place.optional(),
    bags: z.int().min(1).max(400).optional(),
  }),
  z.strictObject({
    do: z.literal('layPatch'),
    load: id,
    patch: id,
    where: words(120).optional(),
    kg,
    /** Compacted, mm; taken from the patch list when left out. */
    layers: z.array(z.number().min(5).max(300)).max(10).optional(),
  }),
  z.strictObject({ do: z.literal('reverseLaid'), load: id, n: z.int().positive(), reason }),
  z.strictObject({
    do: z.literal('returnMix'),
    load: id,
    to: z.union([place, z.literal('waste')]),
    kg: kg.optional(),
    reason,
  }),
  z.strictObject({ do: z.literal('reverseMovement'), movement: id, reason }),
]);

export type StockCommand = z.infer<typeof stockCommandSchema>;
export type StockCommandName = StockCommand['do'];

const YARD: readonly Role[] = ['storekeeper', 'operator', 'supervisor', 'trainee', 'trainer'];
const KEEPERS: readonly Role[] = ['storekeeper', 'supervisor', 'trainer'];

export const STOCK_PERMISSIONS: { readonly [K in StockCommandName]: readonly Role[] } = {
  registerDelivery: YARD,
  correctDelivery: KEEPERS,
  cancelDelivery: KEEPERS,
  dipTank: YARD,
  countStore: KEEPERS,
  setRule: KEEPERS,
  stockTake: KEEPERS,
  moveMix: YARD,
  wasteMix: KEEPERS,
  reworkLot: KEEPERS,
  fillBags: YARD,
  makeOutLoad: YARD,
  cancelLoad: YARD,
  weighOut: YARD,
  layPatch: YARD,
  reverseLaid: YARD,
  returnMix: YARD,
  reverseMovement: KEEPERS,
};
