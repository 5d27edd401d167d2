/** A plant at the start of a shift, and the one-off things that can be asked of it. */
import { EQUIPMENT_FAULTS, type FieldAsk } from '../field/outputs.ts';
import type { Mix } from '../scenario/mix.schema.ts';
import type { PlantSpec } from '../scenario/plant.schema.ts';
import type { Weather } from '../scenario/shift.schema.ts';
import { massKgOf, NO_AGGREGATE } from './aggregate.ts';
import { ambientAt } from './ambient.ts';
import { NO_ANTI_STRIP } from './anti-strip.ts';
import { EMPTY_BELT } from './belt.ts';
import { binderIn } from './binder.ts';
import { openBooks } from './books.ts';
import { EMPTY_BUCKET } from './bucket.ts';
import { createColdBin, refilled } from './cold-bin.ts';
import { createDryer } from './dryer.ts';
import { EMPTY_HOLDING_BIN } from './holding-bin.ts';
import { createHood } from './hood.ts';
import { createInstruments, hasFault, withFault } from './instruments.ts';
import { measured } from './measured.ts';
import { createPugMill } from './mill-contents.ts';
import type { Plant } from './plant.types.ts';
import { firstRandom } from './random.ts';
import { createTank, type Tank, type TankThisMorning } from './tank.ts';
import { createThermalOil } from './thermal-oil.ts';
import { NO_WATER } from './water.ts';
import { EMPTY_HOPPER } from './weigh-hopper.ts';

export type PlantStart = {
  readonly spec: PlantSpec;
  readonly mixes: readonly Mix[];
  readonly weather: Weather;
  /** Minutes after midnight. */
  readonly startsAtMin: number;
  readonly seed: number;
  /** What is not as usual in the tanks. */
  readonly tanks?: { readonly [T in 'emulsion' | 'cutback']?: TankThisMorning | undefined } | undefined;
};

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
    bins: spec.bins.map((bin, place) => createColdBin(bin, place, airC)),
    hopper: EMPTY_HOPPER,
    dryer: createDryer(airC),
    holdingBin: EMPTY_HOLDING_BIN,
    emulsionTank: createTank(spec.tanks.emulsion, emulsion, start.tanks?.emulsion),
    cutbackTank: createTank(spec.tanks.cutback, cutback, start.tanks?.cutback),
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

const withTank = (plant: Plant, tank: 'emulsion' | 'cutback', change: Partial<Tank>): Plant =>
  tank === 'emulsion'
    ? { ...plant, emulsionTank: { ...plant.emulsionTank, ...change } }
    : { ...plant, cutbackTank: { ...plant.cutbackTank, ...change } };

/** The plant once an ask has been met; what it does not have is left alone. */
export const asked = (plant: Plant, ask: FieldAsk): Plant => {
  switch (ask.ask) {
    case 'refillBin': {
      const spec = plant.spec.bins[ask.bin - 1];
      if (spec === undefined) return plant;
      const bins = plant.bins.map((bin, i) =>
        i === ask.bin - 1 ? refilled(bin, spec, i, plant.ambient.tempC) : bin,
      );
      return { ...plant, bins };
    }
    case 'clearHoldingBin': {
      const { holdingBin, books } = plant;
      const [skipKg = 0, ...bays] = books.laidKg;
      return {
        ...plant,
        holdingBin: { ...holdingBin, heap: NO_AGGREGATE },
        books: { ...books, laidKg: [skipKg + massKgOf(holdingBin.heap), ...bays] },
      };
    }
    case 'instrumentFault':
      return { ...plant, instruments: withFault(plant.instruments, ask.tag, ask.fault, plant.tick) };
    case 'equipmentFault':
      return { ...plant, faults: { ...plant.faults, [ask.equipment]: ask.on } };
    case 'delivery': {
      const other = ask.product === 'emulsion' ? 'cutback' : 'emulsion';
      const product = plant.faults.wrongBinderInTruck ? other : ask.product;
      return withTank(plant, ask.tank, { delivery: { product, leftKg: ask.kg, kgS: ask.kgS } });
    }
    case 'deliveryEnds':
      return withTank(plant, ask.tank, { delivery: null });
    case 'drawWater': {
      const { massKg, waterKg, drawnOffKg } = plant[`${ask.tank}Tank`];
      return withTank(plant, ask.tank, {
        massKg: massKg - waterKg,
        waterKg: 0,
        waterMm: 0,
        drawnOffKg: drawnOffKg + waterKg,
      });
    }
    case 'calibrateDetector':
      // Test gas sets right what drifted; one that is stuck or dead wants mending.
      return hasFault(plant.instruments, 'vapourLelPct', 'drift')
        ? { ...plant, instruments: withFault(plant.instruments, 'vapourLelPct', null, plant.tick) }
        : plant;
    case 'emergencyStop':
      return { ...plant, emergencyStop: ask.pressed };
  }
};
