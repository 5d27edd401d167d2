/** A stand-in operator: sees what the line shows, takes its time, and gives the commands a person would. */
import type { Command, CommandEnvelope } from '../line/commands.ts';
import type { Line } from '../line/line.types.ts';
import { nextState, unitOf } from '../line/random.ts';
import { decide } from './decide.ts';
import { TRAITS } from './skills.ts';

export type StandIn = {
  readonly random: number;
  readonly given: number;
  /** What it is about to do and when; null while it only watches. */
  readonly about: string | null;
  readonly doesAtTick: number;
};

/** The stand-in's own stream of chance, apart from the line's and the plant's. */
const STREAM = 0x5eed;

export const startStandIn = (seed: number): StandIn => ({
  random: (seed ^ STREAM) >>> 0,
  given: 0,
  about: null,
  doesAtTick: 0,
});

/** It looks about once a second. */
const LOOK_EVERY_TICKS = 10;

const between = (unit: number, [low, high]: readonly [number, number]): number => low + unit * (high - low);

/** What was refused just now is not asked again for five minutes: a person would first look into it. */
const ASK_AGAIN_TICKS = 3000;

const unlessRefused = (line: Line, command: Command | null): Command | null =>
  command !== null &&
  line.refusals.some((one) => one.command === command.do && line.tick - one.tick < ASK_AGAIN_TICKS)
    ? null
    : command;

/** One tick of the stand-in: at most one command, after its time to react has passed. */
export const standInWorks = (
  standIn: StandIn,
  line: Line,
): { standIn: StandIn; commands: readonly CommandEnvelope[] } => {
  const skill = line.seat.standIn;
  const holder = line.seat.holder;
  if (skill === null || holder === null || line.tick % LOOK_EVERY_TICKS !== 0)
    return { standIn, commands: [] };
  const command = unlessRefused(line, decide(line));
  const about = command === null ? null : JSON.stringify(command);
  if (command === null || about === null)
    return { standIn: standIn.about === null ? standIn : { ...standIn, about: null }, commands: [] };
  if (about !== standIn.about) {
    const traits = TRAITS[skill];
    const first = nextState(standIn.random);
    const second = nextState(first);
    const overlooked = unitOf(standIn.random) < traits.overlooks;
    const waitS = between(unitOf(first), overlooked ? traits.overlooksS : traits.reactS);
    return {
      standIn: { ...standIn, random: second, about, doesAtTick: line.tick + Math.round(waitS * 10) },
      commands: [],
    };
  }
  if (line.tick < standIn.doesAtTick) return { standIn, commands: [] };
  const given = standIn.given + 1;
  return {
    standIn: { ...standIn, given, about: null },
    commands: [
      {
        id: `stand-in-${String(given).padStart(6, '0')}`,
        by: { person: holder.person, role: holder.role, console: holder.console },
        command,
      },
    ],
  };
};
