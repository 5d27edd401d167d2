/**
 * The simulated plant: one plain value holding every item, advanced a tenth of a second at a time.
 *
 * Pure and seeded: the same plant, outputs and asks give the same next plant, also after a trip through
 * JSON. It is a teaching plant, not a model of any real one, and no safety-rated controller.
 */
import {
  AT_REST,
  EQUIPMENT_FAULTS,
  type EquipmentFault,
  type FieldAsk,
  type Outputs,
} from '../field/outputs.ts';
import type { Readings } from '../field/tags.ts';
import type { Mix } from '../scenario/mix.schema.ts';
import type { PlantSpec } from '../scenario/plant.schema.ts';
import type { Weather } from '../scenario/shift.schema.ts';
import { massKgOf, NO_AGGREGATE } from './aggregate.ts';
import { type Ambient, ambientAt, stepAmbient } from './ambient.ts';
import { type AntiStripLine, NO_ANTI_STRIP, stepAntiStrip } from './anti-strip.ts';
import { type Belt, EMPTY_BELT, stepBelt } from './belt.ts';
import { type Binder, binderIn } from './binder.ts';
import { type Books, booked, openBooks } from './books.ts';
import { type Bucket, bucketBlocked, EMPTY_BUCKET, stepBucket } from './bucket.ts';
import { type ColdBin, createColdBin, refilled, stepColdBin, weathered } from './cold-bin.ts';
import { createDryer, type Dryer, drumBlocked, stepDryer } from './dryer.ts';
import { EMPTY_HOLDING_BIN, type HoldingBin, holdingBinBlocked, stepHoldingBin } from './holding-bin.ts';
import { createHood, type Hood, offered, stepHood } from './hood.ts';
import {
  createInstruments,
  type Instruments,
  randomAfter,
  stepInstruments,
  withFault,
} from './instruments.ts';
import { measured } from './measured.ts';
import {
  type Arrivals,
  createPugMill,
  millBlocked,
  mixKgOf,
  NO_ARRIVALS,
  type PugMill,
  stepPugMill,
} from './pug-mill.ts';
import { firstRandom, spread } from './random.ts';
import { createTank, stepTank, type Tank } from './tank.ts';
import { createThermalOil, stepThermalOil, type ThermalOil } from './thermal-oil.ts';
import { STEPS_PER_S } from './time.ts';
import { NO_WATER, stepWater, type WaterLine } from './water.ts';
import { caught, EMPTY_HOPPER, hopperBlocked, stepWeighHopper, type WeighHopper } from './weigh-hopper.ts';

/** Raised whenever the same inputs would give other readings; a record names the one it was made with. */
export const PHYSICS_VERSION = 1;

export type Plant = {
  readonly tick: number;
  readonly spec: PlantSpec;
  readonly weather: Weather;
  readonly startsAtMin: number;
  readonly emulsion: Binder;
  readonly cutback: Binder;
  readonly random: number;
  readonly faults: { readonly [K in EquipmentFault]: boolean };
  readonly emergencyStop: boolean;
  readonly ambient: Ambient;
  readonly bins: readonly ColdBin[];
  readonly hopper: WeighHopper;
  readonly dryer: Dryer;
  readonly holdingBin: HoldingBin;
  readonly emulsionTank: Tank;
  readonly cutbackTank: Tank;
  readonly oil: ThermalOil;
  readonly bucket: Bucket;
  readonly water: WaterLine;
  readonly antiStrip: AntiStripLine;
  readonly mill: PugMill;
  readonly hood: Hood;
  readonly belt: Belt;
  readonly books: Books;
  readonly instruments: Instruments;
  readonly readings: Readings;
};

export type PlantStart = {
  readonly spec: PlantSpec;
  readonly mixes: readonly Mix[];
  readonly weather: Weather;
  /** Minutes after midnight. */
  readonly startsAtMin: number;
  readonly seed: number;
};

const BIN_GATES = ['bin1Gate', 'bin2Gate', 'bin3Gate', 'bin4Gate'] as const;
const STEPS_PER_MIN = 60 * STEPS_PER_S;

/** A plant at the start of a shift: everything shut, still and empty except bins and tanks. */
export const createPlant = (start: PlantStart): Plant => {
  const { spec, weather, startsAtMin } = start;
  const ambient = ambientAt(weather, startsAtMin, 0);
  const airC = ambient.tempC;
  const emulsion = binderIn(spec.tanks.emulsion, start.mixes);
  const cutback = binderIn(spec.tanks.cutback, start.mixes);
  const silent = {
    tick: 0,
    spec,
    weather,
    startsAtMin,
    emulsion,
    cutback,
    random: firstRandom(start.seed),
    faults: Object.fromEntries(EQUIPMENT_FAULTS.map((name) => [name, false])) as Plant['faults'],
    emergencyStop: false,
    ambient,
    bins: spec.bins.map((bin) => createColdBin(bin, airC)),
    hopper: EMPTY_HOPPER,
    dryer: createDryer(airC),
    holdingBin: EMPTY_HOLDING_BIN,
    emulsionTank: createTank(spec.tanks.emulsion, emulsion),
    cutbackTank: createTank(spec.tanks.cutback, cutback),
    oil: createThermalOil(airC),
    bucket: EMPTY_BUCKET,
    water: NO_WATER,
    antiStrip: NO_ANTI_STRIP,
    mill: createPugMill(airC),
    hood: createHood(airC),
    belt: EMPTY_BELT,
    books: openBooks(spec.bays.reduce((most, bay) => Math.max(most, bay.id), 0)),
  };
  return { ...silent, ...createInstruments(measured(silent)) };
};

const asked = (plant: Plant, ask: FieldAsk): Plant => {
  switch (ask.ask) {
    case 'refillBin': {
      const spec = plant.spec.bins[ask.bin - 1];
      if (spec === undefined) return plant;
      const bins = plant.bins.map((bin, i) =>
        i === ask.bin - 1 ? refilled(bin, spec, plant.ambient.tempC) : bin,
      );
      return { ...plant, bins };
    }
    case 'instrumentFault':
      return { ...plant, instruments: withFault(plant.instruments, ask.tag, ask.fault, plant.tick) };
    case 'equipmentFault':
      return { ...plant, faults: { ...plant.faults, [ask.equipment]: ask.on } };
    case 'emergencyStop':
      return { ...plant, emergencyStop: ask.pressed };
  }
};

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

/**
 * The plant a tenth of a second later. The emergency stop is hard-wired: while it is pressed every motor
 * but the hood fan stops and every valve shuts, whatever the outputs say.
 */
export const stepPlant = (before: Plant, outputsAsked: Outputs, asks: readonly FieldAsk[]): Plant => {
  let plant = before;
  for (let i = 0; i < asks.length; i += 1) plant = asked(plant, asks[i] as FieldAsk);
  const outputs = plant.emergencyStop ? AT_REST : outputsAsked;
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
  const emulsionTank = stepTank(
    plant.emulsionTank,
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
    plant.cutbackTank,
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
  const bucket = stepBucket(
    plant.bucket,
    spec.bucket.drainKgS,
    emulsionTank.gaveKg,
    emulsionTank.tempC,
    cutbackTank.gaveKg,
    cutbackTank.tempC,
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
