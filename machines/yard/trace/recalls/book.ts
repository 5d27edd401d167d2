/** The book of recalls: which are open, what was done about each patch, and how recall drills went. */
import type { Asked, Book, Heard, Told } from '../../../record/book.types.ts';
import type { RecallsCommand } from './commands.ts';
import type { DrillResult, RecallFact } from './facts.ts';
import { CLOSED_KEPT, DRILLS_KEPT, EMPTY_RECALLS, type Recall, type RecallsState } from './state.ts';

const dayOf = (at: string): string => at.slice(2, 10).replaceAll('-', '');

const withRecall = (state: RecallsState, recall: Recall): RecallsState => ({
  ...state,
  recalls: { ...state.recalls, [recall.id]: recall },
});

/** Without the oldest closed ones: they are in the record. */
const pruned = (state: RecallsState): RecallsState => {
  const closed = Object.values(state.recalls).filter((one) => one.closed !== null);
  if (closed.length <= CLOSED_KEPT) return state;
  const gone = new Set(closed.slice(0, closed.length - CLOSED_KEPT).map(({ id }) => id));
  return {
    ...state,
    recalls: Object.fromEntries(Object.entries(state.recalls).filter(([id]) => !gone.has(id))),
  };
};

const hearFact = (state: RecallsState, fact: RecallFact, by: string, at: string): RecallsState => {
  if (fact.is === 'recallDrillDone') {
    const { is: _is, truth, ticked: _ticked, ...rest } = fact;
    const kept = { ...rest, patches: truth.length, at, by };
    return { ...state, drills: [...state.drills, kept].slice(-DRILLS_KEPT) };
  }
  if (fact.is === 'recallOpened') {
    const { recall: id, from, words, reason } = fact;
    const day = dayOf(at);
    const next = withRecall(state, { id, from, words, reason, at, by, ticks: {}, closed: null });
    return { ...next, numbered: { [day]: (state.numbered[day] ?? 0) + 1 } };
  }
  const recall = state.recalls[fact.recall];
  if (recall === undefined) return state;
  switch (fact.is) {
    case 'patchTicked': {
      const { patch, n, what, note } = fact;
      const ticks = [...(recall.ticks[patch] ?? []), { n, what, note, at, by, back: null }];
      return withRecall(state, { ...recall, ticks: { ...recall.ticks, [patch]: ticks } });
    }
    case 'tickTakenBack': {
      const ticks = (recall.ticks[fact.patch] ?? []).map((tick) =>
        tick.n === fact.n ? { ...tick, back: fact.reason } : tick,
      );
      return withRecall(state, { ...recall, ticks: { ...recall.ticks, [fact.patch]: ticks } });
    }
    case 'recallClosed':
      return pruned(withRecall(state, { ...recall, closed: { at, by, remark: fact.remark } }));
    case 'recallReopened':
      return withRecall(state, { ...recall, closed: null });
  }
};

const hear = (state: RecallsState, heard: Heard): RecallsState =>
  heard.from === 'recalls' ? hearFact(state, heard.fact as RecallFact, heard.by.person, heard.at) : state;

/** Each right patch counts, each wrong one takes as much away; never below 0. */
export const scoreOf = (truth: readonly string[], ticked: readonly string[]) => {
  const [right, given] = [new Set(truth), new Set(ticked)];
  const missed = [...right].filter((patch) => !given.has(patch));
  const wrong = [...given].filter((patch) => !right.has(patch));
  const hits = right.size - missed.length;
  const score =
    right.size === 0
      ? wrong.length === 0
        ? 100
        : 0
      : Math.max(0, Math.round(((hits - wrong.length) / right.size) * 100));
  return { missed, wrong, score } satisfies Partial<DrillResult>;
};

const no = (...because: string[]): Told<RecallFact> => ({ ok: false, because });
const yes = (...facts: RecallFact[]): Told<RecallFact> => ({ ok: true, facts });

const answer = (state: RecallsState, { command, at }: Asked<RecallsCommand>): Told<RecallFact> => {
  if (command.do === 'keepDrill') {
    const { do: _do, ...drill } = command;
    const from = drill.from as DrillResult['from'];
    return yes({ is: 'recallDrillDone', ...drill, from, ...scoreOf(drill.truth, drill.ticked) });
  }
  if (command.do === 'openRecall') {
    const same = Object.values(state.recalls).find(
      ({ closed, from }) => closed === null && JSON.stringify(from) === JSON.stringify(command.from),
    );
    if (same !== undefined) return no(`Recall ${same.id} of the same is open already: work on that one.`);
    const day = dayOf(at);
    const recall = `RC-${day}-${(state.numbered[day] ?? 0) + 1}`;
    const from = command.from as DrillResult['from'];
    return yes({ is: 'recallOpened', recall, from, words: command.words, reason: command.reason });
  }
  const recall = state.recalls[command.recall];
  if (recall === undefined) return no(`There is no recall ${command.recall}: see the list of recalls.`);
  if (command.do === 'reopenRecall')
    return recall.closed === null
      ? no(`Recall ${recall.id} is open.`)
      : yes({ is: 'recallReopened', recall: recall.id, reason: command.reason });
  if (recall.closed !== null)
    return no(`Recall ${recall.id} was closed by ${recall.closed.by}: open it again first.`);
  if (command.do === 'closeRecall')
    return yes({ is: 'recallClosed', recall: recall.id, remark: command.remark });
  const ticks = recall.ticks[command.patch] ?? [];
  if (command.do === 'tickPatch') {
    const { patch, what, note } = command;
    if (ticks.some((tick) => tick.what === what && tick.back === null))
      return no(`Patch ${patch} is marked "${what}" already.`);
    return yes({ is: 'patchTicked', recall: recall.id, patch, n: ticks.length + 1, what, note });
  }
  const tick = ticks.find(({ n }) => n === command.n);
  if (tick === undefined || tick.back !== null)
    return no(`Patch ${command.patch} has no such mark that could be taken back.`);
  const { patch, n, reason } = command;
  return yes({ is: 'tickTakenBack', recall: recall.id, patch, n, what: tick.what, reason });
};

export const recallsBook: Book<RecallsState, RecallsCommand, RecallFact> = {
  name: 'recalls',
  empty: EMPTY_RECALLS,
  hear,
  answer,
};
