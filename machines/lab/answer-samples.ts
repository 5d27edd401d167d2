/** Answers about samples: logged, replaced, corrected, handed over, thrown away. */
import type { Who } from '../line/facts.ts';
import type { Told } from '../record/book.types.ts';
import type { LabCommand } from './commands.ts';
import { daysAfter } from './dates.ts';
import type { FieldChange, LabFact } from './facts.ts';
import { allLots, isDecided, lotIn } from './lots.ts';
import { specificationOf } from './standing.ts';
import type { LabLot, LabSample, LabState } from './state.ts';

type Of<N extends LabCommand['do']> = Extract<LabCommand, { do: N }>;
type Answer = Told<LabFact>;

export const no = (...because: string[]): Answer => ({ ok: false, because });
export const yes = (...facts: LabFact[]): Answer => ({ ok: true, facts });

/** How long a retained portion is kept where no specification says, days (common practice, no source). */
const RETAINED_DAYS = 30;

/** The lot in full, or why nothing can be done with it. */
export const lotOr = (state: LabState, lot: string): LabLot | string => {
  const found = lotIn(state, lot);
  if (found === undefined) return `There is no lot ${lot}: look at the label again.`;
  return found.folded
    ? `Lot ${lot} was finished long ago: its file is in the records and is not changed.`
    : found;
};

export const sampleOr = (lot: LabLot, n: number): LabSample | string =>
  lot.samples.find((one) => one.n === n) ??
  `Lot ${lot.lot} has no sample ${n}: its plan has ${lot.samples.map((one) => one.n).join(', ') || 'none'}.`;

const allLabels = (state: LabState): Set<string> =>
  new Set(
    allLots(state).flatMap((lot) => lot.samples.flatMap((one) => (one.label === null ? [] : [one.label]))),
  );

const discardDate = (state: LabState, lot: LabLot, takenAt: string): string =>
  daysAfter(takenAt, specificationOf(state, lot)?.retained.days ?? RETAINED_DAYS);

const portionReasons = (
  state: LabState,
  label: string,
  { massKg, retainedKg }: { readonly massKg: number; readonly retainedKg: number },
  discardOn: string,
  takenAt: string,
): string[] => [
  ...(allLabels(state).has(label)
    ? [`The label ${label} is on another sample: give this one a label of its own.`]
    : []),
  ...(retainedKg > massKg
    ? [`More is kept back (${retainedKg} kg) than was taken (${massKg} kg): correct one of the two.`]
    : []),
  ...(discardOn < takenAt.slice(0, 10)
    ? [`The date for throwing away, ${discardOn}, is before the sample was taken (${takenAt.slice(0, 10)}).`]
    : []),
];

export const logSample = (state: LabState, command: Of<'logSample'>): Answer => {
  const lot = lotOr(state, command.lot);
  if (typeof lot === 'string') return no(lot);
  const sample = sampleOr(lot, command.sample);
  if (typeof sample === 'string') return no(sample);
  if (sample.state === 'logged')
    return no(`Sample ${sample.n} of lot ${lot.lot} is logged already: correct it, with a reason.`);
  if (sample.state !== 'taken' || sample.takenBy === null || sample.takenAt === null || sample.batch === null)
    return no(
      sample.state === 'due'
        ? `Sample ${sample.n} is due and not taken yet: take it and confirm it at the line first.`
        : sample.state === 'ahead'
          ? `Sample ${sample.n} is not due yet: its time is sealed until the lot has come that far.`
          : `Sample ${sample.n} was ${sample.state}: put one in its place instead, with a reason.`,
    );
  const label = command.label ?? `${lot.lot}/S${sample.n}`;
  const discardOn = command.discardOn ?? discardDate(state, lot, sample.takenAt);
  const because = portionReasons(state, label, command, discardOn, sample.takenAt);
  if (because.length > 0) return no(...because);
  return yes({
    is: 'sampleLogged',
    lot: lot.lot,
    sample: sample.n,
    takenBy: sample.takenBy,
    takenAt: sample.takenAt,
    batch: sample.batch,
    massKg: command.massKg,
    container: command.container,
    label,
    retainedKg: command.retainedKg,
    discardOn,
    remark: command.remark,
  });
};

