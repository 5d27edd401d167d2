/** What the scales must show for one batch and one dryer charge, in whole intervals, and what they may err by. */
import { TAGS, type Tag } from '../../field/tags.ts';
import { type BatchTargets, batchTargets, chargeTargets, dryTargets } from '../../mix/batch-targets.ts';
import { inServiceErrorKg, leastLoadKg } from '../../mix/oiml-r76.ts';
import { roundedTo, roundedToSum } from '../../mix/round-to-interval.ts';
import type { Mix } from '../../scenario/mix.schema.ts';
import type { BinSpec, PlantSpec } from '../../scenario/plant.schema.ts';
import { type Finding, figure } from './findings.ts';

/** Instruments of the plant's scales are taken as class III: usual for batching, common practice, no source. */
export const SCALE_CLASS = 'III';

export type Weight = {
  readonly what: string;
  /** Before rounding. */
  readonly exactKg: number;
  /** Whole intervals of the instrument. */
  readonly kg: number;
  readonly on: string;
  readonly intervalKg: number;
  /** In-service error limit of the scale at this load, kg; null for a meter, and beyond the scale's range. */
  readonly errorKg: number | null;
  readonly scale: 'hopper' | 'bucket' | 'holding bin' | 'meter';
};

export type WeightsSheet = {
  readonly targets: BatchTargets;
  readonly weights: readonly Weight[];
  /** One dryer charge, for mixes whose aggregate is dried first. */
  readonly charge: readonly Weight[];
  readonly totalKg: number;
  readonly findings: readonly Finding[];
};

const SCALES = {
  hopper: { tag: 'hopperKg', on: 'Aggregate weigh hopper' },
  bucket: { tag: 'bucketKg', on: 'Binder weigh bucket' },
  'holding bin': { tag: 'holdingBinKg', on: 'Holding bin, by loss' },
} as const satisfies { readonly [scale: string]: { readonly tag: Tag; readonly on: string } };

const onScale = (scale: keyof typeof SCALES, what: string, exactKg: number, kg: number): Weight => {
  const { tag, on } = SCALES[scale];
  const intervalKg = TAGS[tag].interval;
  return {
    what,
    exactKg,
    kg,
    on,
    intervalKg,
    errorKg: inServiceErrorKg(SCALE_CLASS, intervalKg, kg),
    scale,
  };
};

const metered = (what: string, tag: 'waterMeterL' | 'antiStripMeterKg', exactKg: number): Weight => ({
  what,
  exactKg,
  kg: roundedTo(exactKg, TAGS[tag].interval),
  on: tag === 'waterMeterL' ? 'Water meter' : 'Anti-strip meter',
  intervalKg: TAGS[tag].interval,
  errorKg: null,
  scale: 'meter',
});

type Part = { readonly bin: number; readonly name: string; readonly wetKg: number };

const aggregateWeights = (parts: readonly Part[]): Weight[] => {
  const rounded = roundedToSum(
    parts.map((part) => part.wetKg),
    TAGS.hopperKg.interval,
  );
  return parts.map((part, i) =>
    onScale('hopper', `Bin ${part.bin}, ${part.name}`, part.wetKg, rounded[i] as number),
  );
};

const capacityOf = (scale: Weight['scale'], plant: PlantSpec): number =>
  scale === 'hopper'
    ? plant.hopper.capacityKg
    : scale === 'bucket'
      ? plant.bucket.capacityKg
      : plant.holdingBin.capacityKg;

const findingsOf = (weights: readonly Weight[], loads: 'batch' | 'charge', plant: PlantSpec): Finding[] => {
  const found: Finding[] = [];
  const say = (weight: Finding['weight'], words: string) => found.push({ weight, part: 'weights', words });
  for (const { what, kg, on, intervalKg, errorKg, scale } of weights) {
    if (scale === 'meter') continue;
    const leastKg = leastLoadKg(SCALE_CLASS, intervalKg);
    if (kg < leastKg)
      say(
        'warn',
        `${what}: ${figure(kg)} kg lie below the least load of the ${on.toLowerCase()}, ${figure(leastKg)} kg (20 intervals, OIML R 76).`,
      );
    else if (errorKg === null)
      say('warn', `${what}: ${figure(kg)} kg lie beyond the range of the ${on.toLowerCase()}.`);
  }
  for (const scale of ['hopper', 'bucket'] as const) {
    const kg = weights.reduce((sum, one) => sum + (one.scale === scale ? one.kg : 0), 0);
    const capacityKg = capacityOf(scale, plant);
    if (kg > capacityKg)
      say(
        'stop',
        `One ${loads} puts ${figure(kg)} kg into the ${scale}, which holds ${figure(capacityKg)} kg: make it smaller.`,
      );
  }
  return found;
};

/** Weights of a mix on a plant with bins as moist as tested now. Throws RangeError when a bin is missing. */
export const weightsSheet = (mix: Mix, plant: PlantSpec, bins: readonly BinSpec[]): WeightsSheet => {
  const dried = mix.drying !== undefined;
  const targets = dried ? dryTargets(mix) : batchTargets(mix, bins);
  const aggregate = dried
    ? [
        onScale(
          'holding bin',
          'Dry aggregate',
          targets.dryKg,
          roundedTo(targets.dryKg, TAGS.holdingBinKg.interval),
        ),
      ]
    : aggregateWeights(targets.parts);
  const weights = [
    ...aggregate,
    onScale(
      'bucket',
      mix.binder.grade,
      targets.binderKg,
      roundedTo(targets.binderKg, TAGS.bucketKg.interval),
    ),
    ...(targets.waterKg > 0 ? [metered('Water', 'waterMeterL', targets.waterKg)] : []),
    ...(targets.antiStripKg > 0
      ? [metered('Anti-strip agent', 'antiStripMeterKg', targets.antiStripKg)]
      : []),
  ];
  const charge =
    mix.drying === undefined ? [] : aggregateWeights(chargeTargets(mix, bins, mix.drying.chargeKg).parts);
  return {
    targets,
    weights,
    charge,
    totalKg: roundedTo(
      weights.reduce((sum, one) => sum + one.kg, 0),
      0.01,
    ),
    findings: [
      ...findingsOf(weights, 'batch', plant),
      ...findingsOf(charge, 'charge', plant),
      ...(mix.batchKg > plant.mixer.capacityKg
        ? [
            {
              weight: 'stop' as const,
              part: 'weights' as const,
              words: `A batch of ${figure(mix.batchKg)} kg does not fit the mixer, which holds ${figure(plant.mixer.capacityKg)} kg.`,
            },
          ]
        : []),
    ],
  };
};
