/** The book of job mixes as a fold: what it takes from openings, from its own facts and from the line's moisture. */

import type { Fact, Who } from '../../line/facts.ts';
import type { Heard } from '../../record/book.types.ts';
import type { MixFact } from './facts.ts';
import { afterOpening } from './hear-opening.ts';
import type { MixesState, MixVersion, Trial } from './state.ts';

/** Trials kept at hand; older ones are in the record. */
export const TRIALS_KEPT = 200;

const changed = (
  state: MixesState,
  mix: string,
  change: (version: MixVersion) => MixVersion,
): MixesState => ({
  ...state,
  mixes: { ...state.mixes, [mix]: (state.mixes[mix] ?? []).map(change) },
});

const drafted = (
  state: MixesState,
  fact: Extract<MixFact, { is: 'mixDrafted' }>,
  by: Who,
  at: string,
): MixesState => {
  const version: MixVersion = {
    content: fact.content,
    state: 'draft',
    draftedBy: by,
    draftedAt: at,
    why: fact.why,
    from: fact.from,
    approvedBy: null,
    approvedAt: null,
    note: '',
    tookPlaceOf: null,
    withdrawn: null,
    differs: null,
  };
  return { ...state, mixes: { ...state.mixes, [fact.mix]: [...(state.mixes[fact.mix] ?? []), version] } };
};

const approved = (
  state: MixesState,
  fact: Extract<MixFact, { is: 'mixApproved' }>,
  by: Who,
  at: string,
): MixesState =>
  changed(state, fact.mix, (one) => {
    if (one.content.version === fact.version)
      return {
        ...one,
        state: 'approved',
        approvedBy: by,
        approvedAt: at,
        note: fact.note,
        tookPlaceOf: fact.supersedes,
      };
    return one.state === 'approved' ? { ...one, state: 'superseded' } : one;
  });

const withdrawn = (
  state: MixesState,
  fact: Extract<MixFact, { is: 'mixWithdrawn' }>,
  by: Who,
  at: string,
): MixesState =>
  changed(state, fact.mix, (one) => {
    if (one.content.version === fact.version)
      return { ...one, state: 'withdrawn', withdrawn: { by, at, reason: fact.reason } };
    return one.content.version === fact.backTo ? { ...one, state: 'approved' } : one;
  });

const corrected = (
  trial: Trial,
  fact: Extract<MixFact, { is: 'trialCorrected' }>,
  by: Who,
  at: string,
): Trial => ({
  ...trial,
  results: fact.now,
  corrections: [...trial.corrections, { by, at, reason: fact.reason, was: fact.was }],
});

const own = (state: MixesState, fact: MixFact, by: Who, at: string): MixesState => {
  switch (fact.is) {
    case 'mixDrafted':
      return drafted(state, fact, by, at);
    case 'mixApproved':
      return approved(state, fact, by, at);
    case 'mixWithdrawn':
      return withdrawn(state, fact, by, at);
    case 'trialRecorded': {
      const { trial, mix, version, batch, kg, results, note } = fact;
      const row: Trial = { trial, mix, version, batch, kg, results, note, by, at, corrections: [] };
      return {
        ...state,
        trials: [...state.trials, row].slice(-TRIALS_KEPT),
        trialCount: state.trialCount + 1,
      };
    }
    case 'trialCorrected':
      return {
        ...state,
        trials: state.trials.map((one) => (one.trial === fact.trial ? corrected(one, fact, by, at) : one)),
      };
    case 'factorSet':
      return { ...state, factors: { ...state.factors, [fact.factor]: fact.now } };
    case 'binDescribed':
      return { ...state, bins: { ...state.bins, [String(fact.bin)]: fact.now } };
    default: {
      const never: never = fact;
      throw new Error(`the book of job mixes does not know ${JSON.stringify(never)}`);
    }
  }
};

/** The line is corrected by a newer moisture test. */
const weighedFor = (state: MixesState, { bin, now }: Extract<Fact, { is: 'moistureSet' }>): MixesState => {
  const { plant } = state;
  if (plant === null) return state;
  const bins = plant.bins.map((spec, i) => (i === bin - 1 ? { ...spec, testedMoisturePct: now } : spec));
  return { ...state, plant: { ...plant, bins } };
};

/** The state after one thing was heard. Of the line it takes the moisture it weighs for; other books are none of its business. */
export const hearMixes = (state: MixesState, heard: Heard): MixesState => {
  switch (heard.from) {
    case 'opening':
      return afterOpening(state, heard.scenario, heard.at);
    case 'mixes':
      return own(state, heard.fact as MixFact, heard.by, heard.at);
    case 'line':
      return heard.fact.is === 'moistureSet' ? weighedFor(state, heard.fact) : state;
    case 'lab':
    case 'patches':
    case 'stock':
    case 'recalls':
      return state;
  }
};
