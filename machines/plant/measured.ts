/** The true value behind each instrument, in the order of the tags. */
import { massKgOf } from './aggregate.ts';
import { bucketValveProvedShut } from './bucket.ts';
import { flameSeen, fuelProvedShut } from './burner-flame.ts';
import { type ColdBin, levelPctOf } from './cold-bin.ts';
import { hasFault, type Instruments } from './instruments.ts';
import type { Plant } from './plant.types.ts';
import { motorA } from './pug-mill.ts';
import { oilFlameSeen, oilFlowProved } from './thermal-oil.ts';

type Before = Omit<Plant, 'instruments' | 'readings'> & { readonly instruments?: Instruments };

const levelPct = (plant: Before, place: number): number => {
  const bin = plant.bins[place] as ColdBin | undefined;
  const spec = plant.spec.bins[place];
  return bin === undefined || spec === undefined ? 0 : levelPctOf(bin, spec);
};

/** A detector that has died says so; one that is stuck, drifting or noisy does not know it. */
const detectorOk = (plant: Before): number =>
  plant.instruments !== undefined && hasFault(plant.instruments, 'vapourLelPct', 'dead') ? 0 : 1;

/** Emulsion is brown, cutback black; nothing to see without a truck. */
const truckBlackPct = (plant: Before): number => {
  const delivery = plant.emulsionTank.delivery ?? plant.cutbackTank.delivery;
  return delivery === null ? 0 : delivery.product === 'cutback' ? 100 : 15;
};

/** True values by place of the tag, each in the unit of its tag. */
export const measured = (plant: Before): number[] => {
  const { dryer, holdingBin, mill, hopper } = plant;
  const airC = plant.ambient.tempC;
  const stoneKg = mill.stoneKg;
  const ofEmulsion = mill.bitumenKg > 0 ? mill.emulsionBitumenKg / mill.bitumenKg : 0;
  return [
    levelPct(plant, 0),
    levelPct(plant, 1),
    levelPct(plant, 2),
    levelPct(plant, 3),
    hopper.cell.kg,
    hopper.heap.stoneKg > 0 ? hopper.heap.tempC : airC,
    dryer.load.tempC,
    dryer.exhaustC,
    dryer.airM3S,
    flameSeen(dryer.burner) ? 1 : 0,
    fuelProvedShut(dryer.burner) ? 1 : 0,
    holdingBin.cell.kg,
    massKgOf(holdingBin.heap) > 0 ? holdingBin.heap.tempC : airC,
    plant.emulsionTank.tempC,
    (plant.emulsionTank.seen.dipM + plant.emulsionTank.foamM) * 1000,
    plant.cutbackTank.tempC,
    (plant.cutbackTank.seen.dipM + plant.cutbackTank.foamM) * 1000,
    plant.oil.tempC,
    oilFlowProved(plant.oil) ? 1 : 0,
    oilFlameSeen(plant.oil) ? 1 : 0,
    plant.bucket.cell.kg,
    bucketValveProvedShut(plant.bucket) ? 1 : 0,
    plant.water.totalKg,
    plant.antiStrip.totalKg,
    motorA(mill, plant.spec.mixer),
    mill.tempC,
    plant.hood.flowM3S,
    plant.hood.detectorLelPct,
    detectorOk(plant),
    Math.max(plant.emulsionTank.ventLelPct, plant.cutbackTank.ventLelPct),
    plant.cutbackTank.waterMm,
    plant.faults.powerDip ? 0 : 1,
    plant.emergencyStop ? 1 : 0,
    airC,
    plant.ambient.rainMmH,
    mill.bitumenKg > 0 ? 100 * mill.coatedShare : 0,
    mill.bitumenKg > 0 ? 100 * (ofEmulsion * mill.brokenShare + (1 - ofEmulsion) * mill.coatedShare) : 0,
    truckBlackPct(plant),
    stoneKg > 1 ? (100 * mill.freeKg) / stoneKg : 0,
  ];
};
