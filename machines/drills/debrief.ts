/** What a drill came to: expected, done, scored, and the truth behind it. Pure; may be asked for at any moment. */
import { TAG_NAMES, TAGS, type Tag } from '../field/tags.ts';
import { TICK_MS } from '../line/line.types.ts';
import { viewLine } from '../line/view.ts';
import type { Debrief, DoneView, TruthTrace } from './debrief.types.ts';
import type { DrillRun } from './run.types.ts';
import { expectedViews, scoreOf, unsafeViews } from './score.ts';
import { twinOf } from './twin.ts';
import { calledInWords, commandInWords, incidentInWords } from './words.ts';

const doneViews = (run: DrillRun): DoneView[] => {
  const nameOf = (id: string): string => run.world.scenario.people.find((one) => one.id === id)?.name ?? id;
  const trainee = nameOf(run.options.trainee.person);
  const commands = run.did.map(
    (one): DoneView => ({
      atMs: one.tick * TICK_MS,
      who: nameOf(one.by),
      text: commandInWords(one.command),
      accepted: one.because.length === 0,
      because: one.because,
    }),
  );
  const calls = run.calls.map(
    (one): DoneView => ({
      atMs: one.tick * TICK_MS,
      who: trainee,
      text: calledInWords(one.who),
      accepted: true,
      because: [],
    }),
  );
  const replies = run.interventions.flatMap(({ tick, intervention }): DoneView[] => {
    if (intervention.do !== 'reply') return [];
    const message = run.messages.find((one) => one.id === intervention.message);
    const answer = message?.answers.find((one) => one.id === intervention.answer);
    if (message === undefined || answer === undefined) return [];
    const text = `Answered ${message.from}: ${answer.text}`;
    return [{ atMs: tick * TICK_MS, who: trainee, text, accepted: true, because: [] }];
  });
  return [...commands, ...calls, ...replies].sort((a, b) => a.atMs - b.atMs);
};

/** Times at which an instrument had a fault: from incidents, and from what a trainer put in by hand. */
const liedAt = (run: DrillRun, tag: Tag): TruthTrace['lied'] => {
  const lied: { fromMs: number; toMs: number | null; fault: string }[] = [];
  for (const { tick, ask } of run.asks) {
    if (ask.ask !== 'instrumentFault' || ask.tag !== tag) continue;
    const last = lied.at(-1);
    if (last !== undefined && last.toMs === null) last.toMs = tick * TICK_MS;
    if (ask.fault !== null) lied.push({ fromMs: tick * TICK_MS, toMs: null, fault: ask.fault.fault });
  }
  return lied;
};

const truthTraces = (run: DrillRun): TruthTrace[] =>
  TAG_NAMES.flatMap((tag): TruthTrace[] => {
    const lied = liedAt(run, tag);
    if (lied.length === 0) return [];
    const samples = run.samples.flatMap((one) => {
      const pair = one.tags[tag];
      return pair === undefined ? [] : [{ atMs: one.tick * TICK_MS, truth: pair[0], reading: pair[1] }];
    });
    return [{ tag, label: TAGS[tag].label, unit: TAGS[tag].unit, lied, samples }];
  });

const orNull = (tick: number | null): number | null => (tick === null ? null : tick * TICK_MS);

/** The debrief of a run so far, or of one that has ended. Times are plant time since the shift began. */
export const debriefOf = (run: DrillRun): Debrief => {
  const { drill, options } = run;
  const expected = expectedViews(run);
  const unsafe = unsafeViews(run);
  const person = run.world.scenario.people.find((one) => one.id === options.trainee.person);
  return {
    drill: {
      id: drill.id,
      name: drill.name,
      level: drill.level,
      teaches: drill.teaches,
      basis: drill.basis,
    },
    seed: options.seed,
    trainee: { person: options.trainee.person, name: person?.name ?? options.trainee.person },
    startMs: run.startTick * TICK_MS,
    endMs: (run.ended?.tick ?? run.world.tick) * TICK_MS,
    ended: run.ended?.why ?? 'not ended yet',
    passMark: drill.passMark,
    ...scoreOf(run, expected, unsafe),
    expected,
    done: doneViews(run),
    incidents: run.incidents.map((state, i) => ({
      id: state.id,
      text: drill.incidents[i]?.text ?? state.id,
      what: incidentInWords(state),
      fromMs: orNull(state.fromTick),
      toMs: orNull(state.toTick),
    })),
    messages: run.messages.map(({ tick, from, text, answers, answer }) => ({
      atMs: tick * TICK_MS,
      from,
      text,
      answer: answers.find((one) => one.id === answer)?.text ?? null,
    })),
    hints: run.hints.map(({ tick, text }) => ({ atMs: tick * TICK_MS, text, cost: drill.hints.costs })),
    unsafe,
    truth: truthTraces(run),
    vapour: run.samples.map(({ tick, vapourLelPct, flame, solventKg }) => ({
      atMs: tick * TICK_MS,
      vapourLelPct,
      flame,
      solventKg,
    })),
    twin: twinOf(run),
    ribbon: viewLine(run.world.line).ribbon,
  };
};
