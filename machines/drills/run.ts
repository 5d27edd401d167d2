/** Turns a drill, a tick at a time. Pure: the same drill, seed, commands and interventions give the same run. */
import type { FieldAsk } from '../field/outputs.ts';
import type { CommandEnvelope } from '../line/commands.ts';
import { advance, type World } from '../world/world.ts';
import { CALLED } from './drill.schema.ts';
import { allHold, type Standing } from './holds.ts';
import { befall, calledFor, saidOnVisit, visitsAfterCall } from './incidents.ts';
import { physicalAfter, puffAfter, SAMPLE_TICKS, sampleOf, steppedIn } from './noting.ts';
import type { Asked, Did, DrillAdvanced, DrillRun, Intervention, SeatExtras } from './run.types.ts';
import {
  type Act,
  expectedAfterActs,
  expectedAfterLook,
  neverAfterActs,
  neverAfterLook,
} from './watching.ts';

export { debriefOf } from './debrief.ts';
export { drillScenario, openDrill } from './open.ts';
export type * from './run.types.ts';
export { loadDrill, saveDrill } from './save.ts';

/** Conditions are looked at this often, and whenever something happened. */
const LOOK_TICKS = 5;
/** Nothing may grow without end, however long somebody leans on a button. */
const MESSAGES_LIMIT = 200;
const ACTS_LIMIT = 5_000;
const LETTERS_LIMIT = 600;

type Draft = { -readonly [K in keyof DrillRun]: DrillRun[K] };

const standingOf = (run: DrillRun, world: World): Standing => ({
  world,
  startTick: run.startTick,
  incidents: run.incidents,
  expected: run.expected,
  told: run.told,
});

const mayHaveHints = ({ options, drill }: DrillRun): boolean =>
  options.hints && drill.hints.for.includes(options.trainee.role);

/** The expectation a hint could be given for now, or undefined. */
const hintable = (run: DrillRun): DrillRun['drill']['expect'][number] | undefined =>
  run.drill.expect.find((file, i) => {
    const state = run.expected[i];
    return (
      file.hint !== undefined &&
      state !== undefined &&
      state.openTick !== null &&
      state.metTick === null &&
      run.world.tick - state.openTick >= run.drill.hints.afterS * 10 &&
      !run.hints.some((hint) => hint.expectation === file.id)
    );
  });

const say = (next: Draft, message: Omit<DrillRun['messages'][number], 'id' | 'tick' | 'answer'>): void => {
  if (next.messages.length >= MESSAGES_LIMIT) return;
  const id = `m${next.messages.length + 1}`;
  next.messages = [...next.messages, { ...message, id, tick: next.world.tick, answer: null }];
};

/** Takes one intervention; words against it, or null. `acts` and `asks` grow by what it amounts to. */
const take = (next: Draft, one: Intervention, acts: Act[], asks: FieldAsk[]): string | null => {
  const { tick } = next.world;
  switch (one.do) {
    case 'ask':
      asks.push(one.ask);
      return null;
    case 'message': {
      const text = one.text.trim().slice(0, LETTERS_LIMIT);
      if (text === '') return 'The message is empty: write something.';
      say(next, { from: one.by, text, answers: one.answers ?? [], incident: null });
      return null;
    }
    case 'reply': {
      const message = next.messages.find((other) => other.id === one.message);
      if (message === undefined) return 'There is no such message.';
      if (message.answer !== null) return 'It has been answered already.';
      if (!message.answers.some((answer) => answer.id === one.answer))
        return message.answers.length === 0
          ? 'This message asks for no answer.'
          : `Answer with one of: ${message.answers.map((answer) => answer.text).join('; ')}.`;
      next.messages = next.messages.map((other) =>
        other === message ? { ...message, answer: one.answer } : other,
      );
      acts.push({ what: 'answer', incident: message.incident, answer: one.answer });
      return null;
    }
    case 'call':
      if (!CALLED.includes(one.who)) return `Nobody here is called ${one.who}: call ${CALLED.join(', ')}.`;
      next.calls = [...next.calls, { tick, who: one.who }];
      next.incidents = calledFor(next.drill, next.incidents, one.who, tick);
      next.visits = visitsAfterCall(next.visits, next.incidents, next.drill, one.who, tick);
      acts.push({ what: 'call', who: one.who });
      return null;
    case 'hint': {
      if (!mayHaveHints(next)) return 'Hints are not allowed in this drill.';
      const file = hintable(next);
      if (file?.hint === undefined) return 'There is no hint just now.';
      next.hints = [...next.hints, { tick, expectation: file.id, text: file.hint }];
      return null;
    }
    case 'end':
      next.ended = { tick, why: `ended by ${one.by}` };
      return null;
  }
};

