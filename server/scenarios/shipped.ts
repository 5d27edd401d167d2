/** The shifts that are shipped, for choosing one at a console. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { shiftSchema } from '../../machines/scenario/shift.schema.ts';
import { SCENARIOS_FOLDER } from '../package-root.ts';
import { PlainError } from '../plain-error.ts';
import type { ShiftsOffered } from '../runner/next-shift.ts';
import { scenarioOrError } from './load.ts';
import { validate } from './validate.ts';
import { readYaml } from './yaml-file.ts';

/** Sound shift files of a folder by name of file; one that is not sound is left out (`check` says why). */
export const shiftsIn = (folder: string): ShiftsOffered => {
  const files = new Map<string, string>();
  const list: { id: string; name: string }[] = [];
  for (const name of readdirSync(folder).sort()) {
    if (!name.endsWith('.yaml')) continue;
    const shift = validate(readYaml(join(folder, name)), shiftSchema).value;
    if (shift === null || files.has(shift.id)) continue;
    files.set(shift.id, join(folder, name));
    list.push({ id: shift.id, name: shift.name });
  }
  const load = (id: string) => {
    const file = files.get(id);
    if (file === undefined) throw new PlainError(`There is no shift ${id}.`);
    return scenarioOrError(file);
  };
  return { list, load };
};

export const shippedShifts = (): ShiftsOffered => shiftsIn(join(SCENARIOS_FOLDER, 'shifts'));
