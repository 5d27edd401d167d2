/**
 * A small exhaustive explorer: every state a model can reach by any event at any time, breadth first,
 * so that the first way found to break a rule is a shortest one.
 */
import type { Outputs } from '../../machines/field/outputs.ts';
import type { StoryStates } from '../../machines/line/story.ts';

export type Rule = {
  readonly id: string;
  readonly says: string;
  /** True when this step breaks the rule; `event` is -1 and `from` equals `to` for the first state. */
  readonly broken: (from: number, event: number, to: number) => boolean;
  /** The rule speaks of `to` alone, so each state is judged once. */
  readonly ofState?: boolean;
};

/** States and events are numbers so that millions of them fit; the model says what they mean. */
export type Model = {
  readonly name: string;
  /** State codes lie in 0 … size-1. */
  readonly size: number;
  readonly start: number;
  readonly events: readonly string[];
  /** The state after an event; the same state when the event changes nothing; -1 when it cannot happen. */
  readonly next: (state: number, event: number) => number;
  readonly describe: (state: number) => string;
  readonly rules: readonly Rule[];
  /** For a story that can be opened: where each chart of the model stands in a state. */
  readonly charts?: (state: number) => StoryStates;
  /** Signals offered as they stand by an event, where an event is more than one word to the charts. */
  readonly offers?: (state: number, event: number) => readonly string[];
  /** What an event asks of the gate, and what it lets through, where the gate is asked by it. */
  readonly gateAt?: (state: number, event: number, to: number) => Asking | null;
};

export type Asking = { readonly asked: Partial<Outputs>; readonly through: Partial<Outputs> };

/** A step of the way to a breach: the event that led to the state, -1 at the start. */
export type PathStep = { readonly event: number; readonly state: number };

export type Violation = {
  readonly rule: string;
  readonly story: readonly string[];
  readonly path: readonly PathStep[];
};

export type Explored = {
  readonly model: string;
  readonly states: number;
  /** Steps that led to another state. */
  readonly transitions: number;
  readonly seconds: number;
  /** The first, so shortest, breach of each broken rule. */
  readonly violations: readonly Violation[];
  /** Reached states in the order found. */
  readonly order: Int32Array;
};

/** Where each state was found in the search: flat when that fits, else a map. */
const finder = (
  size: number,
): { at: (state: number) => number; set: (state: number, index: number) => void } => {
  if (size > 4e6) {
    const map = new Map<number, number>();
    return { at: (state) => map.get(state) ?? -1, set: (state, index) => map.set(state, index) };
  }
  const flat = new Int32Array(size).fill(-1);
  return {
    at: (state) => flat[state] as number,
    set: (state, index) => {
      flat[state] = index;
    },
  };
};

/** Explores all of a model, or with `stopAt` only until the rule of that ID is broken. */
export const explore = (model: Model, stopAt?: string): Explored => {
  const started = performance.now();
  const index = finder(model.size);
  const order: number[] = [model.start];
  /** By index: the state each was first reached from, and by which event. */
  const from: number[] = [-1];
  const by: number[] = [-1];
  let transitions = 0;
  index.set(model.start, 0);

  const pathTo = (last: number): PathStep[] => {
    const path: PathStep[] = [];
    for (let at = index.at(last); at >= 0; at = from[at] as number)
      path.unshift({ event: by[at] as number, state: order[at] as number });
    return path;
  };
  const told = ({ event, state }: PathStep): string =>
    `${event < 0 ? 'start' : model.events[event]} → ${model.describe(state)}`;

  const violations: Violation[] = [];
  let rules = [...model.rules];
  const judge = (state: number, event: number, to: number, isNew: boolean): void => {
    for (const rule of rules) {
      if ((rule.ofState === true && !isNew) || !rule.broken(state, event, to)) continue;
      const path = [...pathTo(state), ...(event < 0 ? [] : [{ event, state: to }])];
      violations.push({ rule: `${rule.id} ${rule.says}`, story: path.map(told), path });
      rules = rules.filter((other) => other !== rule);
    }
  };
  const stopped = (): boolean =>
    stopAt !== undefined && violations.some((one) => one.rule.startsWith(stopAt));

  judge(model.start, -1, model.start, true);
  for (let at = 0; at < order.length && !stopped(); at++) {
    const state = order[at] as number;
    for (let event = 0; event < model.events.length; event++) {
      const to = model.next(state, event);
      if (to < 0) continue;
      const isNew = index.at(to) < 0;
      judge(state, event, to, isNew);
      if (to === state) continue;
      transitions++;
      if (!isNew) continue;
      index.set(to, order.length);
      order.push(to);
      from.push(at);
      by.push(event);
    }
  }
  return {
    model: model.name,
    states: order.length,
    transitions,
    seconds: (performance.now() - started) / 1000,
    violations,
    order: Int32Array.from(order),
  };
};

/** Reached states from which no state that satisfies `isSafe` can be reached any more. */
export const cannotReach = (
  model: Model,
  explored: Explored,
  isSafe: (state: number) => boolean,
): readonly number[] => {
  const index = finder(model.size);
  explored.order.forEach((state, at) => {
    index.set(state, at);
  });
  // Predecessors as linked lists in flat arrays: one link a transition.
  const head = new Int32Array(explored.states).fill(-1);
  const previous = new Int32Array(explored.transitions);
  const source = new Int32Array(explored.transitions);
  let links = 0;
  explored.order.forEach((state, at) => {
    for (let event = 0; event < model.events.length; event++) {
      const to = model.next(state, event);
      if (to < 0 || to === state) continue;
      const target = index.at(to);
      source[links] = at;
      previous[links] = head[target] as number;
      head[target] = links++;
    }
  });
  const reaches = new Uint8Array(explored.states);
  const queue: number[] = [];
  explored.order.forEach((state, at) => {
    if (!isSafe(state)) return;
    reaches[at] = 1;
    queue.push(at);
  });
  for (let at = queue.pop(); at !== undefined; at = queue.pop())
    for (let link = head[at] as number; link >= 0; link = previous[link] as number) {
      const before = source[link] as number;
      if (reaches[before] === 1) continue;
      reaches[before] = 1;
      queue.push(before);
    }
  return [...explored.order].filter((_, at) => reaches[at] === 0);
};

/** A breach as a person reads it. */
export const asStory = (violation: Violation): string =>
  [violation.rule, ...violation.story.map((line, step) => `  ${step}. ${line}`)].join('\n');
