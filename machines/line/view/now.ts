/** The Now panel: what is happening and why, what is waited for, and what may be done. */
import { STEP_ORDER, type Step } from '../../charts/batch/batch.guards.ts';
import { binderPermissives } from '../../charts/flame-interlock/flame-interlock.guards.ts';
import { CAUSES } from '../../charts/flame-interlock/flame-interlock.causes.ts';
import { isFilling, isOutOfTolerance } from '../../charts/weigher/weigher.guards.ts';
import type { Command, CommandEnvelope } from '../commands.ts';
import { holdingBinForecast } from '../forecast.ts';
import type { Line, WeigherId } from '../line.types.ts';
import { batchValue, campaignState, cutbackMix, drawWindow, mixById, presentMix, presentOrder, valueOf, weigherState } from '../lookup.ts';
import { reasonsAgainst } from '../refusals.ts';
import { bindingAggregateC } from '../signals-of.ts';
import type { ActionView, NowView, WaitLine } from '../view.types.ts';
import { currentTask } from '../weighing.ts';
import { chartTitle } from './titles.ts';

const one = (value: number): string => value.toFixed(1);

/** Nobody's role: what would be answered to a supervisor in the seat, or to whoever has it. */
const asker = (line: Line): CommandEnvelope['by'] =>
  line.seat.holder ?? { person: '', role: 'operator', console: '' };

const action = (
  line: Line,
  command: Command,
  label: string,
  weight: ActionView['weight'],
  needsReason = false,
): ActionView => ({
  command: command as ActionView['command'],
  label,
  weight,
  because: reasonsAgainst(line, command, asker(line)),
  needsReason,
});

const WEIGHERS: readonly WeigherId[] = ['aggregateWeigher', 'dryWeigher', 'binderWeigher'];

const weightActions = (line: Line): ActionView[] => {
  const states = WEIGHERS.map((id) => weigherState(line, id));
  if (!states.some(isOutOfTolerance)) return [];
  const actions: ActionView[] = [];
  if (states.includes('light')) actions.push(action(line, { do: 'topUp' }, 'Top up', 'primary'));
  actions.push({
    command: { do: 'acceptWeight' },
    label: 'Accept the weight',
    weight: 'plain',
    because: [],
    needsReason: true,
  });
  return actions;
};

const dumpAction = (line: Line): ActionView =>
  action(line, { do: 'dump', reason: 'asked at the console' }, 'Dump to waste', 'danger', true);

const batchActions = (line: Line): ActionView[] => {
  const { procedure, step } = batchValue(line);
  switch (procedure) {
    case 'running':
      if (step === 'looking')
        return [
          action(line, { do: 'confirmLook' }, 'Coated: discharge', 'primary'),
          action(line, { do: 'extendMix' }, `Mix ${presentMix(line).times.extraMixS} s more`, 'plain'),
          dumpAction(line),
          action(line, { do: 'hold' }, 'Hold', 'plain'),
        ];
      return [
        action(line, { do: 'hold' }, 'Hold', 'plain'),
        action(line, { do: 'stop' }, 'Stop', 'danger'),
        action(line, { do: 'abort' }, 'Abort', 'danger'),
      ];
    case 'holding':
    case 'held': {
      const out = weightActions(line);
      return [
        ...out,
        action(line, { do: 'restart' }, 'Restart', out.length > 0 ? 'plain' : 'primary'),
        dumpAction(line),
        action(line, { do: 'stop' }, 'Stop', 'danger'),
        action(line, { do: 'abort' }, 'Abort', 'danger'),
      ];
    }
    case 'stopped':
    case 'aborted':
      return step === 'ready'
        ? [action(line, { do: 'reset' }, 'Reset', 'primary')]
        : [{ ...dumpAction(line), weight: 'primary' }];
    default:
      return [];
  }
};

const batchesWanted = (line: Line): number => {
  const order = presentOrder(line);
  const mix = mixById(line, order.mixId);
  return Math.max(1, Math.ceil((order.tonnes * 1e6 - order.madeGrams) / (mix.batchKg * 1000)));
};

