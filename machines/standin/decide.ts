/** What a stand-in would do next, looking at the line as a person at the console does. */
import { alarmState } from '../charts/alarm/alarm.guards.ts';
import { resetBlockedBy } from '../charts/flame-interlock/flame-interlock.guards.ts';
import { ALARMS, isStepSlow } from '../line/alarms.ts';
import type { Command } from '../line/commands.ts';
import type { ChartId, Line, Order } from '../line/line.types.ts';
import {
  batchesLeft,
  batchValue,
  campaignState,
  chartValue,
  drawsDried,
  presentMix,
  presentOrder,
  WEIGHER_IDS,
  weigherState,
} from '../line/lookup.ts';
import { driedTooCold, reasonsAgainstStart } from '../line/refusals-start.ts';
import { stateReasons } from '../line/refusals-state.ts';
import { dryTargets } from '../mix/batch-targets.ts';
import type { Skill } from '../scenario/shift.schema.ts';
import { TRAITS } from './skills.ts';

/** Minutes a batch takes, and a batch's share of drying, cooling and mixing; used to stop in time. Common practice, no source. */
const BATCH_MIN = { emulsion: 7, cutback: 6 };
const CAMPAIGN_MIN_PER_BATCH = 12;
const CAMPAIGN_MIN = 20;
const COATED_ENOUGH_PCT = 95;
const REFILL_BELOW_PCT = 30;
const MOST_EXTRA_MIXES = 5;
/** A step that has stood still this long will not go on by itself. Common practice, no source. */
const GIVES_UP_AFTER_TICKS = 9000;
/** Twice the firing a wet charge takes. Common practice, no source. */
const FUEL_TICKS_A_CHARGE = 6000;

const minutesLeft = (line: Line): number => line.scenario.shift.hours * 60 - line.tick / 600;

const nextOrder = (line: Line): Order | null =>
  line.orders.find((order) => order.n !== line.order && batchesLeft(line, order) > 0) ?? null;

export const afterTrouble = (line: Line): Command | null => {
  if (line.signals.tripped)
    return resetBlockedBy(chartValue(line, 'interlock') as never).length === 0 ? { do: 'resetTrip' } : null;
  if (line.signals.burnerLockedOut) {
    // It looks into the cause first: a minute at least.
    const since = line.alarms['burner-locked-out']?.sinceTick ?? line.tick;
    return line.tick - since > 600 ? { do: 'resetBurner' } : null;
  }
  if (isStepSlow(line)) {
    const scale = line.signals.hopperEmpty ? (line.signals.bucketEmpty ? null : 'bucket') : 'hopper';
    if (scale !== null && stateReasons(line, { do: 'zeroScale', scale }).length === 0)
      return { do: 'zeroScale', scale };
  }
  const { procedure, step } = batchValue(line);
  // A batch that waits for aggregate which only gets colder waits for ever.
  if (procedure === 'running' && step === 'waitingForAggregate' && driedTooCold(line)) return { do: 'stop' };
  if (procedure === 'running' && line.tick - line.stepTick > GIVES_UP_AFTER_TICKS && isStepSlow(line))
    return { do: 'stop' };
  if (procedure === 'idle' && WEIGHER_IDS.some((id) => weigherState(line, id) === 'light'))
    return { do: 'topUp' };
  if (procedure === 'held') {
    const states = WEIGHER_IDS.map((id) => weigherState(line, id));
    if (states.includes('heavy')) return { do: 'dump', reason: 'weight too heavy' };
    if (states.includes('light') || states.includes('stalled')) return { do: 'topUp' };
    return states.includes('toppingUp') || states.includes('settling') || states.includes('judging')
      ? null
      : { do: 'restart' };
  }
  if (procedure === 'stopped' || procedure === 'aborted')
    return step === 'ready' ? { do: 'reset' } : { do: 'dump', reason: 'batch was broken off' };
  return null;
};

/** Between batches, or when one waits for just that. */
const mayCalibrate = (line: Line): boolean => ['ready', 'waitingForBinder'].includes(batchValue(line).step);

/** A detector out of calibration is calibrated before anything is lit or mixed; a delivery that was confirmed is ended in time. */
export const care = (line: Line): Command | null => {
  if (!line.signals.detectorCalibrated && line.signals.detectorOk && mayCalibrate(line))
    return { do: 'proveCause', cause: 'FI-20', result: 'passed', remark: 'Calibrated with test gas' };
  for (const tank of ['emulsion', 'cutback'] as const) {
    const { delivery } = line.tankMemos[tank];
    if (delivery?.confirmedAs === tank && line.tick > delivery.doneTick) return { do: 'endDelivery', tank };
  }
  return null;
};

export const alarmToAcknowledge = (line: Line): Command | null => {
  const alarm = ALARMS.find((one) => {
    const state = alarmState(chartValue(line, `alarm:${one.id}` as ChartId) as never);
    return state === 'unacknowledged' || state === 'returned unacknowledged';
  });
  return alarm === undefined ? null : { do: 'acknowledge', alarm: alarm.id };
};

