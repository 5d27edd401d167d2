/** How each instrument behaves: its lag and its noise. Order is that of the tags. */
import { TAG_NAMES, TAGS, type Tag } from '../field/tags.ts';
import { lagShare } from './time.ts';

type Behaviour = {
  /** First-order lag, s. Weighing cells and flame scanners have their dynamics in their own files. */
  readonly lagS: number;
  /** Widest noise, in scale intervals; below a quarter a value at rest cannot flicker. */
  readonly noise: number;
};

const EXACT: Behaviour = { lagS: 0, noise: 0 };
const QUIET = 0.2;
const thermometer = (lagS: number): Behaviour => ({ lagS, noise: QUIET });
const scale: Behaviour = { lagS: 0, noise: QUIET };

/** Teaching values: sheathed thermometers take seconds, infrared ones a blink. */
const BEHAVIOUR: { readonly [K in Tag]: Behaviour } = {
  bin1LevelPct: { lagS: 3, noise: QUIET },
  bin2LevelPct: { lagS: 3, noise: QUIET },
  bin3LevelPct: { lagS: 3, noise: QUIET },
  bin4LevelPct: { lagS: 3, noise: QUIET },
  hopperKg: scale,
  hopperC: thermometer(4),
  drumAggregateC: thermometer(5),
  drumExhaustC: thermometer(3),
  drumAirM3S: { lagS: 0.5, noise: QUIET },
  flameSeen: EXACT,
  fuelValveShut: EXACT,
  holdingBinKg: scale,
  holdingBinC: thermometer(8),
  emulsionTankC: thermometer(10),
  emulsionDipMm: { lagS: 2, noise: QUIET },
  cutbackTankC: thermometer(10),
  cutbackDipMm: { lagS: 2, noise: QUIET },
  oilC: thermometer(3),
  oilFlowing: EXACT,
  oilFlameSeen: EXACT,
  bucketKg: scale,
  bucketValveShut: EXACT,
  waterMeterL: EXACT,
  antiStripMeterKg: EXACT,
  mixerMotorA: { lagS: 0.3, noise: QUIET },
  mixC: thermometer(3),
  hoodFlowM3S: { lagS: 0.3, noise: QUIET },
  vapourLelPct: { lagS: 0, noise: QUIET },
  vapourDetectorOk: EXACT,
  ventLelPct: { lagS: 5, noise: QUIET },
  cutbackWaterMm: { lagS: 2, noise: QUIET },
  powerOk: EXACT,
  emergencyStop: EXACT,
  ambientC: thermometer(30),
  rainMmH: EXACT,
  sightCoatedPct: EXACT,
  sightBlackPct: EXACT,
  sightTruckBlackPct: EXACT,
  sightFreeWaterPct: EXACT,
};

/** Number of instruments. */
export const TAG_COUNT = TAG_NAMES.length;
/** Place of each tag in the lists below. */
export const PLACE_OF = Object.fromEntries(TAG_NAMES.map((tag, i) => [tag, i])) as {
  readonly [K in Tag]: number;
};

/** Whether a person sees it rather than a sensor. */
export const IS_SIGHT = TAG_NAMES.map((tag) => TAGS[tag].kind === 'sight');

/** Intervals per unit where the interval is below 1 (a whole number), so that a reading is count / perUnit exactly. */
const perUnit = TAG_NAMES.map((tag) => Math.round(1 / TAGS[tag].interval));
/** Scale intervals in one unit of the reading. */
export const COUNTS_PER_UNIT = TAG_NAMES.map((tag) => 1 / TAGS[tag].interval);
/** Share of its lag that an instrument makes up in one step. */
export const LAG_SHARE = TAG_NAMES.map((tag) => lagShare(BEHAVIOUR[tag].lagS));
/** Widest noise, in intervals. */
export const NOISE_COUNTS = TAG_NAMES.map((tag) => BEHAVIOUR[tag].noise);
/** How far, in intervals, a value must leave the one reported before it is reported anew. */
export const BAND = TAG_NAMES.map((tag) =>
  TAGS[tag].kind === 'switch' || tag === 'waterMeterL' || tag === 'antiStripMeterKg' ? 0.5 : 0.75,
);
/** Ends of the range, in intervals. */
export const COUNT_MIN = TAG_NAMES.map((tag) => Math.ceil(TAGS[tag].min / TAGS[tag].interval - 1e-9) + 0);
export const COUNT_MAX = TAG_NAMES.map((tag) => Math.floor(TAGS[tag].max / TAGS[tag].interval + 1e-9));

/** The reading of so many intervals: never 0.30000000000000004, never −0. */
export const readingOf = (place: number, count: number): number => {
  const interval = TAGS[TAG_NAMES[place] as Tag].interval;
  if (count === 0) return 0;
  return interval < 1 ? count / (perUnit[place] as number) : count * interval;
};
