/** Finds the specification a mix names, and says where the two contradict each other. */
import { existsSync } from 'node:fs';
import {
  absorptionOf,
  type Contradiction,
  contradictionsOf,
  gradingsOf,
} from '../../machines/lab/judge/index.ts';
import type { Mix } from '../../machines/scenario/mix.schema.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { type Specification, specificationSchema } from '../../machines/scenario/specification.schema.ts';
import { at, findNamed } from './load.ts';
import { validate } from './validate.ts';
import { type Finding, readYaml, type YamlFile, type YamlPath } from './yaml-file.ts';

export type Named = { readonly specification: Specification | null; readonly findings: readonly Finding[] };

/** The specification a mix file names: null without one, or when it is not sound. */
export const specificationNamed = (yaml: YamlFile, mix: Pick<Mix, 'specification'>): Named => {
  if (mix.specification === undefined) return { specification: null, findings: [] };
  const file = findNamed(yaml.file, `specifications/${mix.specification}.yaml`);
  if (!existsSync(file)) {
    const what = `names ${file}, and there is no such file`;
    return { specification: null, findings: [at(yaml, ['specification'], what)] };
  }
  const { value, findings } = validate(readYaml(file), specificationSchema);
  return { specification: value, findings };
};

/** Line of the mix file a contradiction is about. */
const mixPath = ({ kind, property }: Contradiction): YamlPath => {
  if (kind === 'family') return ['family'];
  if (property?.startsWith('passing:') === true) return ['aggregates'];
  if (property?.startsWith('residualBinder') === true) return ['binder', 'dosePct'];
  if (property === 'residuePct') return ['binder', 'residueMassPct'];
  if (property === 'flashC') return ['binder', 'flashC'];
  return property === 'viscosityMm2S' ? ['binder', 'viscosity'] : ['specification'];
};

const specificationPath = (spec: Specification, { limit }: Contradiction): YamlPath =>
  limit === null ? ['frequencies'] : ['limits', spec.limits.indexOf(limit)];

const words = ({ words: said }: Contradiction): string => said.replace(/\.$/, '');

/** Contradictions of a mix with its specification, at their lines in the mix file; those of the specification with itself belong to its own. */
export const mixNotes = (yaml: YamlFile, mix: Mix, spec: Specification): Finding[] =>
  contradictionsOf(spec, mix, { absorptionPct: null })
    .filter((one) => one.kind !== 'window' && one.kind !== 'test')
    .map((one) => at(yaml, mixPath(one), words(one)));

/** Contradictions of each mix of a shift with its specification, with the stone of the plant's bins. */
export const shiftNotes = (yaml: YamlFile, { mixes, plant, specifications = [] }: Scenario): Finding[] =>
  mixes.flatMap((mix, i) => {
    const spec = specifications.find((one) => one.id === mix.specification);
    if (spec === undefined) return [];
    const against = { absorptionPct: absorptionOf(mix, plant.bins), gradings: gradingsOf(plant.bins) };
    return contradictionsOf(spec, mix, against).map((one) =>
      at(yaml, ['mixes', i], `mix ${mix.id}: ${words(one)}`),
    );
  });

/** Contradictions of a specification with itself, for whatever stone. */
export const specificationNotes = (yaml: YamlFile, spec: Specification): Finding[] =>
  contradictionsOf(spec, null, { absorptionPct: null }).map((one) =>
    at(yaml, specificationPath(spec, one), words(one)),
  );