const look = (line: Line): Command | null => {
  const { procedure, step } = batchValue(line);
  if (procedure !== 'running' || step !== 'looking' || line.batch === null) return null;
  if (line.readings.sightCoatedPct >= COATED_ENOUGH_PCT) return { do: 'confirmLook' };
  const { times } = presentMix(line);
  const mixedS = line.batch.mixedTicks / 10;
  if (mixedS < times.binderMixS + MOST_EXTRA_MIXES * times.extraMixS && mixedS < times.longestMixS)
    return { do: 'extendMix' };
  return { do: 'dump', reason: 'stones stay bare' };
};

export const sample = (line: Line): Command | null => {
  const due = line.lots.some((lot) => lot.samples.some((one) => one.state === 'due'));
  return due && batchValue(line).step === 'discharging' ? { do: 'takeSample' } : null;
};

export const refill = (line: Line): Command | null => {
  const { bins } = line.scenario.plant;
  for (let i = 0; i < bins.length; i += 1) {
    const level = line.readings[`bin${i + 1}LevelPct` as 'bin1LevelPct'];
    if (level < REFILL_BELOW_PCT) return { do: 'refillBin', bin: i + 1 };
  }
  return null;
};

export const campaign = (line: Line): Command | null => {
  const stage = campaignState(line);
  // A drum that comes to nothing after so much fuel has too little in it, or too much.
  if (
    stage === 'flameLost' &&
    (line.campaign?.fuelTicks ?? 0) > ((line.campaign?.charges ?? 0) + 1) * FUEL_TICKS_A_CHARGE
  )
    return { do: 'endCampaign' };
  if (stage === 'cautions') return { do: 'acknowledgeCautions' };
  if (
    stage === 'readyToLight' ||
    (stage === 'flameLost' && !line.signals.burnerRunning && chartValue(line, 'burner') === 'off')
  )
    return { do: 'lightBurner' };
  return null;
};

export const reckless = (line: Line): Command | null => {
  const { step } = batchValue(line);
  return presentMix(line).family === 'cutback' && step === 'mixing' ? { do: 'lightBurner' } : null;
};

export const startWork = (line: Line): Command | null => {
  const { procedure, step } = batchValue(line);
  if (
    procedure === 'idle' &&
    step === 'ready' &&
    !line.signals.hopperEmpty &&
    line.weighers.aggregateWeigher.purpose === null
  )
    return stateReasons(line, { do: 'zeroScale', scale: 'hopper' }).length === 0
      ? { do: 'zeroScale', scale: 'hopper' }
      : { do: 'dump', reason: 'the hopper is not empty' };
  if (procedure !== 'idle' || step !== 'ready') return null;
  // Batches still ahead start by themselves, unless the dried aggregate for them is used up.
  const waits = line.batchesAhead > 0;
  if (waits && !(drawsDried(presentMix(line)) && campaignState(line) === 'idle')) return null;
  if (driedTooCold(line)) return { do: 'endCampaign' };
  const order = presentOrder(line);
  const mix = presentMix(line);
  const wanted = batchesLeft(line, order);
  const left = minutesLeft(line);
  const stage = campaignState(line);
  if (wanted <= 0) {
    const next = nextOrder(line);
    return next !== null && (stage === 'idle' || stage === 'available')
      ? { do: 'chooseOrder', order: next.n }
      : null;
  }
  if (drawsDried(mix) && stage === 'idle') {
    const fits = Math.floor((left - CAMPAIGN_MIN) / CAMPAIGN_MIN_PER_BATCH);
    const perBin = Math.floor(line.scenario.plant.holdingBin.capacityKg / dryTargets(mix).dryKg) - 1;
    const perLot = Math.ceil(mix.lotKg / mix.batchKg);
    const batches = Math.min(wanted, fits, perBin, perLot);
    return batches >= 2 ? { do: 'startCampaign', batches } : null;
  }
  const fits = Math.floor(left / BATCH_MIN[mix.family]);
  const stock = drawsDried(mix) ? Math.floor(line.readings.holdingBinKg / dryTargets(mix).dryKg) : wanted;
  const batches = Math.min(wanted, fits, stock, 20);
  return batches > 0 && reasonsAgainstStart(line).length === 0 ? { do: 'start', batches } : null;
};

const endShift = (line: Line): Command | null =>
  minutesLeft(line) <= 0 && batchValue(line).step === 'ready' && !line.signals.burnerRunning
    ? { do: 'endShift' }
    : null;

/** The most pressing thing to do now, or null: watch. `skill` is that of the stand-in in the seat, unless said otherwise. */
export const decide = (line: Line, skill: Skill = line.seat.standIn ?? 'good'): Command | null => {
  if (line.ended) return alarmToAcknowledge(line);
  const traits = TRAITS[skill];
  return (
    afterTrouble(line) ??
    (traits.lightsOverCutback ? reckless(line) : null) ??
    alarmToAcknowledge(line) ??
    care(line) ??
    look(line) ??
    sample(line) ??
    campaign(line) ??
    refill(line) ??
    endShift(line) ??
    startWork(line)
  );
};
