/**
 * From truth to readings: lag, noise, faults, scale interval, report by exception.
 *
 * A reading changes only when the value leaves the one reported by more than three quarters of an
 * interval, and noise stays below a quarter, so a plant at rest falls silent. Noise is drawn anew once a
 * second, and what a person sees through the hatch is looked at once a second.
 */
import type { InstrumentFault } from '../field/outputs.ts';
import { type Readings, TAG_NAMES, type Tag } from '../field/tags.ts';
import {
  BAND,
  COUNT_MAX,
  COUNT_MIN,
  COUNTS_PER_UNIT,
  IS_SIGHT,
  LAG_SHARE,
  NOISE_COUNTS,
  PLACE_OF,
  readingOf,
  TAG_COUNT,
} from './instrument-table.ts';
import { nextRandom, RANDOM_STRIDE, spread } from './random.ts';
import { STEPS_PER_S } from './time.ts';

/** Noise of an instrument gone noisy, in intervals. */
const NOISY_COUNTS = 8;

export type FaultInForce = {
  readonly place: number;
  readonly fault: InstrumentFault['fault'];
  readonly perHour: number;
  readonly offPct: number;
  readonly sinceTick: number;
};

export type Instruments = {
  /** By place of the tag: value behind the lag, noise in intervals, intervals reported. */
  readonly lagged: readonly number[];
  readonly noise: readonly number[];
  readonly counts: readonly number[];
  readonly faults: readonly FaultInForce[];
};

const clipped = (place: number, count: number): number => {
  const low = COUNT_MIN[place] as number;
  const high = COUNT_MAX[place] as number;
  // + 0 turns −0 into 0, which JSON would do as well and a saved plant must not differ by.
  return (count < low ? low : Math.min(count, high)) + 0;
};

const readingsOf = (counts: readonly number[]): Readings => {
  const readings: Partial<Record<Tag, number>> = {};
  for (let i = 0; i < TAG_COUNT; i += 1) readings[TAG_NAMES[i] as Tag] = readingOf(i, counts[i] as number);
  return readings as Readings;
};

/** Instruments that have long seen these values, and what they read. */
export const createInstruments = (
  truths: readonly number[],
): { readonly instruments: Instruments; readonly readings: Readings } => {
  const counts = truths.map((truth, i) => clipped(i, Math.round(truth * (COUNTS_PER_UNIT[i] as number))));
  return {
    instruments: { lagged: truths.slice(), noise: truths.map(() => 0), counts, faults: [] },
    readings: readingsOf(counts),
  };
};

/** A fault put on an instrument, or taken off with null. */
export const withFault = (
  instruments: Instruments,
  tag: Tag,
  fault: InstrumentFault | null,
  tick: number,
): Instruments => {
  const place = PLACE_OF[tag];
  const others = instruments.faults.filter((one) => one.place !== place);
  if (fault === null) return { ...instruments, faults: others };
  const perHour = fault.fault === 'drift' ? fault.perHour : 0;
  const offPct = fault.fault === 'span' ? fault.offPct : 0;
  return {
    ...instruments,
    faults: [...others, { place, fault: fault.fault, perHour, offPct, sinceTick: tick }],
  };
};

/** Whether this fault is in force on the instrument of a tag. */
export const hasFault = (instruments: Instruments, tag: Tag, fault: InstrumentFault['fault']): boolean => {
  for (const one of instruments.faults) if (one.place === PLACE_OF[tag] && one.fault === fault) return true;
  return false;
};

const faultAt = (faults: readonly FaultInForce[], place: number): FaultInForce | null => {
  for (const one of faults) if (one.place === place) return one;
  return null;
};

/** What an instrument shows in intervals before rounding and clipping; NaN (no change) when it is stuck. */
const shownCounts = (
  seen: number,
  noise: number,
  place: number,
  faults: readonly FaultInForce[],
  tick: number,
): number => {
  const fault = faults.length === 0 ? null : faultAt(faults, place);
  if (fault === null) return seen + noise;
  if (fault.fault === 'stuck') return Number.NaN;
  // A broken wire to the emergency stop reads pressed: its contact is closed while it is not.
  if (fault.fault === 'dead')
    return place === PLACE_OF.emergencyStop ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
  if (fault.fault === 'noisy') return seen + noise * NOISY_COUNTS;
  if (fault.fault === 'span') return seen * (1 + fault.offPct / 100) + noise;
  const hours = (tick - fault.sinceTick) / (3600 * STEPS_PER_S);
  return seen + hours * fault.perHour * (COUNTS_PER_UNIT[place] as number);
};

/** Draws new noise for every instrument; a noisy one draws the full spread. */
const redrawn = (before: readonly number[], faults: readonly FaultInForce[], random: number): number[] => {
  const noise = before.slice();
  let state = random;
  for (let i = 0; i < TAG_COUNT; i += 1) {
    state = nextRandom(state);
    const wide = faults.length > 0 && faultAt(faults, i)?.fault === 'noisy' ? 1 : (NOISE_COUNTS[i] as number);
    noise[i] = wide > 0 ? spread(state) * wide : 0;
  }
  return noise;
};

/** The random stream after one step: one number for the plant, and once a second one for each instrument. */
export const randomAfter = (random: number, tick: number): number =>
  tick % STEPS_PER_S === 0 ? (random + Math.imul(TAG_COUNT + 1, RANDOM_STRIDE)) | 0 : nextRandom(random);

/**
 * One step from true values, in the units of their tags, to readings: first-order lag, noise, faults,
 * rounding to the interval, report by exception (lag standard physics, the rest a teaching model).
 */
export const stepInstruments = (
  before: Instruments,
  readings: Readings,
  truths: readonly number[],
  tick: number,
  random: number,
): { readonly instruments: Instruments; readonly readings: Readings } => {
  const { faults } = before;
  const fresh = tick % STEPS_PER_S === 0;
  const faulty = faults.length > 0;
  const noise = fresh ? redrawn(before.noise, faults, random) : before.noise;
  let lagged: number[] | null = null;
  let counts: number[] | null = null;
  for (let i = 0; i < TAG_COUNT; i += 1) {
    const truth = truths[i] as number;
    const held = before.lagged[i] as number;
    // Nothing new reached this instrument, or nobody looks just now: it shows what it showed.
    if (!fresh && (IS_SIGHT[i] === true || (truth === held && !faulty))) continue;
    const gap = truth - held;
    const value = gap < 1e-7 && gap > -1e-7 ? truth : held + gap * (LAG_SHARE[i] as number);
    if (value !== held) {
      lagged ??= before.lagged.slice();
      lagged[i] = value;
    }
    const shown = before.counts[i] as number;
    const seen = shownCounts(value * (COUNTS_PER_UNIT[i] as number), noise[i] as number, i, faults, tick);
    const off = seen - shown;
    const band = BAND[i] as number;
    if (off > band || off < -band) {
      const count = clipped(i, Math.round(seen));
      if (count !== shown) {
        counts ??= before.counts.slice();
        counts[i] = count;
      }
    }
  }
  if (counts === null) {
    if (lagged === null && !fresh) return { instruments: before, readings };
    return {
      instruments: { lagged: lagged ?? before.lagged, noise, counts: before.counts, faults },
      readings,
    };
  }
  const next: Record<Tag, number> = { ...readings };
  for (let i = 0; i < TAG_COUNT; i += 1)
    if (counts[i] !== before.counts[i]) next[TAG_NAMES[i] as Tag] = readingOf(i, counts[i] as number);
  return { instruments: { lagged: lagged ?? before.lagged, noise, counts, faults }, readings: next };
};
