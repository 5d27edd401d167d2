/** A scenario with the specification of every one of its mixes, the shipped file where it brings none itself. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { type Specification, specificationSchema } from '../../machines/scenario/specification.schema.ts';
import { SCENARIOS_FOLDER } from '../package-root.ts';
import { validate } from './validate.ts';
import { readYaml } from './yaml-file.ts';

const shipped = (id: string): Specification | null => {
  const file = join(SCENARIOS_FOLDER, 'specifications', `${id}.yaml`);
  return existsSync(file) ? validate(readYaml(file), specificationSchema).value : null;
};

/** Mixes whose specification is nowhere keep their own samples, and the lab says what is missing. */
export const withSpecifications = (scenario: Scenario): Scenario => {
  const has = scenario.specifications ?? [];
  const named = [...new Set(scenario.mixes.flatMap((mix) => mix.specification ?? []))];
  const more = named.filter((id) => !has.some((one) => one.id === id)).flatMap((id) => shipped(id) ?? []);
  return more.length === 0 ? scenario : { ...scenario, specifications: [...has, ...more] };
};
