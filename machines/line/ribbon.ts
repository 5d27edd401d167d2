/** The shift ribbon as the line keeps it: blocks of steps, and marks. */
import { isInProgress, type Step } from '../charts/batch/batch.guards.ts';
import type { CampaignState } from '../charts/campaign/campaign.machine.ts';
import { TICK_MS } from './line.types.ts';
import { batchValue, campaignState } from './lookup.ts';
import type { RibbonMark } from './view.types.ts';
import type { Work } from './work.ts';

export const BATCH_WORDS: { readonly [S in Step]: string } = {
  ready: 'idle',
  charging: 'charge',
  dropping: 'charge',
  preWetting: 'wet',
  preWetMixing: 'wet',
  antiStripping: 'wet',
  waitingForAggregate: 'wait',
  waitingForBinder: 'wait',
  addingBinder: 'binder',
  mixing: 'mix',
  extraMixing: 'mix',
  looking: 'look',
  discharging: 'discharge',
  clearing: 'discharge',
  discharged: 'discharge',
  dumping: 'dump',
  dumpClearing: 'dump',
  dumped: 'dump',
};

export const CAMPAIGN_WORDS: { readonly [S in CampaignState]?: string } = {
  lighting: 'purge',
  charging: 'dry',
  drying: 'dry',
  emptying: 'dry',
  counting: 'dry',
  flameLost: 'wait',
  puttingOut: 'purge',
  cooling: 'cool',
  runningOut: 'dump',
};

const wordNow = (work: Work): string => {
  const batch = batchValue(work.line);
  if (isInProgress(batch)) {
    if (batch.procedure === 'running' || batch.procedure === 'complete') return BATCH_WORDS[batch.step];
    return 'hold';
  }
  return CAMPAIGN_WORDS[campaignState(work.line)] ?? 'idle';
};

/** Ends the running block and opens the next, when what is being done has another name now. */
export const openBlock = (work: Work): void => {
  const { line } = work;
  const step = wordNow(work);
  const batch = isInProgress(batchValue(line)) ? (line.batch?.n ?? null) : null;
  const last = line.blocks[line.blocks.length - 1];
  if (last !== undefined && last.toMs === null && last.step === step && last.batch === batch) return;
  const atMs = line.tick * TICK_MS;
  const blocks = line.blocks.slice();
  if (last !== undefined && last.toMs === null) {
    if (last.fromMs === atMs) blocks.pop();
    else blocks[blocks.length - 1] = { ...last, toMs: atMs };
  }
  if (step !== 'idle') blocks.push({ fromMs: atMs, toMs: null, step, batch });
  line.blocks = blocks;
};

/** A shift has a few hundred marks; somebody hammering a refused button must not fill the ribbon. */
const REFUSAL_MARKS = 500;
const SAME_REFUSAL_MS = 10_000;

/** Marks a refusal, unless the same one was marked just now or there are plenty already. */
export const markRefusal = (work: Work, text: string): void => {
  const { line } = work;
  const refusals = line.marks.filter((one) => one.mark === 'refusal');
  const last = refusals[refusals.length - 1];
  if (refusals.length >= REFUSAL_MARKS) return;
  if (last !== undefined && last.text === text && line.tick * TICK_MS - last.atMs < SAME_REFUSAL_MS) return;
  addMark(work, 'refusal', text);
};

/** Marks an alarm, unless the same one was marked within the minute: a chattering alarm is one mark. */
export const markAlarm = (work: Work, text: string): void => {
  const { line } = work;
  const sinceMs = line.tick * TICK_MS - 60_000;
  if (!line.marks.some((one) => one.atMs > sinceMs && one.mark === 'alarm' && one.text === text))
    addMark(work, 'alarm', text);
};

export const addMark = (work: Work, mark: RibbonMark['mark'], text: string): void => {
  work.line.marks = [...work.line.marks, { atMs: work.line.tick * TICK_MS, mark, text }];
};
