/** Weigh-ups as the line runs them: tasks begun, results booked, weights out of tolerance told. */
import { isOutOfTolerance } from '../charts/weigher/weigher.guards.ts';
import type { WeigherState } from '../charts/weigher/weigher.machine.ts';
import { batchTargets, chargeTargets, dryTargets } from '../mix/batch-targets.ts';
import { roundedToSum } from '../mix/round-to-interval.ts';
import type { Mix } from '../scenario/mix.schema.ts';
import { moveMass, toGrams } from './books.ts';
import type { WeigherId, WeighTask } from './line.types.ts';
import { accountGrams, binsNow, mixById, presentMix, targetsOf, WEIGHER_SCALES } from './lookup.ts';
import { afterWeighing, currentTask, gainedKg, learnedCutOff } from './weighing.ts';
import { moveChart, tell, type Work } from './work.ts';

const roundTo = (kg: number, intervalKg: number): number => {
  const counts = Math.round(kg / intervalKg);
  return Math.round(counts * intervalKg * 1000) / 1000;
};

/** Limits are a share of the target, but never closer than two scale intervals. */
const toleranceKg = (targetKg: number, pct: number, intervalKg: number): number =>
  Math.max(2 * intervalKg, (targetKg * pct) / 100);

/** Targets in whole intervals of the scale that keep the sum of the parts. */
const aggregateTasks = (mix: Mix, parts: ReturnType<typeof batchTargets>['parts']): readonly WeighTask[] => {
  const { intervalKg } = WEIGHER_SCALES.aggregateWeigher;
  const rounded = roundedToSum(
    parts.map((part) => part.wetKg),
    intervalKg,
  );
  return parts.map((part, i) => ({
    material: part.name,
    bin: part.bin,
    targetKg: rounded[i] as number,
    toleranceKg: toleranceKg(part.wetKg, mix.tolerance.aggregatePct, intervalKg),
  }));
};

const beginWeigher = (
  work: Work,
  id: WeigherId,
  tasks: readonly WeighTask[],
  purpose: 'batch' | 'dryer',
): void => {
  const { line } = work;
  const fromKg = line.readings[WEIGHER_SCALES[id].tag];
  line.weighers = {
    ...line.weighers,
    [id]: { ...line.weighers[id], tasks, at: 0, fromKg, bestKg: 0, gainTick: line.tick, done: [], purpose },
  };
  moveChart(work, id, 'line.begin');
};

/** Aggregates from the cold bins into the hopper, for the pug mill. */
export const weighForBatch = (work: Work): void => {
  const mix = presentMix(work.line);
  const { parts } = batchTargets(mix, binsNow(work.line));
  beginWeigher(work, 'aggregateWeigher', aggregateTasks(mix, parts), 'batch');
};

/** One charge for the dryer. */
export const weighForDryer = (work: Work): void => {
  const { line } = work;
  if (line.campaign === null) return;
  const mix = mixById(line, line.campaign.mixId);
  const chargeKg = mix.drying?.chargeKg ?? mix.batchKg;
  beginWeigher(
    work,
    'aggregateWeigher',
    aggregateTasks(mix, chargeTargets(mix, binsNow(line), chargeKg).parts),
    'dryer',
  );
};

/** Dry aggregate out of the holding bin, weighed by what the bin gives. */
export const weighDry = (work: Work): void => {
  const mix = presentMix(work.line);
  const targetKg = roundTo(dryTargets(mix).dryKg, 2);
  beginWeigher(
    work,
    'dryWeigher',
    [
      {
        material: 'dry aggregate',
        bin: 0,
        targetKg,
        toleranceKg: toleranceKg(targetKg, mix.tolerance.aggregatePct, 2),
      },
    ],
    'batch',
  );
};

/** Binder of this batch into its bucket. */
export const weighBinder = (work: Work): void => {
  const { line } = work;
  const mix = presentMix(line);
  const targetKg = roundTo(targetsOf(line, mix).binderKg, 0.1);
  beginWeigher(
    work,
    'binderWeigher',
    [
      {
        material: mix.family,
        bin: 0,
        targetKg,
        toleranceKg: toleranceKg(targetKg, mix.tolerance.binderPct, 0.1),
      },
    ],
    'batch',
  );
};

/** The scale's load has gone: the weigher rests, keeping what it learned. */
export const clearWeigher = (work: Work, id: WeigherId): void => {
  const { line } = work;
  moveChart(work, id, 'line.clear');
  line.weighers = {
    ...line.weighers,
    [id]: { ...line.weighers[id], tasks: [], at: 0, done: [], purpose: null },
  };
};

const bookPart = (work: Work, id: WeigherId, material: string, kg: number): void => {
  const grams = Math.max(0, toGrams(kg));
  if (id === 'aggregateWeigher') moveMass(work, 'materials', 'hopper', grams, material);
  else if (id === 'binderWeigher') moveMass(work, 'materials', 'bucket', grams, material);
  else {
    // The bin gives more than was booked into it only when a scale has lied before: the books follow the scale.
    const short = grams - accountGrams(work.line, 'holdingBin');
    if (short > 0) moveMass(work, 'materials', 'holdingBin', short, material);
    moveMass(work, 'holdingBin', 'mixer', grams, material);
  }
};

/** A weigher entered a state: results are told and booked, and the next part is begun. */
export const enterWeigher = (work: Work, id: WeigherId, state: WeigherState): void => {
  const { line } = work;
  const weigher = line.weighers[id];
  const task = currentTask(weigher);
  if (task === null) return;
  const scale = WEIGHER_SCALES[id];
  const readingKg = line.readings[scale.tag];
  const gained = Math.round(gainedKg(weigher, readingKg, scale.gives) * 1000) / 1000;
  const batch = weigher.purpose === 'dryer' ? null : (line.batch?.n ?? null);
  if (isOutOfTolerance(state)) {
    line.weighers = {
      ...line.weighers,
      [id]: {
        ...weigher,
        gainTick: line.tick,
        inFlightKg:
          state === 'stalled' ? weigher.inFlightKg : learnedCutOff(weigher, gained, scale.intervalKg),
        outBefore: true,
      },
    };
    tell(work, {
      is: 'weightOut',
      batch,
      material: task.material,
      targetKg: task.targetKg,
      weighedKg: gained,
    });
    return;
  }
  if (state !== 'weighed') return;
  // A part that was out has taught its lesson already; what a top-up or an acceptance shows is no cut-off error.
  const inFlight = weigher.outBefore ? weigher.inFlightKg : learnedCutOff(weigher, gained, scale.intervalKg);
  const next = {
    ...afterWeighing(weigher, gained, work.accepting, readingKg, inFlight, line.tick),
    outBefore: false,
  };
  line.weighers = { ...line.weighers, [id]: next };
  const part = next.done[next.done.length - 1];
  if (part !== undefined) tell(work, { is: 'partWeighed', batch, part });
  bookPart(work, id, task.material, gained);
  if (batch !== null && line.batch !== null && part !== undefined)
    line.batch = { ...line.batch, parts: [...line.batch.parts, part] };
  if (next.at < next.tasks.length) moveChart(work, id, 'line.begin');
};
