/** The fold: a line and an input give the next line, the facts, and what is asked of the field. Pure. */
import type { FieldAsk } from '../field/outputs.ts';
import type { Readings } from '../field/tags.ts';
import { carryOut } from './command-work.ts';
import type { CommandEnvelope } from './commands.ts';
import type { Fact } from './facts.ts';
import type { Line } from './line.types.ts';
import { reasonsAgainst } from './refusals.ts';
import { markRefusal } from './ribbon.ts';
import { settle, tickLine } from './tick.ts';
import { tell, type Work, workOn } from './work.ts';

export type Input =
  /** The moment moves on by one tick, with the readings of the new moment. */
  | { readonly input: 'tick'; readonly readings: Readings }
  /** A person asks for something in the present moment. */
  | { readonly input: 'command'; readonly envelope: CommandEnvelope };

export type Stepped = {
  readonly line: Line;
  readonly facts: readonly Fact[];
  readonly asks: readonly FieldAsk[];
  /** For a command: empty when it was carried out. */
  readonly because: readonly string[];
};

const NOTHING_WRONG: readonly string[] = [];
const NOT_READ_YET: readonly string[] = ['The plant has not been read yet: try again in a moment.'];
const REFUSALS_KEPT = 20;

const refuse = (work: Work, envelope: CommandEnvelope, because: readonly string[]): void => {
  const { line } = work;
  const { command, by, id } = envelope;
  tell(work, {
    is: 'commandRefused',
    id,
    command: command.do,
    by: { person: by.person, role: by.role },
    because,
  });
  line.refusals = [
    { tick: line.tick, by: by.person, command: command.do, because },
    ...line.refusals.slice(0, REFUSALS_KEPT - 1),
  ];
  markRefusal(work, `${command.do} refused: ${because[0] ?? ''}`);
};

const commandLine = (work: Work, envelope: CommandEnvelope): readonly string[] => {
  const because =
    work.line.tick === 0 ? NOT_READ_YET : reasonsAgainst(work.line, envelope.command, envelope.by);
  if (because.length > 0) {
    refuse(work, envelope, because);
    return because;
  }
  const { by, command, id } = envelope;
  tell(work, { is: 'commandDone', id, command: command.do, by: { person: by.person, role: by.role } });
  carryOut(work, envelope);
  settle(work);
  return NOTHING_WRONG;
};

/** One step. The line handed in is left as it was. */
export const step = (line: Line, input: Input): Stepped => {
  const work = workOn(line);
  let because = NOTHING_WRONG;
  if (input.input === 'command') because = commandLine(work, input.envelope);
  else tickLine(work, input.readings);
  return { line: work.line, facts: work.facts, asks: work.asks, because };
};
