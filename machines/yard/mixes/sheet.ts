/** A mix worked out whole: blend, binder, weights, temperatures, cost, and what it is sensitive to. Computed live. */
import { dryingHeat, KJ_PER_KWH } from '../../mix/drying-heat.ts';
import type { Mix } from '../../scenario/mix.schema.ts';
import type { BinSpec, PlantSpec } from '../../scenario/plant.schema.ts';
import type { Specification } from '../../scenario/specification.schema.ts';
import { bandOf, rangeOf } from './band.ts';
import { type BinderSheet, binderSheet } from './binder-sheet.ts';
import type { BinFigures } from './bins.ts';
import type { BandSieve } from './blend-problem.ts';
import { type BlendSheet, blendSheet } from './blend-sheet.ts';
import type { Conditions } from './conditions.ts';
import { type CostSheet, costSheet } from './cost-sheet.ts';
import type { Factors } from './factors.ts';
import type { Finding } from './findings.ts';
import { fitsPlant } from './fits-plant.ts';
import { type Sensitivity, sensitivities } from './sensitivity.ts';
import { type TemperaturesSheet, temperaturesSheet } from './temperatures-sheet.ts';
import { type WeightsSheet, weightsSheet } from './weights-sheet.ts';

export type MixSheet = {
  /** Of the blend in the cold bins, % of dry mass, as tested. */
  readonly moisturePct: number;
  readonly blend: BlendSheet;
  readonly binder: BinderSheet;
  readonly weights: WeightsSheet;
  readonly temperatures: TemperaturesSheet;
  readonly cost: CostSheet;
  readonly sensitivities: readonly Sensitivity[];
  /** Of all parts: what stops it first, then what to look at, then what is good to know. */
  readonly findings: readonly Finding[];
};

export type SheetInput = {
  readonly mix: Mix;
  readonly plant: PlantSpec;
  readonly bins: readonly BinFigures[];
  readonly specification: Specification | null;
  /** Band in place of the specification's, where a person typed one. */
  readonly band?: readonly BandSieve[];
  readonly conditions: Conditions;
  readonly factors: Factors;
};

const WEIGHTS: readonly Finding['weight'][] = ['stop', 'warn', 'note'];

/** The plant's bins with the moisture that is known now. */
export const binsNow = (plant: PlantSpec, bins: readonly BinFigures[]): BinSpec[] =>
  plant.bins.map((spec, i) => ({
    ...spec,
    testedMoisturePct: bins.find((one) => one.bin === i + 1)?.moisturePct ?? spec.testedMoisturePct,
  }));

const missingBins = (mix: Mix, plant: PlantSpec): string[] =>
  mix.aggregates.some((part) => part.bin > plant.bins.length) ? fitsPlant(mix, plant) : [];

/** The whole sheet, or why it cannot be worked out. Never throws for a mix that its schema lets through. */
export const mixSheet = (
  input: SheetInput,
):
  | { readonly ok: true; readonly sheet: MixSheet }
  | { readonly ok: false; readonly because: readonly string[] } => {
  const { mix, plant, bins, specification, conditions, factors } = input;
  const because = missingBins(mix, plant);
  if (because.length > 0) return { ok: false, because };
  const now = binsNow(plant, bins);
  const moisturePct = mix.aggregates.reduce(
    (sum, part) => sum + (part.dryPct / 100) * (now[part.bin - 1] as BinSpec).testedMoisturePct,
    0,
  );
  const band = input.band ?? (specification === null ? [] : bandOf(specification));
  const blend = blendSheet(mix, bins, band);
  const asked =
    specification === null
      ? { from: null, to: null }
      : rangeOf(specification, 'residualBinderMixPct', blend.absorptionPct);
  const binder = binderSheet(mix, blend, mix.drying === undefined ? moisturePct : 0, asked, factors);
  const weights = weightsSheet(mix, plant, now);
  const temperatures = temperaturesSheet(mix, plant, weights, moisturePct, conditions, factors);
  const cost = costSheet(mix, plant, bins, weights, moisturePct, conditions, factors);
  const kwhPerDryT = (moisture: number): number =>
    mix.drying === undefined
      ? 0
      : (1000 * dryingHeat(1, moisture, conditions.stoneC, mix.drying.outC, plant.dryer.efficiency).firedKj) /
        KJ_PER_KWH;
  const findings = [blend, binder, weights, temperatures].flatMap((part) => part.findings);
  return {
    ok: true,
    sheet: {
      moisturePct,
      blend,
      binder,
      weights,
      temperatures,
      cost,
      sensitivities: sensitivities(mix, bins, weights, kwhPerDryT, moisturePct),
      findings: WEIGHTS.flatMap((weight) => findings.filter((one) => one.weight === weight)),
    },
  };
};
