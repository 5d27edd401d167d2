/** Which shift and which plant `serve` is to run, from what was written on the command line. */
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { PlainError } from '../plain-error.ts';
import { scenarioOrError } from './load.ts';
import { readYaml } from './yaml-file.ts';

const kindOf = (file: string): unknown => {
  const { data, findings } = readYaml(file);
  const [first] = findings;
  if (first !== undefined) throw new PlainError(`${file}: ${first.what}.`);
  return (data as { kind?: unknown } | null)?.kind;
};

/** `plantOrShift` may name a plant file (takes the place of the shift's own) or a shift file. */
export const loadPlantOrShift = (
  shiftFile: string | undefined,
  plantOrShift: string | undefined,
  defaultShift: string,
): Scenario => {
  if (plantOrShift === undefined) return scenarioOrError(shiftFile ?? defaultShift);
  const kind = kindOf(plantOrShift);
  if (kind === 'shift' && shiftFile === undefined) return scenarioOrError(plantOrShift);
  if (kind === 'plant') return scenarioOrError(shiftFile ?? defaultShift, { plantFile: plantOrShift });
  throw new PlainError(`${plantOrShift} is not a plant file: its kind is ${String(kind)}.`);
};
