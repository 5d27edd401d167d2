/** One tick of the line: readings in, timers run, charts settled, masses booked, outputs formed and gated. */
import { isMixingStep, type Step } from '../charts/batch/batch.guards.ts';
import { burnerIsRunning } from '../charts/burner/burner.guards.ts';
import type { Outputs } from '../field/outputs.ts';
import type { Readings } from '../field/tags.ts';
import { startNextBatch } from './batch-start.ts';
import { moveAll, trueUp } from './books.ts';
import { bookLateDrum, weighNextCharge } from './campaign-work.ts';
import { careBySecond } from './care-work.ts';
import { demandsOf } from './demands.ts';
import { gate } from './gate.ts';
import { settleAlarms, settleCharts } from './hearing.ts';
import type { Line, Timer, WeigherId } from './line.types.ts';
import {
  accountGrams,
  batchValue,
  campaignState,
  chartValue,
  WEIGHER_IDS,
  WEIGHER_SCALES,
} from './lookup.ts';
import { drive } from './reactions.ts';
import { limitsPassed, watchOn } from './watch.ts';
import { clearWeigher } from './weigh-work.ts';
import { notingGain } from './weighing.ts';
import { tell, type Work } from './work.ts';

/** While a batch is not running its step timers stand still; the two seconds of holding or restarting run. */
const isFrozen = (line: Line, timer: Timer): boolean =>
  timer.chart === 'batch' &&
  !timer.eventType.includes('.procedure.') &&
  batchValue(line).procedure !== 'running';

/** Timers count down by one tick; those that are due fire in the order they were started. */
const runTimers = (work: Work): boolean => {
  const { line } = work;
  if (line.timers.length === 0) return false;
  let due: Timer[] | null = null;
  line.timers = line.timers.map((timer) => {
    if (isFrozen(line, timer)) return timer;
    const left = { ...timer, leftTicks: timer.leftTicks - 1 };
    if (left.leftTicks <= 0) {
      due ??= [];
      due.push(left);
    }
    return left;
  });
  if (due === null) return false;
  for (const timer of due as Timer[]) {
    const still = line.timers.some(
      (one) => one.chart === timer.chart && one.id === timer.id && one.leftTicks <= 0,
    );
    if (!still) continue;
    line.timers = line.timers.filter((one) => one.chart !== timer.chart || one.id !== timer.id);
    drive(work, timer.chart, timer.eventType);
  }
  return true;
};

/** Masses that moved because a gate was open and its vessel ran empty. */
const bookEmptied = (work: Work): void => {
  const { line } = work;
  if (line.outputs.hopperTo !== 'shut' && line.signals.hopperEmpty && accountGrams(line, 'hopper') > 0) {
    if (line.outputs.hopperTo === 'dryer' && line.campaign !== null && accountGrams(line, 'dryer') === 0)
      line.campaign = { ...line.campaign, binFromKg: line.readings.holdingBinKg };
    moveAll(work, 'hopper', line.outputs.hopperTo === 'dryer' ? 'dryer' : 'mixer', 'aggregate');
    clearWeigher(work, 'aggregateWeigher');
  }
  if (line.outputs.bucketValve && line.signals.bucketEmpty && accountGrams(line, 'bucket') > 0) {
    moveAll(work, 'bucket', 'mixer', 'binder');
    clearWeigher(work, 'binderWeigher');
  }
};

const isFed = (line: Line, id: WeigherId): boolean => {
  const { outputs } = line;
  if (id === 'dryWeigher') return outputs.holdingGate !== 'shut';
  if (id === 'binderWeigher') return outputs.cutbackFeed !== 'shut' || outputs.emulsionFeed !== 'shut';
  return (
    outputs.bin1Gate !== 'shut' ||
    outputs.bin2Gate !== 'shut' ||
    outputs.bin3Gate !== 'shut' ||
    outputs.bin4Gate !== 'shut'
  );
};

/** Notes when each scale last gained, so that one that is fed and gains nothing is found out. */
const noteGains = (work: Work): void => {
  const { line } = work;
  for (const id of WEIGHER_IDS) {
    const weigher = line.weighers[id];
    if (weigher.at >= weigher.tasks.length) continue;
    const scale = WEIGHER_SCALES[id];
    const noted = notingGain(
      weigher,
      line.readings[scale.tag],
      scale.gives,
      scale.intervalKg,
      isFed(line, id),
      line.tick,
    );
    if (noted !== weigher) line.weighers = { ...line.weighers, [id]: noted };
  }
};