const campaignActions = (line: Line): ActionView[] => {
  switch (campaignState(line)) {
    case 'cautions':
      return [
        action(line, { do: 'acknowledgeCautions' }, 'I have read the cautions', 'primary'),
        action(line, { do: 'endCampaign' }, 'Not now', 'plain'),
      ];
    case 'readyToLight':
      return [
        action(line, { do: 'lightBurner' }, 'Light the burner', 'primary'),
        action(line, { do: 'endCampaign' }, 'Not now', 'plain'),
      ];
    case 'lighting':
    case 'charging':
    case 'drying':
    case 'emptying':
    case 'counting':
      return [action(line, { do: 'putOutBurner' }, 'Put the burner out', 'danger')];
    case 'flameLost':
      return [
        line.signals.burnerLockedOut
          ? action(line, { do: 'resetBurner' }, 'Reset the burner', 'primary')
          : action(line, { do: 'lightBurner' }, 'Light the burner again', 'primary'),
        action(line, { do: 'endCampaign' }, 'End the campaign', 'plain'),
      ];
    default:
      return [];
  }
};

const idleActions = (line: Line): ActionView[] => {
  const mix = presentMix(line);
  const stage = campaignState(line);
  const wanted = batchesWanted(line);
  const actions: ActionView[] = [];
  if (mix.family === 'cutback' && stage === 'idle') {
    const perLot = Math.min(wanted, Math.ceil(mix.lotKg / mix.batchKg));
    actions.push(
      action(line, { do: 'startCampaign', batches: perLot }, `Dry aggregate for ${perLot} batches`, 'primary'),
    );
  } else {
    actions.push(action(line, { do: 'start', batches: 1 }, 'Start one batch', 'primary'));
    if (wanted > 1) {
      const run = Math.min(wanted, 14);
      actions.push(action(line, { do: 'start', batches: run }, `Start ${run} in a row`, 'plain'));
    }
  }
  if (!line.signals.hopperEmpty || !line.signals.mixerEmpty || !line.signals.bucketEmpty) actions.push(dumpAction(line));
  actions.push(action(line, { do: 'endShift' }, 'End the shift', 'plain'));
  return actions;
};

const actionsOf = (line: Line): readonly ActionView[] => {
  if (line.ended) return [];
  const trip = line.signals.tripped ? [action(line, { do: 'resetTrip' }, 'Reset the trip', 'primary')] : [];
  const batch = batchActions(line);
  if (batch.length > 0) {
    const rest = trip.length > 0 ? batch.map((a) => (a.weight === 'primary' ? { ...a, weight: 'plain' as const } : a)) : batch;
    return [...trip, ...rest];
  }
  const campaign = campaignActions(line);
  const stage = campaignState(line);
  const idle = stage === 'idle' || stage === 'cooling' || stage === 'available' ? idleActions(line) : [];
  return [...trip, ...campaign, ...idle];
};

const aggregateLine = (line: Line): WaitLine => {
  const mix = presentMix(line);
  const { fromC, toC } = batchValue(line).step === 'waitingForAggregate' ? drawWindow(mix) : mix.windows.aggregateC;
  return {
    id: 'aggregate',
    text: `Aggregate ${one(bindingAggregateC(line))} °C`,
    wanted: `${fromC}–${toC} °C`,
    standing: line.signals.aggregateInWindow ? 'met' : 'unmet',
  };
};

const binderLine = (line: Line): WaitLine => {
  const mix = presentMix(line);
  const { fromC, toC } = mix.windows.binderC;
  const c = mix.family === 'cutback' ? line.readings.cutbackTankC : line.readings.emulsionTankC;
  return {
    id: 'binder',
    text: `Binder ${one(c)} °C`,
    wanted: `${fromC}–${toC} °C`,
    standing: line.signals.binderInWindow ? 'met' : 'unmet',
  };
};

