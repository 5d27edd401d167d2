/** Loads a week with the shift each of its days is made from, and checks that they fit each other. */
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { type Week, weekSchema } from '../../machines/scenario/week.schema.ts';
import { PlainError } from '../plain-error.ts';
import { at, findNamed, loadShift, shownPath } from './load.ts';
import { findingText, validate } from './validate.ts';
import { type Finding, readYaml } from './yaml-file.ts';

export type LoadedWeek = {
  readonly week: Week | null;
  /** One a day, in their order. */
  readonly scenarios: readonly Scenario[];
  readonly findings: readonly Finding[];
};

const nothing = (findings: readonly Finding[]): LoadedWeek => ({ week: null, scenarios: [], findings });

/** Fields of a day that take the place of the shift's own. */
const changeOf = (day: Week['days'][number], seed: number) => {
  const { day: _day, note: _note, ...fields } = day;
  return { ...Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)), seed };
};

/** Reads a week file and its shift; `seed` is added to that of every day and of the lab. */
export const loadWeekFile = (file: string, seed = 0): LoadedWeek => {
  const yaml = readYaml(shownPath(resolve(file)));
  const { value: week, findings } = validate(yaml, weekSchema);
  if (week === null) return nothing(findings);
  const named = findNamed(file, week.shift);
  if (!existsSync(named)) return nothing([at(yaml, ['shift'], `names ${named}, and there is no such file`)]);
  const wrong: Finding[] = [];
  const scenarios: Scenario[] = [];
  week.days.forEach((day, i) => {
    const { scenario, findings: found } = loadShift(named, {
      change: changeOf(day, (day.seed + seed) % 2 ** 32),
    });
    if (scenario !== null) scenarios.push(scenario);
    else
      wrong.push(
        ...found.map((one) => ({
          ...at(yaml, ['days', i], `${day.day}: ${one.path} ${one.what}`, one.allowed),
        })),
      );
  });
  const [first] = scenarios;
  for (const [who, role] of [
    ['officer', 'quality officer'],
    ['supervisor', 'supervisor'],
  ] as const) {
    const person = first?.people.find((one) => one.id === week.lab[who]);
    if (first === undefined || person?.role === role) continue;
    const fit = first.people.filter((one) => one.role === role).map((one) => one.id);
    wrong.push(at(yaml, ['lab', who], `${week.lab[who]} is no ${role} of the people file`, fit.join(', ')));
  }
  if (first !== undefined && first.shift.standIn === undefined)
    wrong.push(at(yaml, ['shift'], 'names no stand-in operator (standIn), and nobody else would lead it'));
  return wrong.length > 0
    ? nothing(wrong)
    : {
        week: { ...week, lab: { ...week.lab, seed: (week.lab.seed + seed) % 2 ** 32 } },
        scenarios,
        findings: [],
      };
};

/** The week, or a PlainError with the first finding. */
export const weekOrError = (file: string, seed?: number): { week: Week; scenarios: readonly Scenario[] } => {
  const { week, scenarios, findings } = loadWeekFile(file, seed);
  if (week !== null) return { week, scenarios };
  const [first] = findings;
  const more =
    findings.length > 1 ? ` (and ${findings.length - 1} more: see \`check ${shownPath(file)}\`)` : '';
  throw new PlainError(`${first === undefined ? file : findingText(first)}${more}`);
};
