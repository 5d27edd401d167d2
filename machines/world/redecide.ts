/**
 * Decides a recorded shift once more: its readings and commands go through the line, and every fact that comes
 * out is held against the recorded one. Hashes show that a record was not changed since it was made; this shows
 * that it was made by the line, even to one who suspects whoever holds the key.
 */
import type { Readings } from '../field/tags.ts';
import { createLine } from '../line/create.ts';
import type { Fact } from '../line/facts.ts';
import { type Line, TICK_MS } from '../line/line.types.ts';
import { step } from '../line/step.ts';
import { canonical } from '../record/canonical.ts';
import type { Entry, OpeningBody } from '../record/entry.ts';
import { type RecordedTick, tickGatherer } from '../record/replay.ts';
import { PHYSICS_VERSION, PROGRAM } from '../record/version.ts';
import type { Scenario } from '../scenario/shift.schema.ts';

export type FactDifference = {
  readonly tick: number;
  /** Plant time since the shift began, ms. */
  readonly atMs: number;
  /** The chart, or 'books', 'line', that decides such a fact. */
  readonly chart: string;
  readonly fact: string;
  /** What the line decides now, and what the record has; null where one has no such fact. Canonical JSON. */
  readonly expected: string | null;
  readonly recorded: string | null;
};

export type Redecided = {
  readonly ticks: number;
  readonly facts: number;
  readonly commands: number;
  /** At most DIFFERENCES_LISTED of them. */
  readonly differences: readonly FactDifference[];
  readonly differing: number;
};

const DIFFERENCES_LISTED = 20;

/** Which part of the line a fact comes from. */
const chartOf = (fact: Fact): string => {
  if (fact.is === 'alarmChanged') return `alarm ${fact.alarm}`;
  if (/^(?:step|procedure|batch|look|mix)/.test(fact.is)) return 'batch';
  if (/^(?:campaign|charge|cautions)/.test(fact.is)) return 'campaign';
  if (/^(?:trip|element|cause|inhibit)/.test(fact.is)) return 'flame interlock';
  if (/^(?:lot|sample)/.test(fact.is)) return 'lot';
  if (/^(?:controls|standIn)/.test(fact.is)) return 'seat';
  if (/^(?:part|weight|scale|empty)/.test(fact.is)) return 'weigher';
  if (fact.is === 'burnerEntered') return 'burner';
  if (fact.is === 'heaterEntered') return 'oil heater';
  return fact.is === 'massMoved' ? 'books' : 'line';
};

/** Why this program cannot decide that shift again, or null. Another version may rightly decide otherwise. */
export const whyNotRedecided = ({
  program,
  physics,
}: Pick<OpeningBody, 'program' | 'physics'>): string | null =>
  program === PROGRAM && physics === PHYSICS_VERSION
    ? null
    : `it was recorded by ${program} with physics ${physics}, and this is ${PROGRAM} with physics ${PHYSICS_VERSION}: only the version that recorded it can decide it again`;

export type Redecider = {
  /** Entries of the shift in order. Throws Error when they are not a shift's. */
  readonly take: (entry: Entry) => void;
  readonly finish: () => Redecided;
};

/** One tick through the line alone: commands first, then the recorded readings. */
const decide = (line: Line, { changes, commands }: RecordedTick): { line: Line; facts: Fact[] } => {
  const facts: Fact[] = [];
  let now = line;
  for (const envelope of commands) {
    const stepped = step(now, { input: 'command', envelope });
    now = stepped.line;
    facts.push(...stepped.facts);
  }
  const readings: Readings = changes === null ? now.readings : { ...now.readings, ...changes };
  const stepped = step(now, { input: 'tick', readings });
  return { line: stepped.line, facts: [...facts, ...stepped.facts] };
};

export const redecider = (scenario: Scenario): Redecider => {
  let line = createLine(scenario, scenario.shift.seed);
  const gatherer = tickGatherer();
  const differences: FactDifference[] = [];
  let [ticks, facts, commands, differing] = [0, 0, 0, 0];

  const compare = (tick: number, expected: Fact | undefined, recorded: Fact | undefined): void => {
    const [should, was] = [expected, recorded].map((fact) => (fact === undefined ? null : canonical(fact)));
    const about = recorded ?? expected;
    if (should === was || about === undefined) return;
    differing += 1;
    if (differences.length >= DIFFERENCES_LISTED) return;
    differences.push({
      tick,
      atMs: tick * TICK_MS,
      chart: chartOf(about),
      fact: about.is,
      expected: should ?? null,
      recorded: was ?? null,
    });
  };

  const again = (recorded: RecordedTick): void => {
    const decided = decide(line, recorded);
    line = decided.line;
    ticks += 1;
    commands += recorded.commands.length;
    facts += recorded.facts.length;
    for (let i = 0; i < Math.max(decided.facts.length, recorded.facts.length); i++)
      compare(recorded.tick, decided.facts[i], recorded.facts[i]);
  };

  return {
    take: (entry) => {
      for (const recorded of gatherer.take(entry)) again(recorded);
    },
    finish: () => {
      for (const recorded of gatherer.finish()) again(recorded);
      return { ticks, facts, commands, differences, differing };
    },
  };
};
