/** Where a lot stands by what is known of it: its state in words, what is missing, what fails, what the rules propose. */
import type { Grading } from '../mix/gradation.ts';
import type { LabTest } from '../scenario/lab-tests.ts';
import type { LotState, Result } from './facts.ts';
import { judge } from './judge/judge.ts';
import type { Judgement, LotResult } from './judge/judge.types.ts';
import type { LabLot, LabSample, LabState, LabWorksheet, MixNote, SpecificationNote } from './state.ts';

export const specificationOf = (state: LabState, lot: LabLot): SpecificationNote | null =>
  state.specifications[`${lot.specification}@${lot.specificationVersion}`] ?? null;

export const mixOf = (state: LabState, lot: LabLot): MixNote | null =>
  state.mixes[`${lot.mixId}@${lot.mixVersion}`] ?? null;

/** A worksheet counts until it is set aside. */
export const counting = (lot: LabLot): readonly LabWorksheet[] =>
  lot.worksheets.filter((sheet) => sheet.aside === null);

/** Results as the judge wants them: the first sheet of a sample and test is 0, its retests follow in their order. */
export const lotResults = (lot: LabLot): LotResult[] => {
  const seen = new Map<string, number>();
  return counting(lot).flatMap((sheet) => {
    if (sheet.sample === null) return [];
    const key = `${sheet.sample}/${sheet.test}`;
    const retest = sheet.retest ? (seen.get(key) ?? 0) + 1 : 0;
    seen.set(key, retest);
    return sheet.results.map(({ property, value, unit }) => ({
      sample: sheet.sample as number,
      test: sheet.test as LabTest,
      property,
      value,
      unit,
      retest,
      at: sheet.testedAt,
    }));
  });
};

/** The newest test of a bin's stone that counts, %; null when nobody tested it. */
const testedAbsorption = (state: LabState, bin: number): number | null =>
  state.others
    .findLast(
      (sheet) =>
        sheet.aside === null &&
        sheet.subject?.kind === 'bin' &&
        sheet.subject.id === String(bin) &&
        sheet.results.some((one) => one.property === 'absorptionPct'),
    )
    ?.results.find((one) => one.property === 'absorptionPct')?.value ?? null;

/** Water absorption of the stone by its shares in the mix, %; null when that of a bin is unknown. */
export const absorptionPct = (state: LabState, mix: MixNote): number | null => {
  let sum = 0;
  for (const { bin, dryPct } of mix.aggregates) {
    const value = testedAbsorption(state, bin) ?? state.now.absorptionPct[bin - 1];
    if (value === undefined) return null;
    sum += (value * dryPct) / 100;
  }
  return Math.round(sum * 1e6) / 1e6;
};

/** Grading of the stone in each bin that has one, by number, as the plant file of the shift at hand has it. */
export const gradingsNow = ({ now }: Pick<LabState, 'now'>): ReadonlyMap<number, Grading> =>
  new Map((now.gradings ?? []).flatMap((one, i) => (one === null ? [] : [[i + 1, one] as const])));

/**
 * The judgement by the specification the lot was opened under; null where its mix names none. What the mix itself is
 * made to can be left out: it changes no verdict and takes the longest.
 */
export const judgementOf = (state: LabState, lot: LabLot, withMix = true): Judgement | null => {
  const specification = specificationOf(state, lot);
  if (specification === null) return null;
  return judge(specification, lotResults(lot), {
    absorptionPct: lot.absorptionPct,
    lotGrams: lot.grams,
    fullLotGrams: lot.ofKg * 1000,
    closed: lot.closedAt !== null,
    samples: lot.samples.map((sample) => ({
      n: sample.n,
      test: sample.test as LabTest,
      // To the judge a sample in the lab is one that was taken, unless it stands in for a lost one.
      state: sample.state === 'logged' && sample.substitute === null ? ('taken' as const) : sample.state,
    })),
    ...(withMix ? { mix: mixOf(state, lot), gradings: gradingsNow(state) } : {}),
  });
};

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** By property, in the order they first stand: the mean over samples of what counts, a retest counting within its sample. */
const meansOf = (results: readonly (LotResult & { readonly counts: boolean })[]): Result[] => {
  const found = new Map<string, { unit: string; samples: Map<number, number[]> }>();
  for (const { property, value, unit, counts, sample } of results) {
    if (!counts) continue;
    const one = found.get(property) ?? { unit, samples: new Map<number, number[]>() };
    one.samples.set(sample, [...(one.samples.get(sample) ?? []), value]);
    found.set(property, one);
  }
  return [...found].map(([property, { unit, samples }]) => ({
    property,
    value: Math.round(mean([...samples.values()].map(mean)) * 1e6) / 1e6,
    unit,
  }));
};

