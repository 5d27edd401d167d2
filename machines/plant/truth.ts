/** What is really so in the plant, for tests, drills and reports: never shown to the controls. */
import { blendGrading, type Grading } from '../mix/gradation.ts';
import { massKgOf, moisturePctOf } from './aggregate.ts';
import { beltHeldKg } from './belt.ts';
import { bucketHeldKg } from './bucket.ts';
import { drumFuelLelPct } from './burner-flame.ts';
import { hoodLelPct } from './hood.ts';
import { mixKgOf } from './mill-contents.ts';
import type { Plant } from './plant.types.ts';
import { sharesOf } from './sizes.ts';

export type Truth = {
  /** Drawn from bins, tanks, water main and anti-strip store since the start, kg. */
  readonly takenKg: number;
  /** Laid by bay number; 0 is the waste skip. */
  readonly laidKg: readonly number[];
  readonly wasteKg: number;
  /** In hopper, drum, holding bin, bucket, mixer, on the belt and in the air between them. */
  readonly heldKg: number;
  readonly waterEvaporatedKg: number;
  readonly solventEvaporatedKg: number;
  readonly runOffKg: number;
  /** What the balance fails to close by: rounding alone. */
  readonly errorKg: number;
  readonly drumC: number;
  readonly drumMoisturePct: number;
  readonly holdingBinC: number;
  readonly holdingBinMoisturePct: number;
  readonly emulsionTankKg: number;
  readonly emulsionTankC: number;
  readonly cutbackTankKg: number;
  readonly cutbackTankC: number;
  /** The other binder mixed into a tank, its free water and its foam. */
  readonly emulsionTankOtherKg: number;
  readonly cutbackTankOtherKg: number;
  readonly cutbackTankWaterKg: number;
  readonly cutbackTankFoamM: number;
  /** Foamed or run over the top of both tanks. */
  readonly tanksSpilledKg: number;
  readonly ventLelPct: number;
  readonly oilC: number;
  readonly mixKg: number;
  readonly mixC: number;
  readonly mixFreeWaterPct: number;
  readonly solventInMixKg: number;
  readonly coatedPct: number;
  /** Grading of the stone in the mixer, from the gradings of the bins; empty when they have none. */
  readonly mixGrading: Grading;
  /** Residue (bitumen alone) as % of bitumen and dry stone in the mixer. */
  readonly mixResiduePct: number;
  readonly binMoisturePct: readonly number[];
  readonly hoodLelPct: number;
  readonly drumFuelLelPct: number;
  readonly dryerFlame: boolean;
  readonly fuelUsedKg: number;
  /** Times a dryer flame met an explosive vapour left in the drum. */
  readonly puffs: number;
};

/** The truth about a plant at one moment; units stand in the names. */
export const truthOf = (plant: Plant): Truth => {
  const { books, hopper, dryer, holdingBin, bucket, mill, belt, spec } = plant;
  const heldKg =
    massKgOf(hopper.falling) +
    massKgOf(hopper.heap) +
    massKgOf(dryer.load) +
    massKgOf(holdingBin.heap) +
    bucketHeldKg(bucket) +
    mixKgOf(mill) +
    beltHeldKg(belt);
  const allLaidKg = books.laidKg.reduce((sum, kg) => sum + kg, 0);
  return {
    takenKg: books.takenKg,
    laidKg: books.laidKg,
    wasteKg: books.laidKg[0] ?? 0,
    heldKg,
    waterEvaporatedKg: books.waterEvaporatedKg,
    solventEvaporatedKg: books.solventEvaporatedKg,
    runOffKg: books.runOffKg,
    errorKg:
      books.takenKg -
      allLaidKg -
      heldKg -
      books.waterEvaporatedKg -
      books.solventEvaporatedKg -
      books.runOffKg,
    drumC: dryer.load.tempC,
    drumMoisturePct: moisturePctOf(dryer.load),
    holdingBinC: holdingBin.heap.tempC,
    holdingBinMoisturePct: moisturePctOf(holdingBin.heap),
    emulsionTankKg: plant.emulsionTank.massKg,
    emulsionTankC: plant.emulsionTank.tempC,
    cutbackTankKg: plant.cutbackTank.massKg,
    cutbackTankC: plant.cutbackTank.tempC,
    emulsionTankOtherKg: plant.emulsionTank.otherKg,
    cutbackTankOtherKg: plant.cutbackTank.otherKg,
    cutbackTankWaterKg: plant.cutbackTank.waterKg,
    cutbackTankFoamM: plant.cutbackTank.foamM,
    tanksSpilledKg: plant.emulsionTank.spilledKg + plant.cutbackTank.spilledKg,
    ventLelPct: Math.max(plant.emulsionTank.ventLelPct, plant.cutbackTank.ventLelPct),
    oilC: plant.oil.tempC,
    mixKg: mixKgOf(mill),
    mixC: mill.tempC,
    mixFreeWaterPct: mill.stoneKg > 0 ? (100 * mill.freeKg) / mill.stoneKg : 0,
    solventInMixKg: mill.solventKg,
    coatedPct: 100 * mill.coatedShare,
    mixGrading: blendGrading(
      sharesOf(mill.sizes).map((share, i) => ({ share, grading: spec.bins[i]?.grading ?? [] })),
    ),
    mixResiduePct: mill.bitumenKg > 0 ? (100 * mill.bitumenKg) / (mill.bitumenKg + mill.stoneKg) : 0,
    binMoisturePct: plant.bins.map((bin) => moisturePctOf(bin.heap)),
    hoodLelPct: hoodLelPct(plant.hood, spec.hood.volumeM3),
    drumFuelLelPct: drumFuelLelPct(dryer.burner, spec.dryer.drumVolumeM3),
    dryerFlame: dryer.burner.mainLit || dryer.burner.pilotLit,
    fuelUsedKg: dryer.burner.fuelUsedKg,
    puffs: dryer.burner.puffs,
  };
};
