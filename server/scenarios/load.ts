/** Loads a shift with every file it names, and checks that they fit each other. */
import { existsSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import type { z } from 'zod';
import { drillSchema } from '../../machines/drills/drill.schema.ts';
import { storyTroubles } from '../../machines/line/story.ts';
import { type Mix, mixSchema } from '../../machines/scenario/mix.schema.ts';
import { peopleSchema } from '../../machines/scenario/people.schema.ts';
import { plantSchema } from '../../machines/scenario/plant.schema.ts';
import {
  plantThisMorning,
  type Scenario,
  type Shift,
  shiftSchema,
} from '../../machines/scenario/shift.schema.ts';
import { type Specification, specificationSchema } from '../../machines/scenario/specification.schema.ts';
import { storySchema } from '../../machines/scenario/story.schema.ts';
import { weekSchema } from '../../machines/scenario/week.schema.ts';
import { SCENARIOS_FOLDER } from '../package-root.ts';
import { PlainError } from '../plain-error.ts';
import { loadDrillFile } from './drill-file.ts';
import { mixNotes, shiftNotes, specificationNamed, specificationNotes } from './specification-file.ts';
import { findingText, validate } from './validate.ts';
import { loadWeekFile } from './week-file.ts';
import { type Finding, pathText, readYaml, type YamlFile, type YamlPath } from './yaml-file.ts';

export type Loaded = { readonly scenario: Scenario | null; readonly findings: readonly Finding[] };

const SCHEMAS = {
  shift: shiftSchema,
  plant: plantSchema,
  mix: mixSchema,
  people: peopleSchema,
  drill: drillSchema,
  story: storySchema,
  specification: specificationSchema,
  week: weekSchema,
} as const;
export type Kind = keyof typeof SCHEMAS;
export const KINDS = Object.keys(SCHEMAS) as readonly Kind[];

/** A file as a person would name it: short when it lies below where they stand. */
export const shownPath = (file: string): string => {
  const short = relative(process.cwd(), file);
  return short === '' || short.startsWith('..') ? file : short;
};

export const at = (yaml: YamlFile, path: YamlPath, what: string, allowed = ''): Finding => ({
  file: yaml.file,
  ...yaml.positionOf(path),
  path: pathText(path),
  what,
  allowed,
});

/** Files are named from the scenarios folder: the one above `shifts/`, the shift's own, or the shipped one. */
export const findNamed = (shiftFile: string, name: string): string => {
  const own = dirname(resolve(shiftFile));
  const places = [join(own, '..'), own, SCENARIOS_FOLDER].map((folder) => resolve(folder, name));
  return shownPath(places.find(existsSync) ?? (places[0] as string));
};

export const kindOf = (yaml: YamlFile): unknown =>
  typeof yaml.data === 'object' && yaml.data !== null ? (yaml.data as { kind?: unknown }).kind : undefined;

/** What two files must agree on, beyond what each schema can see. */
const misfits = (
  yaml: YamlFile,
  shift: Shift,
  plant: Scenario['plant'],
  mixes: readonly Mix[],
): Finding[] => {
  const out: Finding[] = [];
  const ids = mixes.map((mix) => mix.id);
  ids.forEach((id, i) => {
    if (ids.indexOf(id) !== i) out.push(at(yaml, ['mixes', i], `mix ${id} stands twice`));
  });
  shift.orders.forEach((order, i) => {
    if (!ids.includes(order.mix))
      out.push(at(yaml, ['orders', i, 'mix'], `${order.mix} is in none of the mix files`, ids.join(', ')));
    const bays = plant.bays.map((bay) => bay.id);
    if (!bays.includes(order.bay))
      out.push(at(yaml, ['orders', i, 'bay'], `the plant has no bay ${order.bay}`, bays.join(', ')));
  });
  mixes.forEach((mix, i) => {
    const bad = mix.aggregates.find((part) => part.bin > plant.bins.length);
    if (bad !== undefined)
      out.push(
        at(yaml, ['mixes', i], `mix ${mix.id} draws on bin ${bad.bin}, the plant has ${plant.bins.length}`),
      );
    const tank = plant.tanks[mix.family];
    if (tank.grade !== mix.binder.grade)
      out.push(
        at(
          yaml,
          ['mixes', i],
          `mix ${mix.id} wants binder ${mix.binder.grade}, the ${mix.family} tank holds ${tank.grade}`,
        ),
      );
    if (mix.batchKg > plant.mixer.capacityKg)
      out.push(
        at(
          yaml,
          ['mixes', i],
          `a batch of mix ${mix.id} (${mix.batchKg} kg) is more than the mixer takes (${plant.mixer.capacityKg} kg)`,
        ),
      );
  });
  shift.incidents.forEach((incident, i) => {
    if (incident.untilMin !== undefined && incident.untilMin <= incident.atMin)
      out.push(at(yaml, ['incidents', i, 'untilMin'], 'must be later than atMin'));
  });
  return out;
};

export type LoadOptions = {
  /** Takes the place of the plant file the shift names. */
  readonly plantFile?: string;
  readonly seed?: number;
  /** What one day of a week has otherwise than the file: takes the place of the file's own fields. */
  readonly change?: Partial<Shift>;
};

/** Reads a shift file and all it names; the scenario is null when anything is wrong. */
export const loadShift = (file: string, options: LoadOptions = {}): Loaded => {
  const yaml = readYaml(shownPath(resolve(file)));
  const shift = validate(yaml, shiftSchema);
  if (shift.value === null) return { scenario: null, findings: shift.findings };
  const value = { ...shift.value, ...options.change };
  const findings: Finding[] = [];
  const read = <S extends z.ZodType>(path: YamlPath, name: string, schema: S): z.output<S> | null => {
    const named = readYaml(name);
    if (!existsSync(name)) {
      findings.push(at(yaml, path, `names ${name}, and there is no such file`));
      return null;
    }
    const result = validate(named, schema);
    findings.push(...result.findings);
    return result.value;
  };
  const plant = read(['plant'], options.plantFile ?? findNamed(file, value.plant), plantSchema);
  const people = read(['people'], findNamed(file, value.people), peopleSchema);
  const mixes = value.mixes.map((name, i) => read(['mixes', i], findNamed(file, name), mixSchema));
  const whole = mixes.filter((mix) => mix !== null);
  const specifications: Specification[] = [];
  value.mixes.forEach((name, i) => {
    const id = mixes[i]?.specification;
    if (id === undefined || specifications.some((one) => one.id === id)) return;
    const found = read(['mixes', i], findNamed(file, `specifications/${id}.yaml`), specificationSchema);
    if (found !== null && found.id !== id)
      findings.push(
        at(yaml, ['mixes', i], `${name} names specification ${id}, its file calls itself ${found.id}`),
      );
    else if (found !== null) specifications.push(found);
  });
  if (plant !== null && whole.length === mixes.length) findings.push(...misfits(yaml, value, plant, whole));
  const who = value.standIn?.person;
  if (people !== null && who !== undefined && !people.people.some((person) => person.id === who))
    findings.push(
      at(
        yaml,
        ['standIn', 'person'],
        `${who} is not in the people file`,
        people.people.map((p) => p.id).join(', '),
      ),
    );
  if (findings.length > 0 || plant === null || people === null) return { scenario: null, findings };
  const withSeed = options.seed === undefined ? value : { ...value, seed: options.seed };
  return {
    scenario: {
      shift: withSeed,
      plant: plantThisMorning(plant, value),
      mixes: whole,
      people: people.people,
      ...(specifications.length === 0 ? {} : { specifications }),
    },
    findings: [],
  };
};

/** The scenario, or a PlainError with the first finding and how many more there are. */
export const scenarioOrError = (file: string, options: LoadOptions = {}): Scenario => {
  const { scenario, findings } = loadShift(file, options);
  if (scenario !== null) return scenario;
  const kind = kindOf(readYaml(file));
  if (kind !== 'shift' && KINDS.includes(kind as Kind))
    throw new PlainError(`${shownPath(resolve(file))} is a ${kind} file: name a shift file here.`);
  const [first] = findings;
  const more =
    findings.length > 1 ? ` (and ${findings.length - 1} more: see \`check ${shownPath(file)}\`)` : '';
  throw new PlainError(`${first === undefined ? file : findingText(first)}${more}`);
};

export type Checked = {
  readonly kind: Kind | null;
  readonly findings: readonly Finding[];
  /** What is sound and yet cannot both be meant: a mix against its specification. */
  readonly notes?: readonly Finding[];
};

/** A mix with the specification it names; a specification with itself. */
const checkAgainst = (yaml: YamlFile, kind: 'mix' | 'specification'): Checked => {
  if (kind === 'specification') {
    const { value, findings } = validate(yaml, specificationSchema);
    return { kind, findings, notes: value === null ? [] : specificationNotes(yaml, value) };
  }
  const { value: mix, findings } = validate(yaml, mixSchema);
  if (mix === null) return { kind, findings };
  const { specification, findings: named } = specificationNamed(yaml, mix);
  return {
    kind,
    findings: [...findings, ...named],
    notes: specification === null ? [] : mixNotes(yaml, mix, specification),
  };
};

/** Kind and findings of any scenario file; a shift is checked with every file it names. */
export const checkFile = (file: string): Checked => {
  const yaml = readYaml(shownPath(resolve(file)));
  if (yaml.findings.length > 0) return { kind: null, findings: yaml.findings };
  const kind = kindOf(yaml);
  if (!KINDS.includes(kind as Kind)) {
    const what = kind === undefined ? 'is missing' : `${JSON.stringify(kind)} is not a kind of scenario file`;
    return { kind: null, findings: [{ ...at(yaml, ['kind'], what, KINDS.join(', ')), path: 'kind' }] };
  }
  if (kind === 'shift') {
    const { scenario, findings } = loadShift(file);
    return { kind, findings, notes: scenario === null ? [] : shiftNotes(yaml, scenario) };
  }
  if (kind === 'drill') return { kind, findings: loadDrillFile(file).findings };
  if (kind === 'week') return { kind, findings: loadWeekFile(file).findings };
  if (kind === 'story') {
    const { value: story, findings } = validate(yaml, storySchema);
    const troubles = story === null ? [] : storyTroubles(story);
    return { kind, findings: [...findings, ...troubles.map(({ path, what }) => at(yaml, path, what))] };
  }
  if (kind === 'mix' || kind === 'specification') return checkAgainst(yaml, kind);
  return { kind: kind as Kind, findings: validate(yaml, SCHEMAS[kind as Kind]).findings };
};
