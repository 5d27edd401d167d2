/** Incidents of a drill as time goes on: when each begins, what it does to the plant, when it is mended. */
import type { FieldAsk } from '../field/outputs.ts';
import type { Tag } from '../field/tags.ts';
import type { Called, Drill } from './drill.schema.ts';
import { allHold, type Standing } from './holds.ts';
import type { IncidentState, Message } from './run.types.ts';

type Told = Omit<Message, 'id' | 'tick' | 'answer'>;

const asWriter = (who: Called): string => `${who.slice(0, 1).toUpperCase()}${who.slice(1)}`;

export type Befallen = {
  readonly incidents: readonly IncidentState[];
  readonly asks: readonly FieldAsk[];
  readonly messages: readonly Told[];
};

const NO_ASKS: readonly FieldAsk[] = [];
const NO_MESSAGES: readonly Told[] = [];

/** What an incident asks of the field when it begins (`on`) or is over; nothing for a message. */
const askOf = (state: IncidentState, on: boolean): FieldAsk | null => {
  const { happening } = state;
  if (happening.what === 'message') return null;
  if (happening.what === 'equipment') return { ask: 'equipmentFault', equipment: happening.equipment, on };
  const tag = happening.tag as Tag;
  if (!on) return { ask: 'instrumentFault', tag, fault: null };
  if (happening.fault === 'drift')
    return { ask: 'instrumentFault', tag, fault: { fault: 'drift', perHour: state.by } };
  if (happening.fault === 'span')
    return { ask: 'instrumentFault', tag, fault: { fault: 'span', offPct: state.by } };
  return { ask: 'instrumentFault', tag, fault: { fault: happening.fault } };
};

/** All incidents at the present tick; the same states come back when nothing changed. */
export const befall = (drill: Drill, before: readonly IncidentState[], standing: Standing): Befallen => {
  const { tick } = standing.world;
  let asks = NO_ASKS;
  let messages = NO_MESSAGES;
  let changed = false;
  const incidents = before.map((state, i) => {
    const file = drill.incidents[i];
    if (file === undefined || state.toTick !== null) return state;
    if (state.fromTick === null) {
      let { dueTick } = state;
      if (dueTick === null && allHold(file.when, standing)) dueTick = tick + Math.round(state.afterS * 10);
      if (dueTick === null) return state;
      changed = true;
      if (dueTick > tick) return { ...state, dueTick };
      const ask = askOf(state, true);
      if (ask !== null) asks = [...asks, ask];
      const { happening } = state;
      if (happening.what === 'message') {
        const { from, text, answers } = happening;
        messages = [...messages, { from, text, answers, incident: state.id }];
      }
      const ends = state.lastsS === null ? null : tick + Math.round(state.lastsS * 10);
      return { ...state, dueTick, fromTick: tick, mendTick: ends };
    }
    if (state.mendTick === null || state.mendTick > tick) return state;
    changed = true;
    const ask = askOf(state, false);
    if (ask !== null) asks = [...asks, ask];
    if (state.called && file.mendedBy !== undefined) {
      messages = [
        ...messages,
        { from: asWriter(file.mendedBy), text: file.mendedWords, answers: [], incident: state.id },
      ];
    }
    return { ...state, toTick: tick };
  });
  return { incidents: changed ? incidents : before, asks, messages };
};

/** What a call to somebody sets going: faults they can mend are over after the time the mending takes. */
export const calledFor = (
  drill: Drill,
  before: readonly IncidentState[],
  who: Called,
  tick: number,
): readonly IncidentState[] =>
  before.map((state, i) => {
    if (drill.incidents[i]?.mendedBy !== who || state.fromTick === null || state.toTick !== null)
      return state;
    const done = tick + Math.round(state.mendS * 10);
    return state.mendTick !== null && state.mendTick <= done
      ? state
      : { ...state, mendTick: done, called: true };
  });

const WORDS: { readonly [W in Called]: { readonly afterS: number; readonly text: string } } = {
  fitter: { afterS: 45, text: 'I have looked, and find nothing more to mend.' },
  supervisor: { afterS: 5, text: 'Understood. I am on my way.' },
  laboratory: { afterS: 5, text: 'We take a sample and let you know. Use nothing before that.' },
  loader: { afterS: 5, text: 'Coming.' },
  'fire brigade': { afterS: 5, text: 'We are on our way. Get everybody out.' },
};

export type Visit = { readonly who: Called; readonly dueTick: number };

/** Somebody called who has nothing to mend says so after a while; one who has, says so when it is done. */
export const visitsAfterCall = (
  visits: readonly Visit[],
  incidents: readonly IncidentState[],
  drill: Drill,
  who: Called,
  tick: number,
): readonly Visit[] => {
  const mends = incidents.some(
    (state, i) => state.called && state.toTick === null && drill.incidents[i]?.mendedBy === who,
  );
  return mends || visits.some((one) => one.who === who)
    ? visits
    : [...visits, { who, dueTick: tick + WORDS[who].afterS * 10 }];
};

/** What those say who are due now. */
export const saidOnVisit = (visits: readonly Visit[], tick: number): readonly Told[] =>
  visits
    .filter((one) => one.dueTick <= tick)
    .map(({ who }) => ({ from: asWriter(who), text: WORDS[who].text, answers: [], incident: null }));
