/**
 * The simulated plant: one plain value holding every item, advanced a tenth of a second at a time.
 *
 * Pure and seeded: the same plant, outputs and asks give the same next plant, also after a trip through
 * JSON. It is a teaching plant, not a model of any real one, and no safety-rated controller.
 */
import { AT_REST, type FieldAsk, type Outputs } from '../field/outputs.ts';
import type { PlantSpec } from '../scenario/plant.schema.ts';
import { massKgOf, NO_AGGREGATE } from './aggregate.ts';
import { stepAmbient } from './ambient.ts';
import { type AntiStripLine, stepAntiStrip } from './anti-strip.ts';
import { stepBelt } from './belt.ts';
import { booked } from './books.ts';
import { type Bucket, bucketBlocked, stepBucket } from './bucket.ts';
import { type ColdBin, stepColdBin, weathered } from './cold-bin.ts';
import { asked } from './create-plant.ts';
import { drumBlocked, stepDryer } from './dryer.ts';
import { type HoldingBin, holdingBinBlocked, stepHoldingBin } from './holding-bin.ts';
import { offered, stepHood } from './hood.ts';
import { randomAfter, stepInstruments } from './instruments.ts';
import { measured } from './measured.ts';
import { type Arrivals, mixKgOf, NO_ARRIVALS } from './mill-contents.ts';
import type { Plant } from './plant.types.ts';
import { millBlocked, stepPugMill } from './pug-mill.ts';
import { spread } from './random.ts';
import { stepTank, type Tank } from './tank.ts';
import { stepTankContents } from './tank-contents.ts';
import { stepThermalOil } from './thermal-oil.ts';
import { STEPS_PER_S } from './time.ts';
import { stepWater, type WaterLine } from './water.ts';
import { caught, hopperBlocked, stepWeighHopper, type WeighHopper } from './weigh-hopper.ts';

/** Raised whenever the same inputs would give other readings; a record names the one it was made with. */
export { PHYSICS_VERSION } from '../record/version.ts';
export { createPlant, type PlantStart } from './create-plant.ts';
export type { Plant } from './plant.types.ts';

const POWERLESS: Outputs = { ...AT_REST, hoodFan: false };

const BIN_GATES = ['bin1Gate', 'bin2Gate', 'bin3Gate', 'bin4Gate'] as const;
const STEPS_PER_MIN = 60 * STEPS_PER_S;

const stepBins = (plant: Plant, outputs: Outputs, airC: number, draw: number): readonly ColdBin[] => {
  const { spec } = plant;
  const blocked = hopperBlocked(plant.hopper, spec.hopper.capacityKg);
  const minute = plant.tick % STEPS_PER_MIN === 0;
  let bins: ColdBin[] | null = null;
  for (let i = 0; i < plant.bins.length; i += 1) {
    const bin = plant.bins[i] as ColdBin;
    const gate = outputs[BIN_GATES[i] as (typeof BIN_GATES)[number]];
    let next = stepColdBin(bin, spec.bins[i] as PlantSpec['bins'][number], gate, blocked, draw);
    if (minute) next = weathered(next, airC, plant.ambient.rainMmH, 60);
    if (next !== bin) {
      bins ??= plant.bins.slice();
      bins[i] = next;
    }
  }
  return bins ?? plant.bins;
};

const arrivalsOf = (
  hopper: WeighHopper,
  toMixer: boolean,
  holdingBin: HoldingBin,
  bucket: Bucket,
  water: WaterLine,
  antiStrip: AntiStripLine,
): Arrivals => {
  const fromHopper = toMixer ? hopper.gave : NO_AGGREGATE;
  if (
    fromHopper.stoneKg === 0 &&
    holdingBin.gave.stoneKg === 0 &&
    bucket.gaveEmulsionKg === 0 &&
    bucket.gaveCutbackKg === 0 &&
    water.gaveKg === 0 &&
    antiStrip.gaveKg === 0
  )
    return NO_ARRIVALS;
  return {
    fromHopper,
    fromHolding: holdingBin.gave,
    emulsionKg: bucket.gaveEmulsionKg,
    cutbackKg: bucket.gaveCutbackKg,
    binderC: bucket.tempC,
    waterKg: water.gaveKg,
    antiStripKg: antiStrip.gaveKg,
  };
};

/** Temperature of one binder drawn from its own tank and, where it was pumped into the wrong one, from the other. */
const drawnC = (own: Tank, ownKg: number, other: Tank, otherKg: number): number =>
  otherKg === 0 ? own.tempC : (own.tempC * ownKg + other.tempC * otherKg) / (ownKg + otherKg);

/**
 * The plant a tenth of a second later. The emergency stop is hard-wired: while it is pressed every motor
 * but the hood fan stops and every valve shuts, whatever the outputs say. Without supply everything does, as
 * every valve is shut by its spring; the control and its instruments go on from their battery.
 */
