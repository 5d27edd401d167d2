/**
 * What was recorded decides again as it was: readings and commands alone, put to a fresh line, bring the same facts.
 * The record of the whole history is kept and run again at its end; the simulated plant has no part in it.
 */
import { createLine } from '../../../machines/line/create.ts';
import type { Line } from '../../../machines/line/line.types.ts';
import { step } from '../../../machines/line/step.ts';
import { type Again, type RecordedTick, replay } from '../../../machines/record/replay.ts';
import type { Scenario } from '../../../machines/scenario/shift.schema.ts';
import type { Checker } from './checker.ts';

/** One recorded tick put to the line: commands in their order, then the readings. */
const again: Again<Line> = (line, { changes, commands }) => {
  const facts = [];
  for (const envelope of commands) {
    const stepped = step(line, { input: 'command', envelope });
    line = stepped.line;
    facts.push(...stepped.facts);
  }
  const readings = changes === null ? line.readings : { ...line.readings, ...changes };
  const stepped = step(line, { input: 'tick', readings });
  facts.push(...stepped.facts);
  return { state: stepped.line, facts };
};

export const replayChecker = (scenario: Scenario): Checker => {
  const ticks: RecordedTick[] = [];
  return {
    name: 'replay',
    look: ({ advanced: { world, changes, commands, facts } }) => {
      ticks.push({ tick: world.tick, changes, commands, facts });
      return null;
    },
    close: () => {
      const { differences } = replay(ticks, createLine(scenario, scenario.shift.seed), again, 1);
      const first = differences[0];
      return first === undefined
        ? null
        : `tick ${first.tick} decides differently when run again: ${first.recorded} was recorded, ${first.replayed} came of it`;
    },
  };
};
