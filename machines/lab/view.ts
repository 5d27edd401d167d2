/** What the console is shown of the lab: what is to be done now, lots at work in full, all others in a line each. */

import type { Grading } from '../mix/gradation.ts';
import type { LotState, Result } from './facts.ts';
import { allLots, compareLots, isDecided } from './lots.ts';
import type {
  LabLot,
  LabSample,
  LabState,
  LabWorksheet,
  MixNote,
  MoistureTest,
  SpecificationNote,
} from './state.ts';
import { minutesBetween } from './worksheets/plant-time.ts';

/** A sample that somebody must see to now; it stands until it is taken, or made good by the specification's rule. */
export type SamplePrompt = {
  readonly lot: string;
  readonly sample: number;
  readonly test: string;
  /** due: from the next discharge; overdue: that discharge is over, take it now; missed: make it good; log: taken, not in the book. */
  readonly level: 'due' | 'overdue' | 'missed' | 'log';
  /** Grows with time: 0 quiet, 1 stands out, 2 also sounds where sounds are on. */
  readonly urgency: 0 | 1 | 2;
  readonly since: string;
  /** What to do, in a sentence. */
  readonly words: string;
};

/** Something else that waits for a person. */
export type LabTask = {
  readonly lot: string | null;
  readonly what: 'worksheet' | 'decide' | 'concession' | 'retest' | 'discard' | 'hold' | 'plan';
  readonly words: string;
};

/** One lot in a list. */
export type LotLine = {
  readonly lot: string;
  readonly state: LotState;
  readonly done: LabLot['done'];
  readonly mixId: string;
  readonly mixVersion: number;
  readonly family: LabLot['family'];
  readonly bay: number;
  readonly grams: number;
  readonly openedAt: string;
  readonly closedAt: string | null;
  readonly verdict: LabLot['verdict'];
  readonly missing: number;
  readonly failing: readonly string[];
  readonly results: readonly Result[];
  readonly labels: LabLot['labels'];
  /** What the state would become by the rules; a person decides. */
  readonly proposal: LabLot['proposal'];
  readonly folded: boolean;
};

export type LabView = {
  readonly at: string;
  readonly prompts: readonly SamplePrompt[];
  readonly tasks: readonly LabTask[];
  /** Newest first; all lots the book still holds. */
  readonly lots: readonly LotLine[];
  /** Lots not decided, and the newest decided ones, in full; newest first. */
  readonly working: readonly LabLot[];
  readonly others: readonly LabWorksheet[];
  readonly moisture: readonly MoistureTest[];
  readonly mixes: readonly MixNote[];
  readonly specifications: readonly SpecificationNote[];
  /** Stone of the plant at hand by bin: what mixes are blended to is held against their limits with it. */
  readonly gradings: readonly (Grading | null)[];
};

/** Decided lots shown in full beside those at work. */
const DECIDED_IN_FULL = 12;
/** Worksheets on no lot that are shown. */
const OTHERS_SHOWN = 60;
/** A sample that waits as long as this stands out, min. */
const STANDS_OUT_MIN = 2;

const nameOf = (sample: LabSample): string =>
  sample.test === '' ? `sample ${sample.n}` : `sample ${sample.n} (${sample.test})`;

/** The prompt a sample deserves, or null. */
export const promptOf = (lot: LabLot, sample: LabSample, at: string): SamplePrompt | null => {
  const since = sample.takenAt ?? sample.dueAt ?? lot.openedAt;
  const base = { lot: lot.lot, sample: sample.n, test: sample.test, since };
  const name = nameOf(sample);
  if (sample.state === 'due') {
    const waited = minutesBetween(since, at) ?? 0;
    const over = sample.batch !== null && lot.batches.includes(sample.batch);
    return over
      ? {
          ...base,
          level: 'overdue',
          urgency: 2,
          words: `Take ${name} of lot ${lot.lot} now: batch ${sample.batch} has been discharged and the next one will bury it.`,
        }
      : {
          ...base,
          level: 'due',
          urgency: waited >= STANDS_OUT_MIN ? 1 : 0,
          words: `Take ${name} of lot ${lot.lot} from the next discharge${sample.batch === null ? '' : ` (batch ${sample.batch})`}.`,
        };
  }
  if (sample.state === 'missed' && sample.substitute === null)
    return {
      ...base,
      level: 'missed',
      urgency: 2,
      words: `${name[0]?.toUpperCase()}${name.slice(1)} of lot ${lot.lot} was missed: take one in its place from the bay or a retained portion, and say why.`,
    };
  if (sample.state === 'taken')
    return {
      ...base,
      level: 'log',
      urgency: (minutesBetween(since, at) ?? 0) >= 60 ? 1 : 0,
      words: `Log ${name} of lot ${lot.lot}: weigh it, label it, keep a portion back.`,
    };
  return null;
};