const anyIs = (lot: LabLot, ...states: readonly LabSample['state'][]): boolean =>
  lot.samples.some((sample) => states.includes(sample.state));

/** The state of a lot nobody has decided about. */
const undecidedState = (lot: LabLot): LotState => {
  if (lot.held) return 'on hold';
  if (lot.worksheets.length > 0) return 'testing';
  if (lot.closedAt === null) return anyIs(lot, 'due', 'taken', 'logged') ? 'sampling' : 'open';
  if (!anyIs(lot, 'taken', 'logged', 'missed', 'due')) return 'closed';
  return anyIs(lot, 'taken', 'due', 'missed') ? 'sampling' : 'testing';
};

const DECIDED: readonly LotState[] = ['accepted', 'rejected', 'released by concession'];

/** What is missing beyond results: the lot itself, its plan, its samples in the book. */
const lacking = (lot: LabLot): string[] => [
  ...(lot.closedAt === null ? ['The lot is not closed yet.'] : []),
  ...(lot.closedAt !== null && lot.plan !== null && lot.plan.nonce === null
    ? ['Its sampling plan has not been opened yet.']
    : []),
  ...lot.retests
    .filter((retest) => !retest.done)
    .map((retest) => `The retest of sample ${retest.sample} (${retest.test}) that was ordered.`),
];

/** Nothing the judgement rests on has changed. */
const judgedAlike = (lot: LabLot, before: LabLot): boolean =>
  lot.worksheets === before.worksheets &&
  lot.retests === before.retests &&
  lot.closedAt === before.closedAt &&
  lot.plan?.nonce === before.plan?.nonce &&
  (lot.closedAt === null || lot.grams === before.grams) &&
  lot.samples.length === before.samples.length &&
  lot.samples.every((sample, i) => {
    const was = before.samples[i] as LabSample;
    return (
      sample === was ||
      (sample.n === was.n &&
        sample.test === was.test &&
        sample.state === was.state &&
        (sample.substitute === null) === (was.substitute === null))
    );
  });

type Judged = Pick<LabLot, 'missing' | 'failing' | 'results'>;

const judgedNow = (state: LabState, lot: LabLot): Judged => {
  const judged = judgementOf(state, lot, false);
  const missing = [
    ...lacking(lot),
    ...(judged === null
      ? ['Its mix names no specification: nothing says what it must meet.']
      : judged.missing.map((one) => one.words)),
  ];
  const failing = judged === null ? [] : [...new Set(judged.failing.map((one) => one.words))];
  const results =
    judged === null
      ? meansOf(lotResults(lot).map((one) => ({ ...one, counts: true })))
      : meansOf(judged.results);
  return { missing, failing, results };
};

/**
 * The lot with its state, verdict, missing, failing, results and proposal told anew. A decision stands until it is
 * re-opened. Given how it stood `before`, it is judged again only when something the judgement rests on has changed.
 */
export const standing = (state: LabState, lot: LabLot, before?: LabLot): LabLot => {
  if (lot.folded) return lot;
  const decided = DECIDED.includes(lot.state) && lot.decidedBy !== null;
  const { missing, failing, results }: Judged =
    before !== undefined && judgedAlike(lot, before) ? before : judgedNow(state, lot);
  const verdict = failing.length > 0 ? 'fail' : missing.length > 0 ? 'incomplete' : 'pass';
  return {
    ...lot,
    state: decided ? lot.state : undecidedState(lot),
    verdict,
    missing,
    failing,
    results,
    proposal: decided
      ? 'wait'
      : verdict === 'pass'
        ? 'accept'
        : verdict === 'fail'
          ? 'decide what follows'
          : 'wait',
  };
};