const didOf = (
  commands: readonly CommandEnvelope[],
  answers: ReturnType<typeof advance>['answers'],
  tick: number,
): Did[] =>
  // The sampling plan is part of the world: what it asks for was done by nobody.
  commands
    .filter(({ by }) => by.role !== 'line')
    .map((envelope) => {
      const answer = answers.find((one) => one.id === envelope.id)?.answer;
      return {
        tick,
        by: envelope.by.person,
        command: envelope.command,
        because: answer === undefined || answer.ok ? [] : answer.because,
      };
    });

/**
 * One tick of 100 ms of plant time. Interventions are taken first, then incidents, then the commands. A drill that
 * has ended goes on turning its world, so that the plant does not freeze under the trainee's hands, but counts nothing.
 */
export const advanceDrill = (
  run: DrillRun,
  commands: readonly CommandEnvelope[],
  interventions: readonly Intervention[] = [],
): DrillAdvanced => {
  const next: Draft = { ...run };
  const { tick } = run.world;
  const counts = run.ended === null;
  const acts: Act[] = [];
  const asks: FieldAsk[] = [];
  const because: string[] = [];
  if (counts)
    for (const intervention of interventions) {
      const against = take(next, intervention, acts, asks);
      if (against !== null) because.push(against);
      else if (next.interventions.length < ACTS_LIMIT)
        next.interventions = [...next.interventions, { tick, intervention }];
    }

  const looks = tick % LOOK_TICKS === 0;
  if (counts && looks) {
    const befallen = befall(run.drill, next.incidents, standingOf(next, run.world));
    next.incidents = befallen.incidents;
    for (const message of befallen.messages) say(next, message);
    if (next.visits.length > 0) {
      for (const message of saidOnVisit(next.visits, tick)) say(next, message);
      next.visits = next.visits.filter((one) => one.dueTick > tick);
    }
    asks.push(...befallen.asks);
  }
  if (asks.length > 0) next.asks = [...next.asks, ...asks.map((ask) => ({ tick, ask }))];

  const before = asks.length === 0 ? run.world : { ...run.world, asks: [...run.world.asks, ...asks] };
  const advanced = advance(before, commands);
  next.world = advanced.world;
  if (!counts) return { run: next, advanced, because };

  if (advanced.commands.length > 0 && next.did.length < ACTS_LIMIT) {
    const did = didOf(advanced.commands, advanced.answers, tick);
    next.did = [...next.did, ...did];
    for (const one of did)
      if (one.by === run.options.trainee.person)
        acts.push({ what: 'command', command: one.command, accepted: one.because.length === 0 });
  }
  if (advanced.facts.length > 0) {
    const told: { [fact: string]: number } = { ...next.told };
    for (const fact of advanced.facts) told[fact.is] = (told[fact.is] ?? 0) + 1;
    next.told = told;
  }

  if (acts.length > 0) {
    const then = { ...standingOf(next, run.world), told: run.told };
    next.never = neverAfterActs(run.drill, next.never, acts, then);
    next.expected = expectedAfterActs(run.drill, next.expected, acts, then);
  }
  if (looks) {
    next.expected = expectedAfterLook(run.drill, next.expected, standingOf(next, next.world));
    next.never = neverAfterLook(run.drill, next.never, standingOf(next, next.world), LOOK_TICKS);
    next.physical = physicalAfter(next.physical, next.world, LOOK_TICKS);
  }
  next.physical = puffAfter(next.physical, run.world, next.world);
  if (tick % SAMPLE_TICKS === 0) next.samples = [...next.samples, sampleOf(run, run.world)];

  if (next.twin === null) next.twin = steppedIn(run.world, next.world, advanced.facts);
  if (next.twin !== null) {
    const { wanted } = next.world.line;
    if (next.asked.at(-1)?.wanted !== wanted) next.asked = [...next.asked, { tick, wanted } satisfies Asked];
  }

  if (next.ended === null && looks) next.ended = endOf(next);
  return { run: next, advanced, because };
};

const endOf = (run: DrillRun): DrillRun['ended'] => {
  const { tick } = run.world;
  if (run.world.line.ended) return { tick, why: 'the shift was ended' };
  if (run.drill.endsWhen.length > 0 && allHold(run.drill.endsWhen, standingOf(run, run.world)))
    return { tick, why: 'done' };
  return tick - run.startTick >= run.drill.minutes * 600 ? { tick, why: 'the time was over' } : null;
};

/** What the trainee's seat may show beside the console. */
export const seatOf = (run: DrillRun): SeatExtras => ({
  name: run.drill.name,
  brief: run.drill.brief,
  leftS: Math.max(0, run.drill.minutes * 60 - (run.world.tick - run.startTick) / 10),
  ended: run.ended?.why ?? null,
  messages: run.messages,
  hints: run.hints,
  hintsAllowed: mayHaveHints(run),
  hintReady: mayHaveHints(run) && run.ended === null && hintable(run) !== undefined,
  mayCall: CALLED,
});
