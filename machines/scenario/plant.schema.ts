/** A plant file: the equipment, its sizes and its settings. */
import { z } from 'zod';

const id = z.string().regex(/^[a-z0-9][a-z0-9-]*$/, 'use lower-case letters, digits and hyphens');
const positive = z.number().positive();

const tank = z.strictObject({
  contents: z.enum(['emulsion', 'cutback']),
  grade: z.string().min(1),
  /** Horizontal cylinder. */
  diameterM: positive.max(4),
  lengthM: positive.max(15),
  startMassKg: z.number().min(0),
  startC: z.number(),
  densityAt15KgM3: z.number().min(800).max(1200),
  solventMassPct: z.number().min(0).max(45),
  /** Heating coil: its height above the bottom and its conductance to the contents. */
  coilTopM: positive.max(2),
  coilWPerK: positive,
  lossWPerK: positive,
  /** Product that must stand above the coil before it is heated, mm. */
  coilCoverMm: z.number().min(0).default(150),
  /** How this tank is heated, where that differs from the plant's oilHeater.kind; sets what its interlock asks for. */
  heater: z.enum(['thermal-oil', 'electric', 'fire-tube']).optional(),
});

export const plantSchema = z
  .strictObject({
    kind: z.literal('plant'),
    id,
    name: z.string().min(1),
    bins: z
      .array(
        z.strictObject({
          name: z.string().min(1),
          size: z.string().min(1),
          capacityKg: positive,
          startKg: z.number().min(0),
          /** As tested this morning: what the line corrects for. */
          testedMoisturePct: z.number().min(0).max(15),
          /** As it truly is in the simulated plant. */
          trueMoisturePct: z.number().min(0).max(15),
          /** Water the stone drinks, % of dry mass; the rest of its moisture is free. */
          absorptionPct: z.number().min(0).max(5),
          fullFlowKgS: positive,
          dribbleKgS: positive,
          /** Sieve analysis from the largest sieve to the smallest, % passing by dry mass. */
          grading: z
            .array(z.strictObject({ sieveMm: positive, passingPct: z.number().min(0).max(100) }))
            .refine(
              (points) =>
                points.every((point, i) => {
                  const above = points[i - 1];
                  return (
                    above === undefined ||
                    (point.sieveMm < above.sieveMm && point.passingPct <= above.passingPct)
                  );
                }),
              { error: 'write sieves from large to small; no more may pass a smaller sieve' },
            )
            .optional(),
        }),
      )
      .min(3)
      .max(4),
    hopper: z.strictObject({ capacityKg: positive, dischargeKgS: positive }),
    dryer: z.strictObject({
      burnerKw: positive,
      lowFireShare: positive.max(1),
      efficiency: positive.max(1),
      drumVolumeM3: positive,
      fanM3S: positive,
      casingWPerK: positive,
      dischargeKgS: positive,
      /** Volumes of air through drum and duct before lighting and after flame-out. */
      purgeVolumes: z.number().min(1).max(20),
      trialS: z.number().min(1).max(15),
      flameFailureS: z.number().min(0.5).max(4),
    }),
    holdingBin: z.strictObject({
      capacityKg: positive,
      fullFlowKgS: positive,
      dribbleKgS: positive,
      fanWPerK: positive,
      stillWPerK: positive,
    }),
    tanks: z.strictObject({ emulsion: tank, cutback: tank }),
    oilHeater: z.strictObject({
      kind: z.enum(['thermal-oil', 'electric', 'fire-tube']),
      powerKw: positive,
      setC: z.number().max(300),
      oilKg: positive,
      lossWPerK: positive,
    }),
    bucket: z.strictObject({
      capacityKg: positive.max(130),
      fillKgS: positive,
      fillDribbleKgS: positive,
      drainKgS: positive,
    }),
    water: z.strictObject({ flowKgS: positive }),
    antiStrip: z.strictObject({ flowKgS: positive }),
    mixer: z.strictObject({
      capacityKg: positive,
      idleA: positive,
      fullA: positive,
      dischargeKgS: positive,
      wallWPerK: positive,
    }),
    hood: z.strictObject({
      volumeM3: positive,
      fanM3S: positive,
      /** Flow that counts as extraction proved, m³/s. */
      provedM3S: positive,
      leakM3S: positive,
    }),
    bays: z
      .array(
        z.strictObject({
          id: z.int().min(1).max(9),
          name: z.string().min(1),
          capacityT: positive,
          /** Between its walls, and from the front to the back wall. */
          widthM: positive.max(40).optional(),
          depthM: positive.max(60).optional(),
          cover: z.enum(['roof', 'sheet', 'open']).optional(),
        }),
      )
      .min(1)
      .max(9),
    /** What the yard keeps beside the line when its books begin: a heap for each bin, in the plant's order, and additive. */
    yard: z
      .strictObject({
        pilesKg: z.array(z.number().min(0)).max(4),
        antiStripKg: z.number().min(0),
      })
      .optional(),
    /**
     * Proof tests of the interlock causes: the day all of them were last proved, and how often each is due where
     * the plant asks for more than the usual interval, days by cause ID. Without it nothing counts as proved, and
     * the vapour detector as out of calibration.
     */
    maintenance: z
      .strictObject({
        provedOn: z.iso.date(),
        everyDays: z
          .record(
            z.string().regex(/^(FI|FT|FB|TE|TC)-\d\d$/, 'use IDs of causes, such as FI-20'),
            z.int().min(1).max(3660),
          )
          .default({}),
      })
      .optional(),
    limits: z.strictObject({
      vapourWarnLelPct: positive,
      vapourTripLelPct: positive,
      /** Cutback never meets aggregate hotter than this. */
      aggregateMaxC: positive,
    }),
  })
  .superRefine((plant, ctx) => {
    if (plant.limits.vapourWarnLelPct >= plant.limits.vapourTripLelPct)
      ctx.addIssue({
        code: 'custom',
        path: ['limits', 'vapourWarnLelPct'],
        message: 'the warning must lie below the trip',
      });
    if (plant.hood.provedM3S >= plant.hood.fanM3S)
      ctx.addIssue({ code: 'custom', path: ['hood', 'provedM3S'], message: 'must lie below fanM3S' });
    for (const name of ['emulsion', 'cutback'] as const)
      if (plant.tanks[name].contents !== name)
        ctx.addIssue({ code: 'custom', path: ['tanks', name, 'contents'], message: `must be ${name}` });
  });

export type PlantSpec = z.infer<typeof plantSchema>;
export type TankSpec = PlantSpec['tanks']['emulsion'];
export type BinSpec = PlantSpec['bins'][number];