const countMixing = (work: Work): void => {
  const { line } = work;
  if (line.batch !== null && isMixingStep(batchValue(line).step as Step) && line.signals.mixerTurning)
    line.batch = { ...line.batch, mixedTicks: line.batch.mixedTicks + 1 };
  if (line.campaign !== null && burnerIsRunning(chartValue(line, 'burner') as never))
    line.campaign = { ...line.campaign, fuelTicks: line.campaign.fuelTicks + 1 };
};

/** Demands and gate follow from these alone: while none of them is another object, nothing asked for can be. */
const asBefore = (line: Line, before: Line): boolean =>
  line.charts === before.charts &&
  line.signals === before.signals &&
  line.weighers === before.weighers &&
  line.books === before.books &&
  line.batch?.n === before.batch?.n;

const formOutputs = (work: Work): void => {
  const { line } = work;
  line.unsettled = false;
  if (asBefore(line, work.before)) return;
  line.wanted = demandsOf(line);
  const gated = gate(
    line.wanted,
    chartValue(line, 'interlock') as never,
    chartValue(line, 'burner') as never,
    {
      emulsion: chartValue(line, 'emulsionTankInterlock') as never,
      cutback: chartValue(line, 'cutbackTankInterlock') as never,
    },
  );
  for (const key in gated.outputs)
    if (gated.outputs[key as keyof Outputs] !== line.outputs[key as keyof Outputs]) {
      line.outputs = gated.outputs;
      line.unsettled = true;
      break;
    }
  const before = line.held;
  if (before.length === gated.held.length && before.every((one, i) => one.key === gated.held[i]?.key)) {
    if (before.length > 0) line.held = gated.held;
    return;
  }
  line.held = gated.held;
  for (const held of gated.held)
    if (!before.some((one) => one.key === held.key))
      tell(work, { is: 'elementHeld', element: held.element, because: held.because });
};

/** Everything that follows from readings, at once. Also run after each command, so that its answer is the whole truth. */
export const settle = (work: Work): void => {
  const { line } = work;
  const { signals } = line;
  settleCharts(work);
  const { charts, books } = line;
  bookEmptied(work);
  bookLateDrum(work);
  weighNextCharge(work);
  startNextBatch(work);
  if (line.charts !== charts || line.books !== books) settleCharts(work);
  if (line.signals !== signals) settleAlarms(work);
  formOutputs(work);
};

/** Alarms and conditions that hang on a time rather than a reading are looked at once a second. */
const SECOND_TICKS = 10;

/** A scale that has not gained lately, or a dose being metered: found out by time, not by a reading. */
const waitsOnTime = (line: Line): boolean => {
  for (const id of WEIGHER_IDS) {
    const weigher = line.weighers[id];
    if (weigher.at < weigher.tasks.length && line.tick - weigher.gainTick > SECOND_TICKS) return true;
  }
  const { step } = batchValue(line);
  return step === 'preWetting' || step === 'antiStripping';
};

/** Binder whose window begins above this does not get there by the weather alone. */
const WARM_FROM_C = 30;

/** The first readings are in: the shift is open, signals are known, and tanks that will be needed are kept warm. */
const openShift = (work: Work): void => {
  const { scenario, readings } = work.line;
  const { shift } = scenario;
  tell(work, { is: 'shiftOpened', shift: shift.id, date: shift.date, startsAt: shift.startsAt });
  trueUp(work, 'holdingBin', readings.holdingBinKg, 'dry aggregate');
  settle(work);
  drive(work, 'interlock', 'line.signalsKnown');
  for (const tank of ['emulsion', 'cutback'] as const)
    if (scenario.mixes.some((mix) => mix.family === tank && mix.windows.binderC.fromC > WARM_FROM_C))
      drive(work, `${tank}Tank`, 'operator.heatOn');
  settle(work);
};

/** One tick with the readings of its moment. */
export const tickLine = (work: Work, readings: Readings): void => {
  const { line } = work;
  line.tick += 1;
  const first = line.tick === 1;
  const fresh = readings !== line.readings;
  const before = line.readings;
  line.readings = readings;
  const watch = watchOn(line, before);
  const counted = watch !== line.watch && limitsPassed(line, watch) !== limitsPassed(line, line.watch);
  line.watch = watch;
  if (first) {
    openShift(work);
    return;
  }
  const fired = runTimers(work);
  countMixing(work);
  noteGains(work);
  // Once a second all is looked at, for what hangs on time alone.
  const second = line.tick % SECOND_TICKS === 0;
  const cared = second && careBySecond(work);
  if (fresh || counted || fired || cared || line.unsettled || (second && waitsOnTime(line))) settle(work);
  if (second) settleAlarms(work);
};

/** True when the campaign or a batch is at work: a shift is not ended over it without a word. */
export const isAtWork = (line: Line): boolean =>
  batchValue(line).step !== 'ready' || !['idle', 'cautions', 'available'].includes(campaignState(line));
