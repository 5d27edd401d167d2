/** The Now panel: what is happening and why, what is waited for, and what may be done. */
import { STEP_ORDER, type Step } from '../../charts/batch/batch.guards.ts';
import { isOutOfTolerance } from '../../charts/weigher/weigher.guards.ts';
import type { ChartId, Line } from '../line.types.ts';
import {
  batchKind,
  batchValue,
  campaignState,
  drawsDried,
  presentMix,
  WEIGHER_IDS,
  weigherState,
} from '../lookup.ts';
import { driedTooCold } from '../refusals-start.ts';
import type { NowView } from '../view.types.ts';
import { currentTask } from '../weighing.ts';
import { actionsOf } from './actions.ts';
import { cautionsFor } from './cautions.ts';
import { batchCountdown, campaignCountdown } from './countdown.ts';
import { activeTitle, chartTitle } from './titles.ts';
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

type Sentence = { readonly title: string; readonly instruction: string };

const said = (line: Line, chart: ChartId, node: string): Sentence => ({
  title: chartTitle(line, chart, node),
  instruction: chartTitle(line, chart, node, 'instruction'),
});

const LOOK_AT_ONCE =
  'It has been mixed too long: discharge it now if every stone is coated, or dump it. Mixing on only strips it.';

const batchSentence = (line: Line): Sentence => {
  const { procedure, step } = batchValue(line);
  const steady = procedure === 'running' || procedure === 'complete';
  const words = said(line, 'batch', steady ? `step.${step}` : `procedure.${procedure}`);
  if (procedure === 'held' || procedure === 'holding') return { ...words, title: heldTitle(line) };
  const mixedS = (line.batch?.mixedTicks ?? 0) / 10;
  return step === 'looking' && mixedS > presentMix(line).times.longestMixS
    ? { ...words, instruction: LOOK_AT_ONCE }
    : words;
};

const restSentence = (line: Line): Sentence => {
  const stage = campaignState(line);
  const dried = drawsDried(presentMix(line));
  if (stage === 'idle' && dried)
    return {
      title: 'Dry aggregate first',
      instruction:
        'This mix takes its aggregate dried and warm from the holding bin: start a drying campaign.',
    };
  if (line.tick > line.scenario.shift.hours * 36_000 && (stage === 'idle' || stage === 'available'))
    return {
      title: 'The hours of this shift are over',
      instruction: 'Finish what must be finished, then end the shift: the open lot is closed with it.',
    };
  if (dried && driedTooCold(line))
    return {
      title: 'The dry aggregate has cooled below its window',
      instruction: 'Nothing warms it again: run the holding bin out to the waste heap, then dry again.',
    };
  if (stage === 'idle' || (stage === 'available' && !dried)) return said(line, 'batch', 'step.ready');
  // While it is being lit again the burner's own state says more than that the flame was lost.
  if (stage === 'flameLost' && !line.signals.burnerAtRest && !line.signals.burnerLockedOut)
    return { title: activeTitle(line, 'burner'), instruction: 'Air first, then pilot, then main flame.' };
  return said(line, 'campaign', stage);
};

const sentence = (line: Line, inBatch: boolean): Sentence => {
  if (line.ended)
    return { title: 'The shift has ended', instruction: 'Everything is recorded. The lots are closed.' };
  const words = inBatch ? batchSentence(line) : restSentence(line);
  if (!line.signals.tripped) return words;
  return {
    title: inBatch ? words.title : 'The flame interlock is tripped',
    instruction: 'Keep away from the mixer. When its cause is cleared, reset the trip; nothing moves before.',
  };
};

export const nowView = (line: Line): NowView => {
  const { procedure, step } = batchValue(line);
  const inBatch = step !== 'ready' || procedure !== 'idle';
  const steady = procedure === 'running' || procedure === 'complete';
  const waits = inBatch && steady;
  return {
    over: overLine(line),
    ...sentence(line, inBatch),
    countdown: waits ? batchCountdown(line, step) : inBatch ? null : campaignCountdown(line),
    waitingFor: inBatch ? waitingFor(line, step) : [],
    actions: actionsOf(line),
    steps: stepNames(line),
    procedure,
    cautions: campaignState(line) === 'cautions' ? cautionsFor(presentMix(line)) : null,
  };
};