const weighLine = (line: Line, id: WeigherId, label: string): WaitLine | null => {
  const weigher = line.weighers[id];
  if (weigher.tasks.length === 0) return null;
  const task = currentTask(weigher);
  const out = isOutOfTolerance(weigherState(line, id));
  return {
    id,
    text: task === null ? `${label} weighed` : `${label}: ${task.material}`,
    wanted: task === null ? '' : `${task.targetKg} ± ${one(task.toleranceKg)} kg`,
    standing: task === null ? 'met' : out ? 'alarm' : 'unmet',
  };
};

const isLine = (line: WaitLine | null): line is WaitLine => line !== null;

const interlockLines = (line: Line): WaitLine[] =>
  binderPermissives(valueOf(line, 'interlock') as never)
    .filter((permissive) => !permissive.met)
    .map((permissive) => ({
      id: permissive.id,
      text: CAUSES[permissive.id].words.unmet,
      wanted: permissive.id,
      standing: 'unmet' as const,
    }));

const waitingFor = (line: Line, step: Step): readonly WaitLine[] => {
  switch (step) {
    case 'charging':
      return [
        weighLine(line, 'aggregateWeigher', 'Aggregates'),
        weighLine(line, 'dryWeigher', 'Dry aggregate'),
        weighLine(line, 'binderWeigher', 'Binder'),
      ].filter(isLine);
    case 'preWetting': {
      const from = line.batch?.waterFromL;
      const given = from === undefined || from === null ? 0 : line.readings.waterMeterL - from;
      const target = line.batch?.waterTargetL ?? 0;
      return [
        {
          id: 'water',
          text: `Water ${one(given)} L`,
          wanted: `${one(target)} L`,
          standing: line.signals.waterDelivered ? 'met' : 'unmet',
        },
      ];
    }
    case 'waitingForAggregate':
      return [aggregateLine(line), binderLine(line)];
    case 'waitingForBinder':
      return [
        aggregateLine(line),
        binderLine(line),
        weighLine(line, 'binderWeigher', 'Binder'),
        ...(presentMix(line).family === 'cutback' ? interlockLines(line) : []),
      ].filter(isLine);
    case 'addingBinder':
      return [
        {
          id: 'bucket',
          text: `Bucket ${one(line.readings.bucketKg)} kg`,
          wanted: 'empty',
          standing: line.signals.bucketEmpty ? 'met' : 'unmet',
        },
      ];
    case 'looking':
      return [
        {
          id: 'coated',
          text: `Stones coated, by eye: ${line.readings.sightCoatedPct} %`,
          wanted: 'every stone',
          standing: line.readings.sightCoatedPct >= 95 ? 'met' : 'unmet',
        },
      ];
    default:
      return [];
  }
};

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
    const reading = line.readings[id === 'binderWeigher' ? 'bucketKg' : id === 'dryWeigher' ? 'holdingBinKg' : 'hopperKg'];
    const gained = i === weigher.at ? Math.abs(reading - weigher.fromKg) : 0;
    seconds += Math.max(1, needed * (1 - Math.min(1, gained / task.targetKg)));
  }
  return { way: 'forecast', seconds: Math.ceil(seconds), ofSeconds: Math.ceil(all), label: 'until weighed (forecast)' };
};

