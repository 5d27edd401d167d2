/** What the book of job mixes answers to a command: facts that follow, or reasons in words. */
import type { Asked, Told } from '../../record/book.types.ts';
import { versionOf } from './approved.ts';
import type { MixesCommand } from './commands.ts';
import { factorOf, isFactor } from './factors.ts';
import type { MixFact } from './facts.ts';
import { fitsPlant } from './fits-plant.ts';
import { sameContent } from './hear-opening.ts';
import type { MixesState } from './state.ts';

type Answer = Told<MixFact>;
type Of<D extends MixesCommand['do']> = Asked<Extract<MixesCommand, { do: D }>>;

const no = (...because: string[]): Answer => ({ ok: false, because });
const yes = (...facts: MixFact[]): Answer => ({ ok: true, facts });

const missing = (mix: string, version: number): Answer =>
  no(`There is no version ${version} of ${mix}: look at the list of versions and choose one of them.`);

const draft = (state: MixesState, { command }: Of<'draftMix'>): Answer => {
  const { content, why, from } = command;
  const versions = state.mixes[content.id] ?? [];
  const numbers = versions.map((one) => one.content.version);
  const version = Math.max(0, ...numbers) + 1;
  const same = versions.find(
    (one) =>
      one.state !== 'withdrawn' && sameContent({ ...one.content, version: 1 }, { ...content, version: 1 }),
  );
  if (same !== undefined)
    return no(
      `Version ${same.content.version} of ${content.id} says exactly this already: change something, or use that version.`,
    );
  const other = versions.find((one) => one.content.family !== content.family);
  if (other !== undefined)
    return no(
      `${content.id} is ${other.content.family} mix: a mix never changes its family, give the new one an id of its own.`,
    );
  if (from !== null && versionOf(state, from.mix, from.version) === null)
    return missing(from.mix, from.version);
  const unfit = state.plant === null ? [] : fitsPlant(content, state.plant);
  if (unfit.length > 0) return no(...unfit);
  return yes({ is: 'mixDrafted', mix: content.id, version, content: { ...content, version }, why, from });
};

const approve = (state: MixesState, { command, by }: Of<'approveMix'>): Answer => {
  const { mix, version, note } = command;
  const one = versionOf(state, mix, version);
  if (one === null) return missing(mix, version);
  if (one.state === 'approved') return no(`Version ${version} of ${mix} is approved already.`);
  if (one.state === 'withdrawn')
    return no(`Version ${version} of ${mix} was withdrawn: draft it anew, then approve the new version.`);
  // Hot binder and its solvent: a second pair of eyes on every figure. Common practice, no source.
  if (one.content.family === 'cutback' && one.draftedBy?.person === by.person)
    return no(
      'A cutback mix is approved by somebody else than the person who drafted it: ask the supervisor or the quality officer.',
    );
  const unfit = state.plant === null ? [] : fitsPlant(one.content, state.plant);
  if (unfit.length > 0) return no(...unfit);
  const inForce = state.mixes[mix]?.find((row) => row.state === 'approved');
  return yes({
    is: 'mixApproved',
    mix,
    version,
    note,
    supersedes: inForce?.content.version ?? null,
  });
};

const withdraw = (state: MixesState, { command, by }: Of<'withdrawMix'>): Answer => {
  const { mix, version, reason } = command;
  const one = versionOf(state, mix, version);
  if (one === null) return missing(mix, version);
  if (one.state === 'withdrawn') return no(`Version ${version} of ${mix} is withdrawn already.`);
  if (one.state === 'superseded')
    return no(`Version ${version} of ${mix} is not in force: there is nothing to withdraw.`);
  if (one.state === 'approved' && by.role !== 'supervisor' && by.role !== 'quality officer')
    return no('An approved mix is withdrawn by the supervisor or the quality officer.');
  const before = one.tookPlaceOf === null ? null : versionOf(state, mix, one.tookPlaceOf);
  const backTo = one.state === 'approved' && before?.state === 'superseded' ? one.tookPlaceOf : null;
  return yes({ is: 'mixWithdrawn', mix, version, was: one.state, reason, backTo });
};

const twice = (results: readonly { readonly property: string }[]): string[] => {
  const seen = new Set<string>();
  return results.flatMap(({ property }) => {
    if (seen.has(property)) return [`${property} stands twice: give each result once`];
    seen.add(property);
    return [];
  });
};

/** 'T-260512-3': the day and a running number. */
const trialId = (state: MixesState, at: string): string =>
  `T-${at.slice(2, 4)}${at.slice(5, 7)}${at.slice(8, 10)}-${state.trialCount + 1}`;

const recordTrial = (state: MixesState, { command, at }: Of<'recordTrial'>): Answer => {
  const { mix, version, batch, kg, results, note } = command;
  if (versionOf(state, mix, version) === null) return missing(mix, version);
  const doubled = twice(results);
  if (doubled.length > 0) return no(...doubled);
  return yes({
    is: 'trialRecorded',
    trial: trialId(state, at),
    mix,
    version,
    batch,
    kg,
    results,
    note,
  });
};

const correctTrial = (state: MixesState, { command }: Of<'correctTrial'>): Answer => {
  const { trial, results, reason } = command;
  const one = state.trials.find((row) => row.trial === trial);
  if (one === undefined)
    return no(
      `There is no trial ${trial} among the newest: look at the list of trials; older ones are in the record and stay as they are.`,
    );
  const doubled = twice(results);
  if (doubled.length > 0) return no(...doubled);
  return yes({ is: 'trialCorrected', trial, was: one.results, now: results, reason });
};

const setFactor = (state: MixesState, { command }: Of<'setFactor'>): Answer => {
  const { factor, value, source, reason } = command;
  if (!isFactor(factor)) return no(`There is no factor ${factor}: choose one of the list.`);
  const was = factorOf(state.factors, factor);
  if (was.value === value && was.source === source) return no('This factor says exactly this already.');
  return yes({ is: 'factorSet', factor, was, now: { value, source }, reason });
};

const describeBin = (state: MixesState, { command }: Of<'describeBin'>): Answer => {
  const { bin, now, reason } = command;
  if (state.plant !== null && bin > state.plant.bins.length)
    return no(`The plant has ${state.plant.bins.length} bins: there is no bin ${bin}.`);
  if (now.kind === 'reclaimed' && now.ownBinderPct === 0)
    return no(
      'Reclaimed pavement brings binder of its own: give it in % of its dry mass, from an extraction.',
    );
  if (now.kind !== 'reclaimed' && now.ownBinderPct > 0)
    return no('Only reclaimed pavement brings binder of its own: set it to 0, or say that the bin holds it.');
  return yes({ is: 'binDescribed', bin, was: state.bins[String(bin)] ?? null, now, reason });
};

/** Facts or refusals; pure, never throws. */
export const answerMixes = (state: MixesState, asked: Asked<MixesCommand>): Answer => {
  const { command } = asked;
  switch (command.do) {
    case 'draftMix':
      return draft(state, { ...asked, command });
    case 'approveMix':
      return approve(state, { ...asked, command });
    case 'withdrawMix':
      return withdraw(state, { ...asked, command });
    case 'recordTrial':
      return recordTrial(state, { ...asked, command });
    case 'correctTrial':
      return correctTrial(state, { ...asked, command });
    case 'setFactor':
      return setFactor(state, { ...asked, command });
    case 'describeBin':
      return describeBin(state, { ...asked, command });
  }
};
