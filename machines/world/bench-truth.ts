/**
 * What is really so in the mix a sample was taken from, kept beside the record for the simulated bench.
 *
 * Masses are the simulated plant's own; coating in boiling water, bond and break-up are teaching models, said so below.
 * Nothing of it is ever in the record, and no control sees it: a bench on a real plant has real balances.
 */
import type { Fact } from '../line/facts.ts';
import { passingPct } from '../mix/gradation.ts';
import { mixKgOf, type PugMill } from '../plant/mill-contents.ts';
import type { Plant } from '../plant/plant.ts';
import { truthOf } from '../plant/truth.ts';

/** True values by the property ids of the lab's results. */
export type TrueValues = { readonly [property: string]: number };

export type BenchTruths = {
  /** Of the newest batches, as they began to be discharged; oldest first. */
  readonly batches: readonly { readonly lot: string; readonly batch: number; readonly values: TrueValues }[];
  /** Of samples taken, by `<lot>/<n>`; oldest first. */
  readonly samples: { readonly [sample: string]: TrueValues };
  /** Of the last batch of each of the newest lots: what a sample from its bay gives. */
  readonly lots: { readonly [lot: string]: TrueValues };
};

export const NO_TRUTHS: BenchTruths = { batches: [], samples: {}, lots: {} };

const BATCHES_KEPT = 4;
/** Samples and lots kept: about two months of work. */
const SAMPLES_KEPT = 700;
const LOTS_KEPT = 100;

/** Sieves a bench may be asked about, mm. */
const SIEVES_MM = [
  25, 19, 16, 13.2, 12.5, 11.2, 9.5, 6.3, 4.75, 2.8, 2.36, 2, 1.18, 0.71, 0.6, 0.425, 0.3, 0.18, 0.15, 0.09,
  0.075,
];

const clip = (value: number, least: number, most: number): number => Math.min(most, Math.max(least, value));

/** Coated after boiling water, %: what is coated well keeps nearly all of it; an agent helps (teaching model). */
const boiledCoatedPct = ({ coatedShare, antiStripKg }: PugMill): number =>
  clip(100 * coatedShare - (antiStripKg > 0 ? 1 : 2.5) - 40 * Math.max(0, 0.95 - coatedShare), 0, 100);

/** Bond in shear, kg/cm²: grows with binder and suffers where stone is bare (teaching model, order of size of the limit). */
const bondKgCm2 = (residueMixPct: number, { coatedShare }: PugMill): number =>
  clip(2.6 + 0.45 * (residueMixPct - 4.5) - 5 * (1 - coatedShare), 0.2, 6);

/** Time to break up a cold cake, s: binder stiffens, solvent and water loosen (teaching model). */
const breakUpS = (residueMixPct: number, solventPct: number): number =>
  clip(20 + 9 * (residueMixPct - 4.5) - 6 * solventPct, 4, 120);

/** Finer than any balance, and short enough to be kept. */
const rounded = (values: TrueValues): TrueValues =>
  Object.fromEntries(Object.entries(values).map(([name, value]) => [name, Math.round(value * 1e5) / 1e5]));

/** True values of what lies in the mill. */
export const millTruth = (plant: Plant): TrueValues => {
  const { mill } = plant;
  const massKg = mixKgOf(mill);
  if (massKg <= 0 || mill.stoneKg <= 0) return {};
  const { mixGrading } = truthOf(plant);
  const waterKg = mill.absorbedKg + mill.freeKg + mill.boundKg;
  const residualBinderMixPct = (100 * mill.bitumenKg) / (mill.bitumenKg + mill.stoneKg);
  const solventPct = (100 * mill.solventKg) / massKg;
  const bond = bondKgCm2(residualBinderMixPct, mill);
  const breaksS = breakUpS(residualBinderMixPct, solventPct);
  return rounded({
    ...Object.fromEntries(SIEVES_MM.map((mm) => [`passing:${mm}`, passingPct(mixGrading, mm)])),
    residualBinderMixPct,
    residualBinderAggPct: (100 * mill.bitumenKg) / mill.stoneKg,
    waterPct: (100 * waterKg) / massKg,
    solventPct,
    moisturePct: (100 * waterKg) / (massKg - waterKg),
    mixMoisturePct: (100 * waterKg) / (massKg - waterKg),
    coatedPct: boiledCoatedPct(mill),
    wetCoatedPct: 100 * mill.coatedShare,
    immersionCoatedPct: clip(100 * mill.coatedShare - 0.5, 0, 100),
    countCoatedPct: 100 * mill.coatedShare,
    bondKgCm2: bond,
    // kg-force to MPa over one square centimetre: 9.80665 N / 100 mm².
    bondMPa: bond * 0.0980665,
    workable: breaksS <= 60 ? 1 : 0,
    breakUpS: breaksS,
  });
};

const newest = <T>(all: { readonly [key: string]: T }, key: string, value: T, kept: number) => {
  const { [key]: _before, ...rest } = all;
  const names = Object.keys(rest);
  const trimmed =
    names.length < kept ? rest : Object.fromEntries(Object.entries(rest).slice(names.length - kept + 1));
  return { ...trimmed, [key]: value };
};

/** What a tick's facts leave to be remembered; the same object when nothing does. */
export const rememberTruths = (
  before: BenchTruths,
  facts: readonly Fact[],
  plant: Plant,
  lotOfBatch: string | null,
): BenchTruths => {
  let now = before;
  for (const fact of facts) {
    if (fact.is === 'stepEntered' && fact.step === 'discharging' && lotOfBatch !== null) {
      const values = millTruth(plant);
      now = {
        ...now,
        batches: [...now.batches.slice(1 - BATCHES_KEPT), { lot: lotOfBatch, batch: fact.batch, values }],
        lots: newest(now.lots, lotOfBatch, values, LOTS_KEPT),
      };
    } else if (fact.is === 'sampleTaken') {
      const of = now.batches.find((one) => one.lot === fact.lot && one.batch === fact.batch);
      const values = of?.values ?? now.lots[fact.lot];
      if (values !== undefined)
        now = { ...now, samples: newest(now.samples, `${fact.lot}/${fact.sample}`, values, SAMPLES_KEPT) };
    }
  }
  return now;
};

/** True values of a sample, or of what lies of its lot in the bay; null when the simulated plant kept nothing of it. */
export const truthOfSample = (truths: BenchTruths, lot: string, sample: number): TrueValues | null =>
  truths.samples[`${lot}/${sample}`] ?? truths.lots[lot] ?? null;