/** Why no other sample may stand in for this one, by the specification's rule for missed samples. */
const whyNotReplaced = (
  state: LabState,
  lot: LabLot,
  sample: LabSample,
  command: Of<'substituteSample'>,
): string[] => {
  const rule = specificationOf(state, lot)?.missedSample;
  const because: string[] = [];
  if (isDecided(lot)) because.push(`Lot ${lot.lot} is ${lot.state}: re-open the decision first.`);
  if (sample.state !== 'missed' && sample.state !== 'not reached')
    because.push(
      `Sample ${sample.n} is ${sample.state}: only one that was missed or not reached is replaced.`,
    );
  if (rule?.rule === 'hold')
    because.push(
      `By its specification a missed sample is not replaced: the lot stays without a verdict (${rule.why}). A concession is left.`,
    );
  if (command.source === 'bay' && lot.batches.length === 0)
    because.push(`Nothing of lot ${lot.lot} lies in bay ${lot.bay}: there is nothing to take from.`);
  if (command.source === 'retained portion') {
    const from = lot.samples.find((one) => one.n === command.ofSample);
    if (from === undefined) because.push('Say which sample’s retained portion it is taken from.');
    else if (from.state !== 'logged' || (from.retainedKg ?? 0) === 0)
      because.push(`Nothing was kept back of sample ${from.n}.`);
    else if (from.discarded) because.push(`What was kept back of sample ${from.n} has been thrown away.`);
    else if (command.massKg > (from.retainedKg ?? 0))
      because.push(`Only ${from.retainedKg} kg were kept back of sample ${from.n}.`);
  }
  return because;
};

export const substituteSample = (
  state: LabState,
  command: Of<'substituteSample'>,
  by: Who,
  at: string,
): Answer => {
  const lot = lotOr(state, command.lot);
  if (typeof lot === 'string') return no(lot);
  const sample = sampleOr(lot, command.sample);
  if (typeof sample === 'string') return no(sample);
  const label = command.label ?? `${lot.lot}/S${sample.n}R`;
  const discardOn = command.discardOn ?? discardDate(state, lot, at);
  const because = [
    ...whyNotReplaced(state, lot, sample, command),
    ...portionReasons(state, label, command, discardOn, at),
  ];
  if (because.length > 0) return no(...because);
  return yes({
    is: 'sampleSubstituted',
    lot: lot.lot,
    sample: sample.n,
    source: command.source,
    ofSample: command.source === 'bay' ? null : command.ofSample,
    takenBy: command.takenBy ?? by.person,
    takenAt: at,
    massKg: command.massKg,
    container: command.container,
    label,
    retainedKg: command.retainedKg,
    discardOn,
    reason: command.reason,
  });
};

export const correctSample = (state: LabState, command: Of<'correctSample'>): Answer => {
  const lot = lotOr(state, command.lot);
  if (typeof lot === 'string') return no(lot);
  const sample = sampleOr(lot, command.sample);
  if (typeof sample === 'string') return no(sample);
  if (sample.state !== 'logged')
    return no(`Sample ${sample.n} is not logged yet: there is nothing to correct.`);
  const changes: FieldChange[] = Object.entries(command.changes)
    .filter(([, now]) => now !== undefined)
    .map(([field, now]) => ({ field, was: sample[field as keyof LabSample] ?? null, now }))
    .filter(({ was, now }) => was !== now);
  if (changes.length === 0) return no('Nothing would change: the values are those that stand there.');
  const after = { ...sample, ...command.changes };
  if ((after.retainedKg ?? 0) > (after.massKg ?? 0))
    return no(`More would be kept back (${after.retainedKg} kg) than was taken (${after.massKg} kg).`);
  return yes({ is: 'sampleCorrected', lot: lot.lot, sample: sample.n, changes, reason: command.reason });
};

const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

export const handOverSample = (state: LabState, command: Of<'handOverSample'>): Answer => {
  const lot = lotOr(state, command.lot);
  if (typeof lot === 'string') return no(lot);
  const sample = sampleOr(lot, command.sample);
  if (typeof sample === 'string') return no(sample);
  const holder = sample.custody.at(-1)?.to ?? sample.takenBy;
  if (holder === null) return no(`Sample ${sample.n} has not been taken: nobody has it.`);
  if (!same(holder, command.from))
    return no(`Sample ${sample.n} is with ${holder}: only ${holder} can hand it over.`);
  if (same(command.from, command.to)) return no('It is handed over from one person to another: name two.');
  return yes({
    is: 'custodyHandedOver',
    lot: lot.lot,
    sample: sample.n,
    from: holder,
    to: command.to,
    remark: command.remark,
  });
};

export const discardRetained = (state: LabState, command: Of<'discardRetained'>, at: string): Answer => {
  const lot = lotOr(state, command.lot);
  if (typeof lot === 'string') return no(lot);
  const sample = sampleOr(lot, command.sample);
  if (typeof sample === 'string') return no(sample);
  if ((sample.retainedKg ?? 0) === 0) return no(`Nothing was kept back of sample ${sample.n}.`);
  if (sample.discarded) return no(`What was kept back of sample ${sample.n} has been thrown away already.`);
  if (lot.retests.some((retest) => !retest.done && retest.sample === sample.n))
    return no(`A retest on this portion was ordered and not made yet: keep it.`);
  const early = sample.discardOn !== null && at.slice(0, 10) < sample.discardOn;
  if (early && command.reason === undefined)
    return no(`It is to be kept until ${sample.discardOn}: wait, or give a reason.`);
  return yes({
    is: 'retainedDiscarded',
    lot: lot.lot,
    sample: sample.n,
    reason: command.reason ?? null,
  });
};
