/** The Now panel: what is happening and why, what is waited for, and what may be done. */
import { STEP_ORDER, type Step } from '../../charts/batch/batch.guards.ts';
import { isOutOfTolerance } from '../../charts/weigher/weigher.guards.ts';
import type { Line } from '../line.types.ts';
import {
  batchKind,
  batchValue,
  campaignState,
  drawsDried,
  presentMix,
  WEIGHER_IDS,
  weigherState,
} from '../lookup.ts';
import type { NowView } from '../view.types.ts';
import { currentTask } from '../weighing.ts';
import { actionsOf } from './actions.ts';
import { cautionsFor } from './cautions.ts';
import { batchCountdown, campaignCountdown } from './countdown.ts';
import { chartTitle } from './titles.ts';
import { waitingFor } from './waiting.ts';

const stepNames = (line: Line): NowView['steps'] => {
  const mix = presentMix(line);
  const { step } = batchValue(line);
  if (step === 'ready') return [];
  const order: readonly Step[] = STEP_ORDER[batchKind(mix)];
  const here =
    step === 'extraMixing' ? 'looking' : step === 'clearing' || step === 'discharged' ? 'discharging' : step;
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
  if (line.campaign !== null)
    return `Drying campaign ${line.campaign.n} · for ${line.campaign.batches} batches`;
  return `Order ${line.order} · ${mix.name}`;
};

const heldTitle = (line: Line): string => {
  if (line.signals.tripped) return 'Held: the flame interlock tripped';
  if (line.signals.weightOutOfTolerance) {
    for (const id of WEIGHER_IDS) {
      const task = currentTask(line.weighers[id]);
      const state = weigherState(line, id);
      if (task !== null && state === 'stalled')
        return `Held: ${task.material} is fed, but the scale does not gain`;
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
  const chart = inBatch
    ? 'batch'
    : stage === 'idle' || (stage === 'available' && !drawsDried(presentMix(line)))
      ? 'batch'
      : 'campaign';
  const node =
    chart === 'campaign' ? stage : steady || procedure === 'idle' ? `step.${step}` : `procedure.${procedure}`;
  const title = line.ended
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
    cautions: stage === 'cautions' ? cautionsFor(presentMix(line)) : null,
  };
};
