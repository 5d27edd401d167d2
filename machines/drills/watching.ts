/** Watches what the trainee does and what comes of it: good things met in time, things never done. */
import type { Command } from '../line/commands.ts';
import type { Action, Called, Drill } from './drill.schema.ts';
import { allHold, type Standing } from './holds.ts';
import type { ExpectedState, NeverState } from './run.types.ts';

/** One thing the trainee did. */
export type Act =
  | { readonly what: 'command'; readonly command: Command; readonly accepted: boolean }
  | { readonly what: 'call'; readonly who: Called }
  | { readonly what: 'answer'; readonly incident: string | null; readonly answer: string };

const isThat = (action: Action, act: Act): boolean => {
  if (action.what === 'command') {
    if (act.what !== 'command' || act.command.do !== action.do) return false;
    if (!act.accepted && !action.tried) return false;
    const given = act.command as { readonly [key: string]: unknown };
    return Object.entries(action.with).every(([key, value]) => given[key] === value);
  }
  if (action.what === 'call') return act.what === 'call' && act.who === action.who;
  return act.what === 'answer' && act.incident === action.incident && act.answer === action.answer;
};

const doneBy = (actions: readonly Action[], acts: readonly Act[]): Act | null =>
  acts.find((act) => actions.some((action) => isThat(action, act))) ?? null;

/** Opens what is called for now. The same list comes back when nothing changed. */
const opened = (
  drill: Drill,
  before: readonly ExpectedState[],
  standing: Standing,
): readonly ExpectedState[] => {
  let changed = false;
  const next = before.map((state, i) => {
    const file = drill.expect[i];
    if (file === undefined || state.openTick !== null || !allHold(file.from, standing)) return state;
    changed = true;
    return { ...state, openTick: standing.world.tick };
  });
  return changed ? next : before;
};

const met = (
  drill: Drill,
  before: readonly ExpectedState[],
  tick: number,
  isMet: (i: number) => boolean,
): readonly ExpectedState[] => {
  let changed = false;
  const next = before.map((state, i) => {
    if (state.openTick === null || state.metTick !== null || !isMet(i)) return state;
    changed = true;
    const early = (drill.expect[i]?.after ?? []).some(
      (id) => before.find((one) => one.id === id)?.metTick === null,
    );
    return { ...state, metTick: tick, early };
  });
  return changed ? next : before;
};

/** Expectations after acts, judged as things stood when they were done. */
export const expectedAfterActs = (
  drill: Drill,
  before: readonly ExpectedState[],
  acts: readonly Act[],
  standing: Standing,
): readonly ExpectedState[] => {
  if (acts.length === 0) return before;
  const open = opened(drill, before, standing);
  return met(drill, open, standing.world.tick, (i) => {
    const by = drill.expect[i]?.by;
    return by !== undefined && doneBy(by, acts) !== null;
  });
};

/** Expectations after a look at the plant: what is called for now, and what is reached. */
export const expectedAfterLook = (
  drill: Drill,
  before: readonly ExpectedState[],
  standing: Standing,
): readonly ExpectedState[] => {
  const open = opened(drill, before, standing);
  const asked = open === standing.expected ? standing : { ...standing, expected: open };
  return met(drill, open, standing.world.tick, (i) => {
    const until = drill.expect[i]?.until;
    return until !== undefined && allHold(until, asked);
  });
};

const once = (state: NeverState, tick: number, refused: boolean): NeverState => ({
  ...state,
  times: state.times + 1,
  tried: state.tried + (refused ? 1 : 0),
  firstTick: state.firstTick ?? tick,
});

/** Things never done after acts, judged as things stood when they were done. */
export const neverAfterActs = (
  drill: Drill,
  before: readonly NeverState[],
  acts: readonly Act[],
  standing: Standing,
): readonly NeverState[] => {
  if (acts.length === 0) return before;
  return before.map((state, i) => {
    const file = drill.never[i];
    if (file === undefined || file.by.length === 0) return state;
    const act = doneBy(file.by, acts);
    if (act === null || !allHold(file.while, standing)) return state;
    return once(state, standing.world.tick, act.what === 'command' && !act.accepted);
  });
};

/** Conditions that must never be so, looked at every `everyTicks`: each counts once while it lasts. */
export const neverAfterLook = (
  drill: Drill,
  before: readonly NeverState[],
  standing: Standing,
  everyTicks: number,
): readonly NeverState[] => {
  let changed = false;
  const next = before.map((state, i) => {
    const file = drill.never[i];
    if (file === undefined || file.by.length > 0) return state;
    if (!allHold(file.while, standing)) {
      if (state.heldTicks === 0) return state;
      changed = true;
      return { ...state, heldTicks: 0 };
    }
    changed = true;
    const held = { ...state, heldTicks: state.heldTicks + everyTicks };
    const limit = Math.max(1, Math.round(file.forS * 10));
    return state.heldTicks < limit && held.heldTicks >= limit ? once(held, standing.world.tick, false) : held;
  });
  return changed ? next : before;
};
