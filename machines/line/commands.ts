/** What a person may ask of the line. One schema a command; the envelope says who and with which id. */
import { z } from 'zod';
import { EQUIPMENT_FAULTS } from '../field/outputs.ts';
import { TAG_NAMES } from '../field/tags.ts';
import type { Role } from '../scenario/people.schema.ts';
import { skillSchema } from '../scenario/shift.schema.ts';

const reason = z.string().trim().min(3, 'give a reason of at least 3 letters').max(300);
const alarm = z.string().min(1).max(60);
const tank = z.enum(['emulsion', 'cutback']);
/** ID of a requirement of the interlocks, e.g. FI-20 or TE-01. */
const cause = z.string().regex(/^(FI|FT|FB|TE|TC)-\d\d$/, 'write the ID of a cause, such as FI-20');
const lotId = z.string().min(3).max(20);
const sha256 = z.string().regex(/^[0-9a-f]{64}$/);
const plain = <N extends string>(name: N) => z.strictObject({ do: z.literal(name) });

export const commandSchema = z.discriminatedUnion('do', [
  /** The seat: who has the controls. */
  plain('takeControls'),
  plain('askForControls'),
  z.strictObject({ do: z.literal('handOver'), to: z.string().min(1).max(60) }),
  plain('releaseControls'),
  plain('declineRequest'),
  /** The batch, in ISA-88 words. */
  z.strictObject({ do: z.literal('start'), batches: z.int().min(1).max(200).default(1) }),
  plain('hold'),
  plain('restart'),
  plain('stop'),
  plain('abort'),
  plain('reset'),
  plain('confirmLook'),
  plain('confirmEmpty'),
  plain('extendMix'),
  plain('topUp'),
  z.strictObject({ do: z.literal('zeroScale'), scale: z.enum(['hopper', 'bucket']) }),
  z.strictObject({ do: z.literal('acceptWeight'), reason }),
  z.strictObject({ do: z.literal('dump'), reason }),
  /** The drying campaign and its burner. */
  plain('acknowledgeCautions'),
  z.strictObject({ do: z.literal('startCampaign'), batches: z.int().min(1).max(20) }),
  plain('lightBurner'),
  plain('putOutBurner'),
  plain('endCampaign'),
  plain('resetBurner'),
  plain('purgeDrum'),
  plain('resetTrip'),
  z.strictObject({ do: z.literal('heatTank'), tank, on: z.boolean() }),
  plain('resetHeater'),
  /** Alarms, in ISA-18.2 words. */
  z.strictObject({ do: z.literal('acknowledge'), alarm }),
  z.strictObject({ do: z.literal('shelve'), alarm, minutes: z.int().min(1).max(120), reason }),
  z.strictObject({ do: z.literal('unshelve'), alarm }),
  z.strictObject({ do: z.literal('outOfService'), alarm, reason }),
  z.strictObject({ do: z.literal('returnToService'), alarm }),
  /** The rest of the work. */
  /** Left out: the first one that is due. */
  z.strictObject({
    do: z.literal('takeSample'),
    lot: lotId.optional(),
    sample: z.int().min(1).max(50).optional(),
  }),
  /** The sealed sampling plan of a lot; given by the plan itself and by no person. */
  z.strictObject({
    do: z.literal('commitPlan'),
    lot: lotId,
    specification: z.string().min(1).max(60),
    commitment: sha256,
    samples: z
      .array(
        z.strictObject({
          n: z.int().min(1).max(50),
          test: z.string().min(1).max(40),
          part: z.int().min(1).max(50),
          ofParts: z.int().min(1).max(50),
        }),
      )
      .max(50),
  }),
  z.strictObject({
    do: z.literal('callSample'),
    lot: lotId,
    n: z.int().min(1).max(50),
    atKg: z.number().min(0),
  }),
  z.strictObject({
    do: z.literal('openPlan'),
    lot: lotId,
    nonce: sha256,
    /** Tonnages in the order of the samples, kg. */
    atKg: z.array(z.number().min(0)).max(50),
  }),
  z.strictObject({ do: z.literal('chooseOrder'), order: z.int().min(1).max(50) }),
  z.strictObject({ do: z.literal('refillBin'), bin: z.int().min(1).max(4) }),
  /** A newer moisture test of a bin, % of dry mass: batches weighed from now on are corrected by it. */
  z.strictObject({
    do: z.literal('setMoisture'),
    bin: z.int().min(1).max(4),
    pct: z.number().min(0).max(15),
    /** The worksheet or test it comes from. */
    source: z.string().trim().min(2, 'say which test it comes from').max(60),
  }),
  z.strictObject({ do: z.literal('standIn'), skill: skillSchema.nullable() }),
  z.strictObject({
    do: z.literal('injectFault'),
    target: z.union([
      z.strictObject({
        tag: z.enum(TAG_NAMES as [string, ...string[]]),
        fault: z.enum(['stuck', 'dead', 'noisy', 'drift']),
        perHour: z.number().default(0),
      }),
      z.strictObject({ equipment: z.enum(EQUIPMENT_FAULTS) }),
    ]),
  }),
  z.strictObject({
    do: z.literal('clearFault'),
    target: z.union([
      z.strictObject({ tag: z.enum(TAG_NAMES as [string, ...string[]]) }),
      z.strictObject({ equipment: z.enum(EQUIPMENT_FAULTS) }),
    ]),
  }),
  plain('emergencyStop'),
  plain('releaseEmergencyStop'),
  /** Maintenance: proof tests, inhibits for testing (a second person confirms), permits for hot work. */
  z.strictObject({
    do: z.literal('proveCause'),
    cause,
    result: z.enum(['passed', 'failed']),
    remark: z.string().trim().max(300).default(''),
  }),
  z.strictObject({ do: z.literal('inhibitCause'), cause, minutes: z.int().min(1).max(60), reason }),
  z.strictObject({ do: z.literal('confirmInhibit'), cause }),
  z.strictObject({ do: z.literal('liftInhibit'), cause }),
  z.strictObject({
    do: z.literal('openHotWork'),
    where: z.string().trim().min(3, 'say where, in at least 3 letters').max(120),
    reason,
    minutes: z.int().min(5).max(240),
  }),
  plain('closeHotWork'),
  /** What comes into a tank, and what is known to be in it. */
  z.strictObject({
    do: z.literal('receiveDelivery'),
    tank,
    /** What the delivery ticket says. */
    product: tank,
    kg: z.number().min(100).max(30_000),
    ticket: z.string().trim().min(2, 'give the number of the ticket').max(40),
  }),
  z.strictObject({ do: z.literal('confirmDelivery'), tank, product: tank }),
  z.strictObject({ do: z.literal('endDelivery'), tank }),
  z.strictObject({ do: z.literal('identifyTank'), tank, product: tank, reason }),
  /** What the next shift must know, in the words of whoever closes; asked for, not demanded. */
  z.strictObject({ do: z.literal('endShift'), notes: z.string().trim().max(4000).optional() }),
]);

export type Command = z.infer<typeof commandSchema>;
export type CommandName = Command['do'];

export const envelopeSchema = z.strictObject({
  /** Chosen by the sender; the same id is carried out once. */
  id: z.string().min(8).max(64),
  command: commandSchema,
});

/** A command with who gave it, as the line sees it and the record keeps it. */
export type CommandEnvelope = {
  readonly id: string;
  readonly by: { readonly person: string; readonly role: Role | 'line'; readonly console: string };
  readonly command: Command;
};
