/** What may be asked of the lab book; the permission table stands beside the schema. */
import { z } from 'zod';
import type { Role } from '../scenario/people.schema.ts';
import { SHEET_IDS } from './sheet-ids.ts';

const reason = z
  .string({ error: 'give a reason in words' })
  .trim()
  .min(3, 'give a reason of at least 3 letters')
  .max(500, 'say it in 500 letters at most');
const remark = z.string().trim().max(500).default('');
const lot = z.string().regex(/^\d{6}-\d{1,3}$/, 'write the lot as its label says, such as 260512-3');
const sample = z.int('write the number of the sample').min(1).max(50);
const worksheet = z
  .string()
  .regex(/^T-\d{6}-\d{1,4}$/, 'write the number of the worksheet, such as T-260512-4');
const name = z.string().trim().min(2, 'write the name of a person').max(80);
const date = z.iso.date({ error: 'write the date as YYYY-MM-DD' });
const localTime = z
  .string()
  .regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d)?$/, 'write date and time as YYYY-MM-DDTHH:MM, the plant’s clock');
const massKg = (least: number) =>
  z
    .number({ error: 'write the mass in kilograms, as a number' })
    .min(least, least > 0 ? 'the mass must be more than nothing' : 'a mass is never negative')
    .max(500, 'a sample of more than 500 kg is not a sample: is it grams?');
const sha256 = z.string().regex(/^[0-9a-f]{64}$/, 'send the SHA-256 the photograph was kept under');
const readings = z.record(
  z.string().max(60),
  z.union([z.string().max(200), z.number(), z.null()], { error: 'a reading is a number or a few words' }),
);

export const SUBJECT_KINDS = ['bin', 'delivery', 'material'] as const;
const subject = z.strictObject({ kind: z.enum(SUBJECT_KINDS), id: z.string().trim().min(1).max(60) });

/** What a logged sample says of itself beyond who took it and from which batch. */
const portion = {
  massKg: massKg(0.001),
  container: z.string().trim().min(1, 'say what it is kept in').max(80),
  /** Left out: `<lot>/S<n>`. */
  label: z.string().trim().min(1).max(60).optional(),
  retainedKg: massKg(0),
  /** Left out: as long after it was taken as the plant keeps retained portions. */
  discardOn: date.optional(),
};

export const labCommandSchema = z.discriminatedUnion('do', [
  /** A sample that was taken when it fell due is in the lab's hands. Who, when and which batch come from the line. */
  z.strictObject({ do: z.literal('logSample'), lot, sample, ...portion, remark }),
  z.strictObject({
    do: z.literal('substituteSample'),
    lot,
    sample,
    source: z.enum(['bay', 'retained portion']),
    ofSample: sample.nullable().default(null),
    takenBy: name.optional(),
    ...portion,
    reason,
  }),
  z.strictObject({
    do: z.literal('correctSample'),
    lot,
    sample,
    changes: z
      .strictObject({
        massKg: massKg(0.001),
        container: z.string().trim().min(1).max(80),
        retainedKg: massKg(0),
        discardOn: date,
      })
      .partial(),
    reason,
  }),
  z.strictObject({ do: z.literal('handOverSample'), lot, sample, from: name, to: name, remark }),
  z.strictObject({ do: z.literal('discardRetained'), lot, sample, reason: reason.optional() }),
  z.strictObject({
    do: z.literal('enterWorksheet'),
    sheet: z.enum(SHEET_IDS),
    /** Either a sample of a lot, or what else the test was made on. */
    lot: lot.nullable().default(null),
    sample: sample.nullable().default(null),
    subject: subject.nullable().default(null),
    readings,
    testedBy: name.optional(),
    testedAt: localTime.optional(),
    balance: z.string().trim().max(60).default(''),
    simulated: z.boolean().default(false),
    remark,
  }),
  z.strictObject({ do: z.literal('correctWorksheet'), worksheet, changes: readings, reason }),
  z.strictObject({ do: z.literal('setWorksheetAside'), worksheet, reason }),
  z.strictObject({ do: z.literal('bringWorksheetBack'), worksheet, reason }),
  z.strictObject({
    do: z.literal('attachPhoto'),
    worksheet,
    sha256,
    caption: z.string().trim().max(200).default(''),
  }),
  z.strictObject({ do: z.literal('setPhotoAside'), worksheet, sha256, reason }),
  z.strictObject({ do: z.literal('orderRetest'), lot, sample, test: z.string().min(1).max(40), reason }),
  z.strictObject({ do: z.literal('holdLot'), lot, reason }),
  z.strictObject({ do: z.literal('liftHold'), lot, reason }),
  z.strictObject({
    do: z.literal('investigate'),
    lot,
    note: reason,
    batches: z.array(z.int().min(1).max(500)).max(100).default([]),
  }),
  z.strictObject({ do: z.literal('acceptLot'), lot, remark }),
  z.strictObject({ do: z.literal('rejectLot'), lot, reason }),
  z.strictObject({ do: z.literal('sendToWaste'), lot, reason }),
  z.strictObject({ do: z.literal('reworkLot'), lot, reason }),
  z.strictObject({ do: z.literal('askConcession'), lot, reason }),
  z.strictObject({ do: z.literal('grantConcession'), lot, reason }),
  z.strictObject({ do: z.literal('refuseConcession'), lot, reason }),
  z.strictObject({ do: z.literal('reopenDecision'), lot, reason }),
]);

export type LabCommand = z.infer<typeof labCommandSchema>;
export type LabCommandName = LabCommand['do'];

const LAB: readonly Role[] = ['quality officer', 'supervisor', 'trainer'];
const OFFICER: readonly Role[] = ['quality officer'];
const SAMPLERS: readonly Role[] = ['quality officer', 'operator', 'supervisor', 'trainee', 'trainer'];
const SUPERVISOR: readonly Role[] = ['supervisor'];

/** Who may ask what. A concession is a second person's: never the one who asked for it. */
export const LAB_PERMISSIONS: { readonly [K in LabCommandName]: readonly Role[] } = {
  logSample: SAMPLERS,
  substituteSample: LAB,
  correctSample: LAB,
  handOverSample: SAMPLERS,
  discardRetained: LAB,
  enterWorksheet: LAB,
  correctWorksheet: LAB,
  setWorksheetAside: LAB,
  bringWorksheetBack: LAB,
  attachPhoto: LAB,
  setPhotoAside: LAB,
  orderRetest: OFFICER,
  holdLot: LAB,
  liftHold: OFFICER,
  investigate: LAB,
  acceptLot: OFFICER,
  rejectLot: OFFICER,
  sendToWaste: ['quality officer', 'supervisor'],
  reworkLot: ['quality officer', 'supervisor'],
  askConcession: OFFICER,
  grantConcession: SUPERVISOR,
  refuseConcession: SUPERVISOR,
  reopenDecision: ['quality officer', 'supervisor'],
};
