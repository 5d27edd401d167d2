/** A mix file: everything the line needs to know to make one version of one mix. */
import { z } from 'zod';
import { EMULSION_FREEZES_C, EMULSION_MAX_C } from './emulsion-limits.ts';

const id = z.string().regex(/^[a-z0-9][a-z0-9-]*$/, 'use lower-case letters, digits and hyphens');
const window = z
  .strictObject({ fromC: z.number(), toC: z.number() })
  .refine((w) => w.fromC < w.toC, { error: 'fromC must be below toC' });

type Window = z.infer<typeof window>;

/** Never above EMULSION_MAX_C, by its own heat or by the stone it falls on, and never frozen. */
const emulsionFindings = ({
  aggregateC,
  binderC,
}: {
  readonly aggregateC: Window;
  readonly binderC: Window;
}): { readonly at: readonly string[]; readonly message: string }[] => [
  ...(binderC.toC > EMULSION_MAX_C
    ? [{ at: ['binderC', 'toC'], message: `emulsion is never heated above ${EMULSION_MAX_C} °C` }]
    : []),
  ...(aggregateC.toC > EMULSION_MAX_C
    ? [{ at: ['aggregateC', 'toC'], message: `emulsion never meets stone above ${EMULSION_MAX_C} °C` }]
    : []),
  ...(binderC.fromC > EMULSION_FREEZES_C
    ? []
    : [
        {
          at: ['binderC', 'fromC'],
          message: `emulsion never freezes: give a temperature above ${EMULSION_FREEZES_C} °C`,
        },
      ]),
];

export const mixSchema = z
  .strictObject({
    kind: z.literal('mix'),
    id,
    version: z.int().positive(),
    name: z.string().min(1),
    family: z.enum(['emulsion', 'cutback']),
    /** Where the figures come from, in words. */
    basis: z.string().min(1),
    batchKg: z.number().min(100).max(900),
    lotKg: z.number().min(1000).default(10_000),
    /** Shares of dry aggregate by bin, %; must add to 100. */
    aggregates: z
      .array(z.strictObject({ bin: z.int().min(1).max(4), dryPct: z.number().positive().max(100) }))
      .min(1)
      .max(4),
    binder: z.strictObject({
      grade: z.string().min(1),
      /** % of dry aggregate by mass, as weighed (emulsion or cutback, not residue). */
      dosePct: z.number().positive().max(15),
      /** Residue of the binder as delivered, % by mass. */
      residueMassPct: z.number().min(30).max(100),
      densityAt15KgM3: z.number().min(800).max(1200),
      /** Two points for the viscosity line (ASTM D341), of the binder as delivered. */
      viscosity: z
        .tuple([
          z.strictObject({ tempC: z.number(), mm2S: z.number().positive() }),
          z.strictObject({ tempC: z.number(), mm2S: z.number().positive() }),
        ])
        .refine(([a, b]) => a.tempC < b.tempC && a.mm2S > b.mm2S, {
          error: 'the second point must be hotter and thinner than the first',
        }),
      /** Solvent share of the binder, % by mass; 0 for a binder that does not burn at use. */
      solventMassPct: z.number().min(0).max(45),
      flashC: z.number().nullable(),
    }),
    antiStripPctOfBinder: z.number().min(0).max(3).default(0),
    /** Total water wanted on dry aggregate before binder, %; what the aggregate already holds is taken off. */
    preWetPct: z.number().min(0).max(6).default(0),
    windows: z.strictObject({
      aggregateC: window,
      /** Cutback: dry aggregate is cooled to this before it is drawn, since the hot binder warms it again. */
      drawAtC: z.number().optional(),
      binderC: window,
      /** Tank temperature to hold. */
      tankSetC: z.number(),
    }),
    times: z.strictObject({
      preWetMixS: z.number().min(0).max(600),
      binderMixS: z.number().min(5).max(600),
      extraMixS: z.number().min(5).max(120),
      /** Mixing beyond this strips or breaks the coating: an alarm. */
      longestMixS: z.number().min(30).max(1800),
    }),
    /** Weighing limits around target. */
    tolerance: z.strictObject({
      aggregatePct: z.number().positive().max(10),
      binderPct: z.number().positive().max(10),
      waterPct: z.number().positive().max(25),
    }),
    /** How the aggregate is dried or warmed before; without it the aggregate is taken cold from its bins. */
    drying: z
      .strictObject({
        chargeKg: z.number().min(100).max(1000),
        outC: z.number().min(80).max(180),
      })
      .optional(),
    samplesPerLot: z.int().min(0).max(10).default(2),
    /** Id of the specification its lots are judged by: the file of that name in `specifications/`. */
    specification: id.optional(),
  })
  .superRefine((mix, ctx) => {
    const sum = mix.aggregates.reduce((total, part) => total + part.dryPct, 0);
    if (Math.abs(sum - 100) > 0.01)
      ctx.addIssue({
        code: 'custom',
        path: ['aggregates'],
        message: `dryPct must add to 100, they add to ${sum}`,
      });
    const bins = new Set(mix.aggregates.map((part) => part.bin));
    if (bins.size !== mix.aggregates.length)
      ctx.addIssue({ code: 'custom', path: ['aggregates'], message: 'each bin may stand once' });
    if (mix.family === 'cutback' && mix.drying === undefined)
      ctx.addIssue({
        code: 'custom',
        path: ['drying'],
        message: 'a cutback mix needs dried aggregate: give drying',
      });
    if (mix.family === 'cutback' && (mix.binder.solventMassPct === 0 || mix.binder.flashC === null))
      ctx.addIssue({
        code: 'custom',
        path: ['binder'],
        message: 'a cutback binder carries solvent: give solventMassPct above 0 and flashC',
      });
    if (mix.family === 'emulsion')
      for (const { at, message } of emulsionFindings(mix.windows))
        ctx.addIssue({ code: 'custom', path: ['windows', ...at], message });
  });

export type Mix = z.infer<typeof mixSchema>;
