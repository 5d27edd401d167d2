/** Benches of binder deliveries and of aggregate. */
import { volumeFactor } from '../../mix/volume-correction.ts';
import type { Readings } from '../worksheets/sheet.types.ts';
import type { Bench, Rng, Truth } from './bench.types.ts';
import { between, observed, read } from './draw.ts';
import { RELATIVE_SD, SD } from './precision.ts';

const density = (truth: Truth, rng: Rng, error: number, isEmulsion: boolean): Readings => {
  if (truth.densityKgM3 === undefined) return {};
  const densityC = isEmulsion ? 25 : 60;
  const column = isEmulsion ? 'emulsion' : truth.densityKgM3 >= 966 ? 'A' : 'B';
  const shown = observed(rng, truth.densityKgM3, SD.densityKgM3 * error);
  return { densityKgM3: read(shown * volumeFactor(column, densityC), 1), densityC };
};

/** An emulsion when the truth names Saybolt Furol seconds, else a cutback. */
export const binderDeliveryBench: Bench = (truth, rng, error, context) => {
  const { furolS } = truth;
  if (furolS !== undefined)
    return {
      kind: 'emulsion',
      emulsionGrade: 'SS-2',
      furolS: read(observed(rng, furolS, furolS * RELATIVE_SD.furol * error, 1), 1),
      furolC: 25,
      residuePct: read(observed(rng, truth.residuePct ?? 60, SD.emulsionResiduePct * error, 0, 100), 0.1),
      sieveResiduePct: read(between(rng, 0.01, 0.04), 0.01),
      ...density(truth, rng, error, true),
      endedAt: context.nowAt,
    };
  const viscosity = truth.viscosityMm2S ?? 1200;
  const shown = observed(rng, viscosity, viscosity * RELATIVE_SD.viscosity * error, 1);
  // The viscometer is chosen so that it flows for some 200 s.
  const viscometer = read(Math.max(0.001, shown / between(rng, 150, 300)), 0.001);
  const barometerKPa = read(between(rng, 97, 102), 0.1);
  const flashC = observed(rng, truth.flashC ?? 70, SD.flashC * error, -10, 200);
  return {
    kind: 'cutback',
    cutbackGrade: 'MC-800',
    viscometer,
    effluxS: read(shown / viscometer, 0.1),
    bathC: 60,
    flashC: read(flashC - 0.25 * (101.3 - barometerKPa), 1),
    barometerKPa,
    waterMl: read(observed(rng, truth.waterPct ?? 0, SD.waterPct * error, 0, 25), 0.01),
    waterSampleMl: 100,
    ...(truth.residueVolumePct === undefined
      ? {}
      : {
          residueVolumePct: read(
            observed(rng, truth.residueVolumePct, SD.cutbackResidueVolumePct * error, 0, 100),
            0.1,
          ),
        }),
    ...density(truth, rng, error, false),
    endedAt: context.nowAt,
  };
};

/** The test is the first of these that the truth names. */
const AGGREGATE: readonly (readonly [
  property: string,
  bench: (value: number, rng: Rng, error: number) => Readings,
])[] = [
  [
    'flakinessElongationPct',
    (value, rng, error) => {
      const shown = observed(rng, value, SD.flakinessElongationPct * error, 0, 150);
      // Half of it flaky, the rest elongated, as far as that can be.
      const flakyPct = shown / 2;
      const flakyG = read(2000 * (flakyPct / 100), 0.1);
      return {
        what: 'shape',
        shapeG: 2000,
        flakyG,
        elongatedG: read(((shown - flakyPct) / 100) * (2000 - flakyG), 0.1),
      };
    },
  ],
  [
    'impactPct',
    (value, rng, error) => {
      const impactG = read(between(rng, 320, 350), 0.1);
      const passingG = read(
        (impactG * observed(rng, value, value * RELATIVE_SD.impact * error, 0, 99)) / 100,
        0.1,
      );
      const lostG = read(between(rng, 0, 0.6), 0.1);
      return {
        what: 'impact',
        impactG,
        impactPassingG: passingG,
        impactRetainedG: read(impactG - passingG - lostG, 0.1),
        impactBlows: 15,
      };
    },
  ],
  [
    'abrasionPct',
    (value, rng, error) => ({
      what: 'abrasion',
      drumGrading: 'C',
      drumBalls: 8,
      drumTurns: 500,
      drumBeforeG: 5000,
      drumAfterG: read(
        5000 * (1 - observed(rng, value, value * RELATIVE_SD.abrasion * error, 0, 100) / 100),
        1,
      ),
    }),
  ],
  [
    'soundnessPct',
    (value, rng, error) => {
      const shown = observed(rng, value, SD.soundnessPct * error, 0, 99);
      return {
        what: 'soundness',
        salt: 'sodium',
        cycles: 5,
        'sharePct:9.5-4.75': 60,
        'sharePct:4.75-2.36': 40,
        'sharePct:2.36-1.18': 0,
        'soundBeforeG:9.5-4.75': 300,
        'soundBeforeG:4.75-2.36': 100,
        'soundAfterG:9.5-4.75': read(300 * (1 - shown / 100), 0.1),
        'soundAfterG:4.75-2.36': read(100 * (1 - shown / 100), 0.1),
      };
    },
  ],
  [
    'absorptionPct',
    (value, rng, error) => {
      const ovenDryG = read(between(rng, 1950, 2050), 0.1);
      const surfaceDryG = read(ovenDryG * (1 + observed(rng, value, SD.absorptionPct * error) / 100), 0.1);
      return { what: 'absorption', ovenDryG, surfaceDryG, inWaterG: read(ovenDryG * 0.63, 0.1) };
    },
  ],
  [
    'fracturedPct',
    (value, rng, error) => {
      const shown = observed(rng, value, SD.fracturedPct * error, 0, 100);
      return {
        what: 'fractured',
        faces: '1',
        fracturedG: read(5 * shown, 0.1),
        unfracturedG: read(5 * (100 - shown), 0.1),
      };
    },
  ],
  [
    'sandEquivalentPct',
    (value, rng, error) => {
      const one = (): number => observed(rng, value, SD.sandEquivalentPct * error, 1, 100);
      return {
        what: 'cleanliness',
        'clayMm:1': 100,
        'clayMm:2': 100,
        'sandMm:1': read(one(), 1),
        'sandMm:2': read(one(), 1),
      };
    },
  ],
];

export const aggregateBench: Bench = (truth, rng, error, context) => {
  const found = AGGREGATE.find(([property]) => truth[property] !== undefined);
  if (found === undefined) throw new Error('the truth names no property of aggregate');
  const [property, bench] = found;
  return { ...bench(truth[property] as number, rng, error), endedAt: context.nowAt };
};