const promptsOf = (lots: readonly LabLot[], at: string): SamplePrompt[] =>
  lots
    .filter((lot) => !isDecided(lot))
    .flatMap((lot) => lot.samples.flatMap((sample) => promptOf(lot, sample, at) ?? []))
    .sort((a, b) => b.urgency - a.urgency || (a.since < b.since ? -1 : 1));

const tasksOf = (lot: LabLot, at: string): LabTask[] => {
  const tasks: LabTask[] = [];
  const say = (what: LabTask['what'], words: string) => tasks.push({ lot: lot.lot, what, words });
  if (lot.plan?.findings != null && lot.plan.findings.length > 0)
    say('plan', `The opened sampling plan of lot ${lot.lot} does not hold: ${lot.plan.findings[0]}`);
  if (!isDecided(lot)) {
    if (lot.leftYardGrams !== undefined && lot.leftYardGrams > 0)
      say(
        'hold',
        `${(lot.leftYardGrams / 1e6).toFixed(2)} t of lot ${lot.lot} had left the yard when its decision was re-opened: see in Tracing which patches have it.`,
      );
    if (lot.concession !== null)
      say(
        'concession',
        `${lot.concession.askedBy} asks for a concession for lot ${lot.lot}: a supervisor grants or refuses it.`,
      );
    for (const retest of lot.retests)
      if (!retest.done)
        say(
          'retest',
          `Retest ${retest.test} on the retained portion of sample ${retest.sample}, lot ${lot.lot}.`,
        );
    for (const sample of lot.samples)
      if (
        sample.state === 'logged' &&
        !lot.worksheets.some((one) => one.sample === sample.n && one.aside === null)
      )
        say('worksheet', `Test sample ${sample.n} (${sample.test}) of lot ${lot.lot}.`);
    if (lot.state === 'on hold')
      say('hold', `Lot ${lot.lot} is on hold: ${lot.nextSteps[0] ?? 'decide what to do'}`);
    if (lot.proposal === 'accept')
      say('decide', `Lot ${lot.lot} has everything and meets its specification: accept it.`);
  }
  for (const sample of lot.samples)
    if (
      !sample.discarded &&
      sample.discardOn !== null &&
      (sample.retainedKg ?? 0) > 0 &&
      sample.discardOn <= at.slice(0, 10)
    )
      say(
        'discard',
        `The retained portion of sample ${sample.n}, lot ${lot.lot}, may be thrown away since ${sample.discardOn}.`,
      );
  return tasks;
};

const lineOf = (lot: LabLot): LotLine => ({
  lot: lot.lot,
  state: lot.state,
  done: lot.done,
  mixId: lot.mixId,
  mixVersion: lot.mixVersion,
  family: lot.family,
  bay: lot.bay,
  grams: lot.grams,
  openedAt: lot.openedAt,
  closedAt: lot.closedAt,
  verdict: lot.verdict,
  missing: lot.missing.length,
  failing: lot.failing,
  results: lot.results,
  labels: lot.labels,
  proposal: lot.proposal,
  folded: lot.folded,
});

export const viewLab = (state: LabState, at: string): LabView => {
  const lots = allLots(state).sort((a, b) => compareLots(b.lot, a.lot));
  const decided = lots.filter((lot) => isDecided(lot) && !lot.folded).slice(0, DECIDED_IN_FULL);
  const working = lots.filter((lot) => !isDecided(lot) || decided.includes(lot));
  return {
    at,
    prompts: promptsOf(lots, at),
    tasks: lots.filter((lot) => !lot.folded).flatMap((lot) => tasksOf(lot, at)),
    lots: lots.map(lineOf),
    working,
    others: state.others.slice(-OTHERS_SHOWN).reverse(),
    moisture: state.moisture,
    mixes: Object.values(state.mixes),
    specifications: Object.values(state.specifications),
    gradings: state.now.gradings ?? [],
  };
};