const batchCountdown = (line: Line, step: Step): NowView['countdown'] => {
  if (step === 'charging') {
    const id = presentMix(line).family === 'cutback' ? 'dryWeigher' : 'aggregateWeigher';
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

const campaignCountdown = (line: Line): NowView['countdown'] => {
  const stage = campaignState(line);
  const mix = cutbackMix(line);
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
    const target = mix.drying.outC;
    const from = line.readings.ambientC;
    const share = (line.readings.drumAggregateC - from) / Math.max(1, target - from);
    return {
      way: 'forecast',
      seconds: Math.ceil(Math.max(1, 260 * (1 - Math.max(0, Math.min(1, share))))),
      ofSeconds: 260,
      label: `until this charge is at ${target} °C (forecast)`,
    };
  }
  return null;
};

const CAUTIONS: readonly string[] = [
  'This binder is used above its flash point: its vapour can burn. No flame, no smoking, no sparks near the mixer, the tank vents or fresh mix.',
  'The dryer flame must be out and the drum purged before any cutback is let into the bucket or the mixer.',
  'Keep the hood fan on the whole time, and after the last batch until the vapour reading is low.',
  'Hot binder burns: face shield, heat-proof gloves, long sleeves, boots. Cool a burn with water and leave the binder on the skin for the doctor.',
  'Keep water out of hot binder: it foams over. Never open a hatch over a steaming tank.',
  'Know where the dry-powder or foam extinguisher and the emergency stop are, now.',
  'Local codes, the binder supplier’s safety sheet and licensed practice come first. This program is not a safety-rated controller.',
];

const stepNames = (line: Line): NowView['steps'] => {
  const mix = presentMix(line);
  const { step } = batchValue(line);
  if (step === 'ready') return [];
  const order: readonly Step[] = STEP_ORDER[mix.family];
  const here = step === 'extraMixing' ? 'looking' : step === 'clearing' || step === 'discharged' ? 'discharging' : step;
  const at = order.indexOf(here);
  return order.map((name, i) => ({
    name: chartTitle(line, 'batch', `step.${name}`),
    state: at < 0 ? 'ahead' : i < at ? 'done' : i === at ? 'now' : 'ahead',
  }));
};

const overLine = (line: Line): string => {
  const mix = presentMix(line);
  const steps = stepNames(line);
  if (line.batch !== null && steps.length > 0) {
    const at = steps.findIndex((step) => step.state === 'now');
    const where = at >= 0 ? ` · step ${at + 1} of ${steps.length}` : '';
    return `Batch ${line.batch.n} · ${mix.name}${where}`;
  }
  if (line.campaign !== null) return `Drying campaign ${line.campaign.n} · for ${line.campaign.batches} batches`;
  return `Order ${line.order} · ${mix.name}`;
};

const heldTitle = (line: Line): string => {
  if (line.signals.tripped) return 'Held: the flame interlock tripped';
  if (line.signals.weightOutOfTolerance) {
    for (const id of WEIGHERS) {
      const task = currentTask(line.weighers[id]);
      const state = weigherState(line, id);
      if (task !== null && isOutOfTolerance(state)) return `Held: ${task.material} is too ${state}`;
    }
  }
  return 'Held';
};

export const nowView = (line: Line): NowView => {
  const { procedure, step } = batchValue(line);
  const stage = campaignState(line);
  const inBatch = step !== 'ready' || procedure !== 'idle';
  const steady = procedure === 'running' || procedure === 'complete';
  const chart = inBatch ? 'batch' : stage === 'idle' || (stage === 'available' && presentMix(line).family === 'emulsion') ? 'batch' : 'campaign';
  const node = chart === 'campaign' ? stage : steady || procedure === 'idle' ? `step.${step}` : `procedure.${procedure}`;
  const title =
    line.ended
      ? 'The shift has ended'
      : inBatch && (procedure === 'held' || procedure === 'holding')
        ? heldTitle(line)
        : !inBatch && line.signals.tripped
          ? 'The flame interlock is tripped'
          : chartTitle(line, chart, node);
  const instruction = line.ended
    ? 'Everything is recorded. The lots are closed.'
    : line.signals.tripped
      ? 'Keep away from the mixer. When its cause is cleared, reset the trip; nothing moves before.'
      : chartTitle(line, chart, node, 'instruction');
  return {
    over: overLine(line),
    title,
    instruction,
    countdown: inBatch ? (steady ? batchCountdown(line, step) : null) : campaignCountdown(line),
    waitingFor: inBatch ? waitingFor(line, step) : [],
    actions: actionsOf(line),
    steps: stepNames(line),
    procedure,
    cautions: stage === 'cautions' ? { title: 'Before cutback: read this aloud', lines: CAUTIONS } : null,
  };
};
