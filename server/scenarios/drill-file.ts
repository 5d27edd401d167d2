/** Loads a drill with the shift it starts from, and checks that the two fit each other. */
import { existsSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { type Drill, drillSchema } from '../../machines/drills/drill.schema.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { SCENARIOS_FOLDER } from '../package-root.ts';
import { PlainError } from '../plain-error.ts';
import { at, findNamed, loadShift, shownPath } from './load.ts';
import { findingText, validate } from './validate.ts';
import { type Finding, readYaml, type YamlFile } from './yaml-file.ts';

export type LoadedDrill = {
  readonly drill: Drill | null;
  /** That of the shift the drill names, as read: `openDrill` changes it as the drill says. */
  readonly scenario: Scenario | null;
  readonly findings: readonly Finding[];
};

/** What a drill and its shift must agree on, beyond what each schema can see. */
const misfits = (yaml: YamlFile, drill: Drill, scenario: Scenario): Finding[] => {
  const out: Finding[] = [];
  const mixes = scenario.mixes.map((mix) => mix.id);
  const bays = scenario.plant.bays.map((bay) => bay.id);
  const { orders, moisture } = drill.start.change;
  (orders ?? []).forEach((order, i) => {
    const path = ['start', 'change', 'orders', i];
    if (!mixes.includes(order.mix))
      out.push(at(yaml, [...path, 'mix'], `${order.mix} is none of the shift's mixes`, mixes.join(', ')));
    if (!bays.includes(order.bay))
      out.push(at(yaml, [...path, 'bay'], `the plant has no bay ${order.bay}`, bays.join(', ')));
  });
  (moisture ?? []).forEach((test, i) => {
    if (test.bin > scenario.plant.bins.length)
      out.push(
        at(
          yaml,
          ['start', 'change', 'moisture', i, 'bin'],
          `the plant has ${scenario.plant.bins.length} bins`,
        ),
      );
  });
  return out;
};

/** Reads a drill file and its shift; drill and scenario are null when anything is wrong. */
export const loadDrillFile = (file: string): LoadedDrill => {
  const yaml = readYaml(shownPath(resolve(file)));
  const { value: drill, findings } = validate(yaml, drillSchema);
  if (drill === null) return { drill: null, scenario: null, findings };
  const named = findNamed(file, drill.start.shift);
  if (!existsSync(named)) {
    const what = `names ${named}, and there is no such file`;
    return { drill: null, scenario: null, findings: [at(yaml, ['start', 'shift'], what)] };
  }
  const shift = loadShift(named);
  const wrong = shift.scenario === null ? shift.findings : misfits(yaml, drill, shift.scenario);
  return wrong.length > 0 || shift.scenario === null
    ? { drill: null, scenario: null, findings: wrong }
    : { drill, scenario: shift.scenario, findings: [] };
};

/** The drill and its scenario, or a PlainError with the first finding and how many more there are. */
export const drillOrError = (file: string): { readonly drill: Drill; readonly scenario: Scenario } => {
  const { drill, scenario, findings } = loadDrillFile(file);
  if (drill !== null && scenario !== null) return { drill, scenario };
  const [first] = findings;
  const more =
    findings.length > 1 ? ` (and ${findings.length - 1} more: see \`check ${shownPath(file)}\`)` : '';
  throw new PlainError(`${first === undefined ? file : findingText(first)}${more}`);
};

export const DRILLS_FOLDER = join(SCENARIOS_FOLDER, 'drills');

/** Files of the drills in a folder, in the order of their names. */
export const drillFilesIn = (folder: string): readonly string[] =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.yaml'))
    .sort()
    .map((name) => join(folder, name));
