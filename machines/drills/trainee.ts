/**
 * Stand-in trainees: they work a drill through its commands, calls and answers, seeing what a person sees at the seat.
 * good: watches, holds, calls, asks nobody to look away. slow: the same, late. reckless: wants it done.
 */

import { heaterIsLockedOut } from '../charts/oil-heater/oil-heater.guards.ts';
import type { Command, CommandEnvelope } from '../line/commands.ts';
import type { Line } from '../line/line.types.ts';
import { TICK_MS } from '../line/line.types.ts';
import { batchValue, chartValue, presentMix } from '../line/lookup.ts';
import { nextState, unitOf } from '../line/random.ts';
import { alarmToAcknowledge, decide } from '../standin/decide.ts';
import { NOTICES, type Notice, SOAKED_PCT } from '../standin/notice.ts';
import { recklessly } from '../standin/reckless.ts';
import { TRAITS } from '../standin/skills.ts';
import type { Called } from './drill.schema.ts';
import type { DrillRun, Intervention, Message } from './run.types.ts';

export const TRAINEE_SKILLS = ['good', 'slow', 'reckless'] as const;
export type TraineeSkill = (typeof TRAINEE_SKILLS)[number];

type Doing =
  | { readonly what: 'command'; readonly command: Command }
  | {
      readonly what: 'reply';
      readonly message: string;
      readonly answer: string;
      readonly means: 'yes' | 'no' | 'ask';
    }
  | { readonly what: 'call'; readonly who: Called; readonly notice: string };

export type StandInTrainee = {
  readonly skill: TraineeSkill;
  readonly random: number;
  readonly given: number;
  /** What it is about to do, as JSON, and when. */
  readonly about: string | null;
  readonly doesAtTick: number;
  /** Since when each thing it may notice has been so, and whom it called for it when, by tick. */
  readonly since: { readonly [notice: string]: number };
  readonly called: { readonly [notice: string]: number };
  /** When each command was last refused, and commands messages have urged on it. */
  readonly refused: { readonly [command: string]: number };
  readonly urged: readonly Command[];
};

const STREAM = 0x7ea1;
const LOOK_EVERY_TICKS = 10;
/** What was refused is not asked again for five minutes; the reckless one waits a minute. */
const ASK_AGAIN_TICKS = { good: 3000, slow: 3000, reckless: 600 } as const;
/** Somebody who was called is given so long before being called again. */
const CALL_AGAIN_TICKS = 6000;
const WAIT_FOR_FITTER_TICKS = 6000;

export const startTrainee = (skill: TraineeSkill, seed: number): StandInTrainee => ({
  skill,
  random: (seed ^ STREAM) >>> 0,
  given: 0,
  about: null,
  doesAtTick: 0,
  since: {},
  called: {},
  refused: {},
  urged: [],
});

const noticedSince = (line: Line, since: StandInTrainee['since']): StandInTrainee['since'] => {
  const next: { [id: string]: number } = {};
  for (const notice of NOTICES) if (notice.is(line)) next[notice.id] = since[notice.id] ?? line.tick;
  return next;
};

const believed = (line: Line, since: StandInTrainee['since']): readonly Notice[] =>
  NOTICES.filter((one) => {
    const from = since[one.id];
    return from !== undefined && line.tick - from >= one.forS * 10;
  });

const happeningOf = (run: DrillRun, message: Message) => {
  const happening = run.incidents.find((one) => one.id === message.incident)?.happening;
  return happening?.what === 'message' ? happening : null;
};

/** An answer to the oldest message that waits for one. A person goes by its words; a stand-in by what the file says they mean. */
const reply = (run: DrillRun, skill: TraineeSkill): Doing | null => {
  const open = run.messages.find((one) => one.answer === null && one.answers.length > 0);
  if (open === undefined) return null;
  const happening = happeningOf(run, open);
  const means = skill === 'reckless' || (happening?.rightly ?? true) ? 'yes' : 'no';
  const answer = happening?.answers.find((one) => one.means === means) ?? open.answers[0];
  return answer === undefined ? null : { what: 'reply', message: open.id, answer: answer.id, means };
};

