/** Outside air and rain over the day, from the weather of the shift. */
import type { Weather } from '../scenario/shift.schema.ts';
import { STEPS_PER_S } from './time.ts';

/** Minutes after midnight at which the day is warmest. */
const WARMEST_MIN = 15 * 60;
const DAY_MIN = 24 * 60;
/** A start close to 15:00 says little about the night: the curve may not swing wider than this, °C. */
const WIDEST_SWING_C = 15;

export type Ambient = { readonly tempC: number; readonly rainMmH: number };

/**
 * Air at a minute after midnight, °C: one cosine a day through the start value and the 15:00 value
 * (teaching model of a quiet day).
 */
export const airC = (weather: Weather, startsAtMin: number, atMin: number): number => {
  const coolness = (min: number): number => 1 - Math.cos((2 * Math.PI * (min - WARMEST_MIN)) / DAY_MIN);
  const atStart = coolness(startsAtMin);
  if (atStart < 0.02) return weather.warmestC;
  const swing = (weather.warmestC - weather.startC) / atStart;
  const held = Math.max(-WIDEST_SWING_C, Math.min(WIDEST_SWING_C, swing));
  return weather.warmestC - held * coolness(atMin);
};

/** Rain in mm/h at a minute into the shift. */
export const rainMmH = (weather: Weather, minuteOfShift: number): number => {
  for (const shower of weather.rain)
    if (minuteOfShift >= shower.fromMin && minuteOfShift < shower.toMin) return shower.mmH;
  return 0;
};

/** Air in °C and rain in mm/h at a tick of the shift (see airC and rainMmH). */
export const ambientAt = (weather: Weather, startsAtMin: number, tick: number): Ambient => {
  const minuteOfShift = tick / (60 * STEPS_PER_S);
  return {
    tempC: airC(weather, startsAtMin, startsAtMin + minuteOfShift),
    rainMmH: rainMmH(weather, minuteOfShift),
  };
};

/** Looked up every ten seconds; the same object while nothing changed. */
export const stepAmbient = (
  ambient: Ambient,
  weather: Weather,
  startsAtMin: number,
  tick: number,
): Ambient => {
  if (tick % (10 * STEPS_PER_S) !== 0) return ambient;
  const next = ambientAt(weather, startsAtMin, tick);
  return next.tempC === ambient.tempC && next.rainMmH === ambient.rainMmH ? ambient : next;
};
