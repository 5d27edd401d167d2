/**
 * The instruments a line may listen to, one tag each. Whatever answers these
 * readings (simulated plant, a person at the gauges, a wired plant) is a field.
 *
 * `interval` is the scale interval d: every reading is a whole number of these.
 * Switches read 0 or 1. `unit` is what the number means, as written on screens.
 */
export type TagInfo = {
  readonly label: string;
  readonly unit: '' | 'kg' | 'L' | '°C' | 'mm' | 'A' | 'm³/s' | '% LEL' | '%' | 'mm/h';
  readonly interval: number;
  readonly min: number;
  readonly max: number;
  readonly kind: 'analogue' | 'switch' | 'sight';
};

const analogue = (
  label: string,
  unit: TagInfo['unit'],
  interval: number,
  min: number,
  max: number,
): TagInfo => ({ label, unit, interval, min, max, kind: 'analogue' });

const switchOf = (label: string): TagInfo => ({
  label,
  unit: '',
  interval: 1,
  min: 0,
  max: 1,
  kind: 'switch',
});

/** What a person sees through the mixer hatch: no instrument, but it decides a batch. */
const sight = (label: string): TagInfo => ({
  label,
  unit: '%',
  interval: 1,
  min: 0,
  max: 100,
  kind: 'sight',
});

export const TAGS = {
  bin1LevelPct: analogue('Bin 1 level', '%', 1, 0, 100),
  bin2LevelPct: analogue('Bin 2 level', '%', 1, 0, 100),
  bin3LevelPct: analogue('Bin 3 level', '%', 1, 0, 100),
  bin4LevelPct: analogue('Bin 4 level', '%', 1, 0, 100),
  hopperKg: analogue('Aggregate weigh hopper', 'kg', 1, -20, 1100),
  hopperC: analogue('Aggregate in hopper', '°C', 0.1, -30, 250),
  drumAggregateC: analogue('Aggregate in dryer', '°C', 0.5, -30, 400),
  drumExhaustC: analogue('Dryer exhaust', '°C', 1, -30, 600),
  drumAirM3S: analogue('Dryer fan flow', 'm³/s', 0.05, 0, 20),
  flameSeen: switchOf('Dryer flame scanner'),
  fuelValveShut: switchOf('Dryer fuel valve proved shut'),
  holdingBinKg: analogue('Dry holding bin', 'kg', 2, -40, 14000),
  holdingBinC: analogue('Aggregate in holding bin', '°C', 0.1, -30, 250),
  emulsionTankC: analogue('Emulsion tank', '°C', 0.1, -30, 250),
  emulsionDipMm: analogue('Emulsion tank dip', 'mm', 1, 0, 4000),
  cutbackTankC: analogue('Cutback tank', '°C', 0.1, -30, 250),
  cutbackDipMm: analogue('Cutback tank dip', 'mm', 1, 0, 4000),
  oilC: analogue('Thermal oil', '°C', 0.5, -30, 350),
  oilFlowing: switchOf('Thermal oil flow proved'),
  oilFlameSeen: switchOf('Thermal oil heater flame'),
  bucketKg: analogue('Binder weigh bucket', 'kg', 0.1, -5, 130),
  bucketValveShut: switchOf('Binder valve to mixer proved shut'),
  waterMeterL: analogue('Water meter, running total', 'L', 0.1, 0, 1e9),
  antiStripMeterKg: analogue('Anti-strip meter, running total', 'kg', 0.01, 0, 1e9),
  mixerMotorA: analogue('Pug mill motor', 'A', 0.5, 0, 200),
  mixC: analogue('Mix in pug mill', '°C', 0.1, -30, 250),
  hoodFlowM3S: analogue('Hood extraction flow', 'm³/s', 0.01, 0, 10),
  vapourLelPct: analogue('Vapour at hood', '% LEL', 0.1, 0, 100),
  vapourDetectorOk: switchOf('Vapour detector healthy'),
  ventLelPct: analogue('Vapour at the tank vents', '% LEL', 0.5, 0, 100),
  cutbackWaterMm: analogue('Water at the bottom of the cutback tank', 'mm', 1, 0, 500),
  powerOk: switchOf('Supply to the plant healthy'),
  emergencyStop: switchOf('Emergency stop pressed'),
  ambientC: analogue('Outside air', '°C', 0.1, -40, 60),
  rainMmH: analogue('Rain', 'mm/h', 0.1, 0, 200),
  sightCoatedPct: sight('Stones coated, by eye'),
  sightBlackPct: sight('Colour, 0 brown to 100 black, by eye'),
  sightTruckBlackPct: sight('Sample from the truck, 0 brown to 100 black, by eye'),
  sightFreeWaterPct: sight('Free water, by eye'),
} as const satisfies Record<string, TagInfo>;

export type Tag = keyof typeof TAGS;
export const TAG_NAMES = Object.keys(TAGS) as readonly Tag[];

/** All readings of one moment, quantised. A field replaces the object only when something changed. */
export type Readings = { readonly [K in Tag]: number };

/** Readings that differ from the moment before. */
export type ReadingChanges = { readonly [K in Tag]?: number };
