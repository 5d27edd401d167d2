/** Why each run of a plan stands where it stands, in words. */
import { daysBetween } from './days.ts';
import type { Standing } from './lay.ts';
import type { PlanInput, Run } from './plan.types.ts';
import { CHANGE_MIN, type Change } from './rates.ts';

const two = (n: number): string => String(n).padStart(2, '0');

/** Minutes into the day as a time of day. */
export const clockOf = (startsAt: string, minute: number): string => {
  const [h = 0, m = 0] = startsAt.split(':').map(Number);
  const total = h * 60 + m + Math.round(minute);
  return `${two(Math.floor(total / 60) % 24)}:${two(total % 60)}`;
};

const capital = (words: string): string => words.slice(0, 1).toUpperCase() + words.slice(1);

const changeWords = (changes: readonly Change[]): string => {
  const minutes = changes.reduce((sum, change) => sum + CHANGE_MIN[change], 0);
  return `${changes.join(', ')} changed over here (${minutes} min)`;
};

type Bare = Omit<Run, 'why'> & { readonly day: number };

const placeWords = (input: PlanInput, run: Bare, before: Bare | undefined): string => {
  if (run.changes.length > 0) {
    const from = before?.kind ?? input.leftAs;
    return `${capital(run.kind)} after ${from}: ${changeWords(run.changes)}.`;
  }
  if (before === undefined)
    return input.leftAs === null
      ? 'First to be made: nothing is changed over.'
      : `The line was left set up for ${input.leftAs}: nothing is changed over.`;
  if (before.order === run.order)
    return before.day === run.day
      ? 'Goes on in another bay: the one before is full.'
      : 'Goes on from the day before, which was full.';
  return before.mix === run.mix
    ? 'The same mix as the one before: nothing is changed over.'
    : `${capital(run.kind)} like the one before: tank, dryer and flame rules stay as they are.`;
};

const dayWords = (input: PlanInput, run: Bare, last: boolean): readonly string[] => {
  const job = input.jobs.find(({ order }) => order === run.order);
  const date = input.days[run.day]?.date;
  if (job === undefined || date === undefined || !last) return [];
  const early = daysBetween(date, job.neededBy);
  if (early < 0)
    return [`LATE: needed by ${job.neededBy}, ${-early} ${early === -1 ? 'day' : 'days'} before.`];
  if (early === 0) return ['Done on the day it is needed.'];
  return [`Done ${early} ${early === 1 ? 'day' : 'days'} before it is needed (${job.neededBy}).`];
};

const bayWords = (input: PlanInput, run: Bare, before: readonly Bare[]): string => {
  const bay = input.bays.find(({ id }) => id === run.bay);
  const name = bay?.name ?? `Bay ${run.bay}`;
  const holds = bay?.mixes.includes(run.mix) === true || before.some((one) => one.bay === run.bay);
  return holds ? `${name} holds this mix already.` : `${name} is empty for it.`;
};

const waitWords = ({ waitMin, fromMin, kind }: Bare, startsAt: string): readonly string[] =>
  waitMin > 0
    ? [
        `Waits ${Math.round(waitMin)} min for the ${kind} tank: heat it from ${startsAt}, it is warm by ${clockOf(startsAt, fromMin)}.`,
      ]
    : [];

/** The runs with their reasons, in the order they are made. */
export const explained = (
  input: PlanInput,
  { runs }: Standing,
  byHand: boolean,
): readonly (Run & { readonly day: number })[] =>
  runs.map((run, i) => {
    const last = !runs.slice(i + 1).some(({ order }) => order === run.order);
    return {
      ...run,
      why: [
        ...(byHand ? ['Stands where a person put it.'] : []),
        placeWords(input, run, runs[i - 1]),
        ...waitWords(run, input.startsAt),
        ...dayWords(input, run, last),
        bayWords(input, run, runs.slice(0, i)),
      ],
    };
  });
