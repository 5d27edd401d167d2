/** Arithmetic of weighing: what to weigh, when to change to dribble, when to cut off, and what it learned. */
import { isFilling } from '../charts/weigher/weigher.guards.ts';
import type { WeigherState } from '../charts/weigher/weigher.machine.ts';
import type { Weigher, WeighTask } from './line.types.ts';

/** Share of a part fed at dribble before the cut-off, at least so many kg. Common practice, no source. */
const DRIBBLE_SHARE = 0.08;

/** Part of the error of the last cut-off taken into the next. Common practice, no source. */
const LEARNING = 0.4;

export const IDLE_WEIGHER: Weigher = {
  tasks: [],
  at: 0,
  fromKg: 0,
  done: [],
  bestKg: 0,
  gainTick: 0,
  outBefore: false,
  purpose: null,
  inFlightKg: {},
};

export const currentTask = (weigher: Weigher): WeighTask | null => weigher.tasks[weigher.at] ?? null;

/** Reading at which the present task began, turned so that it always grows: the holding bin gives, scales take. */
export const gainedKg = (weigher: Weigher, readingKg: number, givesWeight: boolean): number =>
  givesWeight ? weigher.fromKg - readingKg : readingKg - weigher.fromKg;

/** Mass expected to fall after a dribble gate shuts, kg. */
export const inFlightKg = (weigher: Weigher, task: WeighTask, smallestKg: number): number =>
  weigher.inFlightKg[task.material] ?? smallestKg;

export type ScaleConditions = {
  readonly nearTarget: boolean;
  readonly atCutOff: boolean;
  readonly noGain: boolean;
  readonly within: boolean;
  readonly light: boolean;
  readonly heavy: boolean;
};

const NO_CONDITIONS: ScaleConditions = {
  nearTarget: false,
  atCutOff: false,
  noGain: false,
  within: false,
  light: false,
  heavy: false,
};

/** Fed this long without a gain a scale is not being filled, or lies. Common practice, no source. */
const NO_GAIN_TICKS = 120;

/** The weigher with the gain of this tick noted; the same object while nothing is gained. `fed`: its gate is open. */
export const notingGain = (
  weigher: Weigher,
  readingKg: number,
  givesWeight: boolean,
  smallestKg: number,
  fed: boolean,
  tick: number,
): Weigher => {
  if (currentTask(weigher) === null) return weigher;
  const gained = gainedKg(weigher, readingKg, givesWeight);
  if (gained >= weigher.bestKg + smallestKg) return { ...weigher, bestKg: gained, gainTick: tick };
  // While it is not fed its patience does not run: it begins anew with the next feed.
  return fed || tick - weigher.gainTick < NO_GAIN_TICKS / 2 ? weigher : { ...weigher, gainTick: tick };
};

/** Conditions a weigher chart may hear now, from its scale. All false without a task. */
export const scaleConditions = (
  weigher: Weigher,
  readingKg: number,
  givesWeight: boolean,
  smallestKg: number,
  toppingUp: boolean,
  tick: number,
): ScaleConditions => {
  const task = currentTask(weigher);
  if (task === null) return NO_CONDITIONS;
  const gained = gainedKg(weigher, readingKg, givesWeight);
  const margin = Math.max(task.targetKg * DRIBBLE_SHARE, 6 * smallestKg);
  const error = gained - task.targetKg;
  return {
    nearTarget: gained >= task.targetKg - margin,
    // A top-up is a trickle of seconds: it is cut one interval short of target, whatever was learned of full gates.
    atCutOff: gained >= task.targetKg - (toppingUp ? smallestKg : inFlightKg(weigher, task, smallestKg)),
    noGain: tick - weigher.gainTick >= NO_GAIN_TICKS,
    within: Math.abs(error) <= task.toleranceKg + 1e-9,
    light: error < -task.toleranceKg - 1e-9,
    heavy: error > task.toleranceKg + 1e-9,
  };
};

/** Cut-offs with that of the present task moved by part of the error it made. */
export const learnedCutOff = (
  weigher: Weigher,
  gained: number,
  smallestKg: number,
): Weigher['inFlightKg'] => {
  const task = currentTask(weigher);
  if (task === null) return weigher.inFlightKg;
  const learned = inFlightKg(weigher, task, smallestKg) + LEARNING * (gained - task.targetKg);
  const largest = Math.max(4 * smallestKg, 0.05 * task.targetKg);
  return {
    ...weigher.inFlightKg,
    [task.material]: Math.min(largest, Math.max(0, Math.round(learned * 1000) / 1000)),
  };
};

/** The weigher after its present task came out at `gained` kg. */
export const afterWeighing = (
  weigher: Weigher,
  gained: number,
  accepted: Weigher['done'][number]['accepted'],
  nextFromKg: number,
  inFlight: Weigher['inFlightKg'],
  tick: number,
): Weigher => {
  const task = currentTask(weigher);
  if (task === null) return weigher;
  return {
    ...weigher,
    at: weigher.at + 1,
    fromKg: nextFromKg,
    bestKg: 0,
    gainTick: tick,
    done: [
      ...weigher.done,
      { material: task.material, targetKg: task.targetKg, weighedKg: gained, accepted },
    ],
    inFlightKg: inFlight,
  };
};

export const allWeighed = (weigher: Weigher, state: WeigherState): boolean =>
  weigher.tasks.length > 0 && weigher.at >= weigher.tasks.length && !isFilling(state);