export const stepPlant = (before: Plant, outputsAsked: Outputs, asks: readonly FieldAsk[]): Plant => {
  let plant = before;
  for (let i = 0; i < asks.length; i += 1) plant = asked(plant, asks[i] as FieldAsk);
  const outputs = plant.faults.powerDip ? POWERLESS : plant.emergencyStop ? AT_REST : outputsAsked;
  const { spec, faults } = plant;
  const tick = plant.tick + 1;
  const random = randomAfter(plant.random, tick);

  const ambient = stepAmbient(plant.ambient, plant.weather, plant.startsAtMin, tick);
  const airC = ambient.tempC;

  const bins = stepBins(plant, outputs, airC, spread(random));
  let hopper = plant.hopper;
  let takenKg = 0;
  if (bins !== plant.bins)
    for (let i = 0; i < bins.length; i += 1) {
      const { gave } = bins[i] as ColdBin;
      if (gave.stoneKg === 0) continue;
      takenKg += massKgOf(gave);
      hopper = caught(hopper, gave);
    }
  const millFull = millBlocked(plant.mill, spec.mixer);
  const toMixer = outputs.hopperTo === 'mixer';
  const hopperOpen = toMixer ? !millFull : outputs.hopperTo === 'dryer' && !drumBlocked(plant.dryer);
  hopper = stepWeighHopper(hopper, hopperOpen, spec.hopper.dischargeKgS);

  const dryer = stepDryer(
    plant.dryer,
    spec.dryer,
    outputs,
    toMixer ? NO_AGGREGATE : hopper.gave,
    airC,
    faults.drumFanStopped,
    faults.fuelValveLeaking,
    faults.flameWillNotLight,
    holdingBinBlocked(plant.holdingBin, spec.holdingBin),
  );
  const holdingBin = stepHoldingBin(
    plant.holdingBin,
    spec.holdingBin,
    outputs.holdingGate,
    outputs.coolingFan,
    dryer.gave,
    airC,
    millFull,
  );

  const bucketFull = bucketBlocked(plant.bucket, spec.bucket.capacityKg);
  const feed = (opening: Outputs['emulsionFeed']): number =>
    bucketFull || opening === 'shut'
      ? 0
      : opening === 'full'
        ? spec.bucket.fillKgS
        : spec.bucket.fillDribbleKgS;
  const looked = tick % STEPS_PER_S === 0;
  const emulsionTank = stepTank(
    looked
      ? stepTankContents(
          plant.emulsionTank,
          spec.tanks.emulsion,
          plant.emulsion,
          plant.cutback,
          outputs.emulsionCoil,
        )
      : plant.emulsionTank,
    spec.tanks.emulsion,
    plant.emulsion,
    tick,
    feed(outputs.emulsionFeed),
    plant.oil.tempC,
    outputs.emulsionCoil ? plant.oil.flowShare : 0,
    outputs.emulsionStir,
    airC,
  );
  const cutbackTank = stepTank(
    looked
      ? stepTankContents(
          plant.cutbackTank,
          spec.tanks.cutback,
          plant.emulsion,
          plant.cutback,
          outputs.cutbackCoil,
        )
      : plant.cutbackTank,
    spec.tanks.cutback,
    plant.cutback,
    tick,
    feed(outputs.cutbackFeed),
    plant.oil.tempC,
    outputs.cutbackCoil ? plant.oil.flowShare : 0,
    outputs.cutbackStir,
    airC,
  );
  const oil = stepThermalOil(
    plant.oil,
    spec.oilHeater,
    outputs.oilPump,
    outputs.oilBurner,
    emulsionTank.coilW + cutbackTank.coilW,
    airC,
    faults.oilPumpStopped,
  );
  takenKg += emulsionTank.gaveKg + cutbackTank.gaveKg;
  const emulsionKg = emulsionTank.gaveKg - emulsionTank.gaveOtherKg + cutbackTank.gaveOtherKg;
  const cutbackKg = cutbackTank.gaveKg - cutbackTank.gaveOtherKg + emulsionTank.gaveOtherKg;
  const bucket = stepBucket(
    plant.bucket,
    spec.bucket.drainKgS,
    emulsionKg,
    drawnC(
      emulsionTank,
      emulsionTank.gaveKg - emulsionTank.gaveOtherKg,
      cutbackTank,
      cutbackTank.gaveOtherKg,
    ),
    cutbackKg,
    drawnC(cutbackTank, cutbackTank.gaveKg - cutbackTank.gaveOtherKg, emulsionTank, emulsionTank.gaveOtherKg),
    outputs.bucketValve,
    faults.binderValveLeaking,
    millFull,
  );
  const water = stepWater(plant.water, outputs.waterValve, spec.water.flowKgS);
  const antiStrip = stepAntiStrip(plant.antiStrip, outputs.antiStripPump, spec.antiStrip.flowKgS);
  takenKg += water.gaveKg + antiStrip.gaveKg;

  let { hood } = plant;
  if (tick % STEPS_PER_S === 0) hood = offered(hood, plant.cutback, plant.mill, mixKgOf(plant.mill), airC);
  hood = stepHood(hood, spec.hood, outputs.hoodFan && !faults.hoodFanStopped, plant.mill.solventKg);
  const mill = stepPugMill(
    plant.mill,
    spec.mixer,
    tick,
    arrivalsOf(hopper, toMixer, holdingBin, bucket, water, antiStrip),
    plant.emulsion,
    plant.cutback,
    hood.evaporatedKg,
    outputs.pugMill,
    outputs.mixerGate,
    airC,
  );
  const belt = stepBelt(plant.belt, outputs.belt, mill.gaveKg);
  const books = booked(
    plant.books,
    takenKg,
    dryer.steamKg + mill.steamKg,
    hood.evaporatedKg,
    mill.runOffKg,
    outputs.beltToBay,
    belt.gaveKg,
  );

  const next = {
    tick,
    spec,
    weather: plant.weather,
    startsAtMin: plant.startsAtMin,
    emulsion: plant.emulsion,
    cutback: plant.cutback,
    random,
    faults,
    emergencyStop: plant.emergencyStop,
    ambient,
    bins,
    hopper,
    dryer,
    holdingBin,
    emulsionTank,
    cutbackTank,
    oil,
    bucket,
    water,
    antiStrip,
    mill,
    hood,
    belt,
    books,
    instruments: plant.instruments,
    readings: plant.readings,
  };
  const shown = stepInstruments(plant.instruments, plant.readings, measured(next), tick, plant.random);
  next.instruments = shown.instruments;
  next.readings = shown.readings;
  return next;
};