const tryAgain = (state: StandInTrainee, line: Line, command: Command): boolean =>
  line.tick - (state.refused[command.do] ?? Number.NEGATIVE_INFINITY) > ASK_AGAIN_TICKS[state.skill];

const asDoing = (command: Command | null): Doing | null =>
  command === null ? null : { what: 'command', command };

/** Tick at which somebody who was called last said that it is mended or that there is nothing to mend, or before all time. */
const saidDone = (run: DrillRun, who: Called): number =>
  run.messages.reduce(
    (last, one) =>
      one.answers.length === 0 && one.from.toLowerCase() === who ? Math.max(last, one.tick) : last,
    Number.NEGATIVE_INFINITY,
  );

/** The fitter was called and has not said yet that it is mended: a person waits for that word, though not for ever. */
const awaitsFitter = (state: StandInTrainee, run: DrillRun): boolean => {
  const said = saidDone(run, 'fitter');
  return NOTICES.some((one) => {
    const called = state.called[one.id];
    return (
      one.call === 'fitter' &&
      called !== undefined &&
      called > said &&
      run.world.tick - called < WAIT_FOR_FITTER_TICKS
    );
  });
};

const troublesOf = (state: StandInTrainee, run: DrillRun): readonly Notice[] =>
  believed(run.world.line, state.since).filter((one) => {
    const called = state.called[one.id];
    return one.latches !== true || called === undefined || saidDone(run, one.call) < called;
  });

const BEGINNINGS: readonly Command['do'][] = ['start', 'startCampaign', 'lightBurner'];
const GOING_ON: readonly Command['do'][] = [...BEGINNINGS, 'restart', 'topUp', 'resetBurner'];

/** Emulsion outside the window of its mix: nothing is begun with it. */
const emulsionUnfit = (line: Line): boolean => {
  const { family, windows } = presentMix(line);
  const tempC = line.readings.emulsionTankC;
  return family === 'emulsion' && (tempC < windows.binderC.fromC || tempC > windows.binderC.toC - 2);
};

/** What is done at once about a trouble, before anybody is called. */
const atOnce = (state: StandInTrainee, run: DrillRun, troubles: readonly Notice[]): Doing | null => {
  const { line } = run.world;
  const { procedure } = batchValue(line);
  const is = (id: string): boolean => troubles.some((one) => one.id === id);
  if (
    troubles.some((one) => one.holds) &&
    procedure === 'running' &&
    !line.signals.tripped &&
    !is('mix is soaked')
  )
    return asDoing({ do: 'hold' });
  if (line.signals.burnerRunning && is('dried stone does not arrive in the holding bin'))
    return asDoing({ do: 'putOutBurner' });
  if (is('emulsion at its limit') && chartValue(line, 'emulsionTank') !== 'off')
    return asDoing({ do: 'heatTank', tank: 'emulsion', on: false });
  if (is('emulsion close to freezing') && chartValue(line, 'emulsionTank') === 'off')
    return asDoing({ do: 'heatTank', tank: 'emulsion', on: true });
  if (is('what the truck brings is not what its ticket says') && line.tankMemos.emulsion.delivery !== null)
    return asDoing({ do: 'endDelivery', tank: 'emulsion' });
  if (is('mix is soaked') && state.called['mix is soaked'] !== undefined)
    return asDoing({ do: 'dump', reason: `free water above ${SOAKED_PCT} %` });
  return null;
};

/** What is put right at the console once the fitter has said that it is mended. */
const afterMending = (state: StandInTrainee, run: DrillRun, troubles: readonly Notice[]): Command | null => {
  const { line } = run.world;
  if (awaitsFitter(state, run)) return null;
  if (heaterIsLockedOut(line.charts.oilHeater?.value as never))
    return troubles.some((one) => one.id === 'oil heater locked out') ? null : { do: 'resetHeater' };
  return line.signals.detectorOk && !line.signals.detectorCalibrated
    ? { do: 'proveCause', cause: 'FI-20', result: 'passed', remark: 'calibrated with test gas after mending' }
    : null;
};

