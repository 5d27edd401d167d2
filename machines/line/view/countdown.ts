/** The one number that counts: time left of a step, time mixed so far, or a forecast, said to be one. */
import type { Step } from '../../charts/batch/batch.guards.ts';
import { isFilling } from '../../charts/weigher/weigher.guards.ts';
import { dryingForecast, holdingBinForecast } from '../forecast.ts';
import type { Line, WeigherId } from '../line.types.ts';
import {
  campaignState,
  drawsDried,
  drawWindow,
  dryingMix,
  presentMix,
  WEIGHER_SCALES,
  weigherState,
} from '../lookup.ts';
import type { NowView } from '../view.types.ts';

const timerOf = (line: Line, chart: string): NowView['countdown'] => {
  const timer = line.timers.find((each) => each.chart === chart);
  if (timer === undefined) return null;
  return {
    way: 'down',
    seconds: Math.ceil(timer.leftTicks / 10),
    ofSeconds: Math.round(timer.ofTicks / 10),
    label: 'until this step is over',
  };
};

/** Seconds the scale still needs at the rate its gate gives; a forecast, shown as one. */
const weighingCountdown = (line: Line, id: WeigherId): NowView['countdown'] => {
  const weigher = line.weighers[id];
  const state = weigherState(line, id);
  if (!isFilling(state) && state !== 'settling' && state !== 'judging') return null;
  const { plant } = line.scenario;
  let seconds = 0;
  let all = 0;
  for (const [i, task] of weigher.tasks.entries()) {
    const flow =
      id === 'binderWeigher'
        ? plant.bucket.fillKgS
        : id === 'dryWeigher'
          ? plant.holdingBin.fullFlowKgS
          : (plant.bins[task.bin - 1]?.fullFlowKgS ?? 10);
    const needed = task.targetKg / flow + 9;
    all += needed;
    if (i < weigher.at) continue;
    const reading = line.readings[WEIGHER_SCALES[id].tag];
    const gained = i === weigher.at ? Math.abs(reading - weigher.fromKg) : 0;
    seconds += Math.max(1, needed * (1 - Math.min(1, gained / task.targetKg)));
  }
  return {
    way: 'forecast',
    seconds: Math.ceil(seconds),
    ofSeconds: Math.ceil(all),
    label: 'until weighed (forecast)',
  };
};

export const batchCountdown = (line: Line, step: Step): NowView['countdown'] => {
  if (step === 'charging') {
    const id = drawsDried(presentMix(line)) ? 'dryWeigher' : 'aggregateWeigher';
    return weighingCountdown(line, id);
  }
  if (step === 'waitingForAggregate') {
    const { untilInS } = holdingBinForecast(line, presentMix(line));
    const { toC } = drawWindow(presentMix(line));
    if (untilInS === null) return null;
    return {
      way: 'forecast',
      seconds: Math.ceil(untilInS),
      ofSeconds: Math.max(Math.ceil(untilInS), 3000),
      label: `until the aggregate is at ${toC} °C (forecast)`,
    };
  }
  if (step === 'looking')
    return {
      way: 'up',
      seconds: Math.floor((line.batch?.mixedTicks ?? 0) / 10),
      ofSeconds: presentMix(line).times.longestMixS,
      label: 'mixed so far with binder',
    };
  return timerOf(line, 'batch');
};

export const campaignCountdown = (line: Line): NowView['countdown'] => {
  const stage = campaignState(line);
  const mix = dryingMix(line);
  if (stage === 'cooling' && mix !== null) {
    const { untilInS } = holdingBinForecast(line, mix);
    if (untilInS === null) return null;
    return {
      way: 'forecast',
      seconds: Math.ceil(untilInS),
      ofSeconds: Math.max(3000, Math.ceil(untilInS)),
      label: `until the aggregate is at ${drawWindow(mix).toC} °C (forecast)`,
    };
  }
  if (stage === 'available' && mix !== null) {
    const { untilOutS } = holdingBinForecast(line, mix);
    if (untilOutS === null) return null;
    return {
      way: 'forecast',
      seconds: Math.ceil(untilOutS),
      ofSeconds: Math.max(14_400, Math.ceil(untilOutS)),
      label: `until the aggregate cools below ${mix.windows.aggregateC.fromC} °C (forecast)`,
    };
  }
  if (stage === 'drying' && mix?.drying !== undefined) {
    const { seconds, ofSeconds } = dryingForecast(line, mix);
    return {
      way: 'forecast',
      seconds: Math.max(1, Math.ceil(seconds)),
      ofSeconds: Math.ceil(ofSeconds),
      label: `until this charge is at ${mix.drying.outC} °C (forecast)`,
    };
  }
  return null;
};