/** What a person of good sense does next. */
const sensibly = (state: StandInTrainee, run: DrillRun): Doing | null => {
  const { line } = run.world;
  const troubles = troublesOf(state, run);
  const first = atOnce(state, run, troubles);
  if (first !== null) return first;
  const alarm = alarmToAcknowledge(line);
  if (alarm !== null) return asDoing(alarm);
  for (const notice of troubles) {
    const last = state.called[notice.id];
    if (last === undefined || line.tick - last > CALL_AGAIN_TICKS)
      return { what: 'call', who: notice.call, notice: notice.id };
  }
  const answer = reply(run, state.skill);
  if (answer !== null) return answer;
  const command = state.urged[0] ?? afterMending(state, run, troubles) ?? decide(line, state.skill);
  if (command === null || !tryAgain(state, line, command)) return null;
  // While something is wrong, or the fitter is at it, nothing is begun or gone on with.
  if (GOING_ON.includes(command.do) && (troubles.length > 0 || awaitsFitter(state, run))) return null;
  return BEGINNINGS.includes(command.do) && emulsionUnfit(line) ? null : asDoing(command);
};

const wantingItDone = (state: StandInTrainee, run: DrillRun): Doing | null => {
  const { line } = run.world;
  const answer = reply(run, state.skill);
  if (answer !== null) return answer;
  const wishes = [...state.urged, ...recklessly(line)];
  return asDoing(wishes.find((one) => tryAgain(state, line, one)) ?? null);
};

const between = (unit: number, [low, high]: readonly [number, number]): number => low + unit * (high - low);

/** What a message urges, once it has been agreed to. */
const urgedBy = (run: DrillRun, doing: Extract<Doing, { what: 'reply' }>): readonly Command[] => {
  const told = run.messages.find((one) => one.id === doing.message);
  const urges = told === undefined ? undefined : happeningOf(run, told)?.urges;
  if (urges === undefined || doing.means !== 'yes') return [];
  return [{ do: urges.do, ...urges.with } as Command];
};

export type Worked = {
  readonly trainee: StandInTrainee;
  readonly commands: readonly CommandEnvelope[];
  readonly interventions: readonly Intervention[];
};

const NOTHING = { commands: [], interventions: [] } as const;

/** One tick of a stand-in trainee: at most one act, after its time to react has passed. */
export const traineeWorks = (before: StandInTrainee, run: DrillRun): Worked => {
  const { line, tick } = run.world;
  if (tick % LOOK_EVERY_TICKS !== 0 || run.ended !== null) return { trainee: before, ...NOTHING };
  const lately = line.refusals.filter(
    (one) => one.by === run.options.trainee.person && line.tick - one.tick <= LOOK_EVERY_TICKS,
  );
  const state: StandInTrainee = {
    ...before,
    since: noticedSince(line, before.since),
    refused:
      lately.length === 0
        ? before.refused
        : { ...before.refused, ...Object.fromEntries(lately.map((one) => [one.command, one.tick])) },
  };
  const doing = state.skill === 'reckless' ? wantingItDone(state, run) : sensibly(state, run);
  if (doing === null) return { trainee: { ...state, about: null }, ...NOTHING };
  const about = JSON.stringify(doing);
  if (about !== state.about) {
    const first = nextState(state.random);
    const waitS = between(unitOf(first), TRAITS[state.skill].reactS);
    return {
      trainee: { ...state, random: first, about, doesAtTick: tick + Math.round((waitS * 1000) / TICK_MS) },
      ...NOTHING,
    };
  }
  if (tick < state.doesAtTick) return { trainee: state, ...NOTHING };
  const trainee: StandInTrainee = { ...state, given: state.given + 1, about: null };
  if (doing.what === 'call')
    return {
      trainee: { ...trainee, called: { ...trainee.called, [doing.notice]: tick } },
      commands: [],
      interventions: [{ do: 'call', who: doing.who }],
    };
  if (doing.what === 'reply')
    return {
      trainee: { ...trainee, urged: urgedBy(run, doing) },
      commands: [],
      interventions: [{ do: 'reply', message: doing.message, answer: doing.answer }],
    };
  const id = `trainee-${String(trainee.given).padStart(5, '0')}`;
  return {
    trainee: { ...trainee, urged: trainee.urged.filter((one) => one.do !== doing.command.do) },
    commands: [{ id, by: run.options.trainee, command: doing.command }],
    interventions: [],
  };
};
