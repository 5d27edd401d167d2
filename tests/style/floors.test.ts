/** Imports never climb: each floor of the house may use the floors below it and nothing above or beside. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CODE, type Import, importsOf, ROOT, read, resolveImport } from './sources.ts';

/** Floors of machines/ from the ground up; folders on one floor do not import each other. */
const FLOORS: readonly (readonly string[])[] = [
  ['field'],
  ['scenario'],
  ['mix', 'record'],
  ['plant', 'people'],
  ['charts'],
  ['line'],
  ['standin', 'live', 'lab'],
  ['yard', 'reports'],
  ['ledger', 'world'],
  // A drill turns a whole world.
  ['drills'],
];

/** Types alone may climb, and only here: the record and the permission table name what the line defines. */
const TYPES_MAY_CLIMB: readonly (readonly [from: string, to: string])[] = [
  ['machines/people/', 'machines/line/commands.ts'],
  ['machines/record/', 'machines/line/commands.ts'],
  ['machines/record/', 'machines/line/facts.ts'],
  ['machines/record/', 'machines/scenario/shift.schema.ts'],
];

/** The files of client/ that run in Node: they build the rest. */
const BUILDS_THE_CLIENT: readonly string[] = ['client/vite.config.ts', 'client/standalone/vite.config.ts'];

const floorOf = (path: string): number => {
  const folder = path.split('/')[1] ?? '';
  return FLOORS.findIndex((floor) => floor.includes(folder));
};

/** Why an import is wrong, or null. */
function complaint(found: Import): string | null {
  const to = resolveImport(found);
  const [house] = found.from.split('/');
  if (to === null) {
    const isNode = found.specifier.startsWith('node:');
    if (isNode && !BUILDS_THE_CLIENT.includes(found.from) && (house === 'machines' || house === 'client'))
      return 'uses Node';
    return null;
  }
  const [target] = to.split('/');
  if (house === 'tests' || house === target) {
    if (house !== 'machines') return null;
  } else
    return target === 'machines' && (house === 'server' || house === 'client')
      ? null
      : `reaches into ${target}`;

  const folders = [found.from.split('/')[1], to.split('/')[1]];
  if (folders[0] === folders[1]) return null;
  const [below, here] = [floorOf(to), floorOf(found.from)];
  if (below < 0 || here < 0) return 'is in a folder that has no floor';
  if (below < here) return null;
  const excepted = TYPES_MAY_CLIMB.some(([from, allowed]) => found.from.startsWith(from) && to === allowed);
  if (found.typeOnly && excepted) return null;
  return below === here ? 'goes sideways' : 'climbs';
}

const complaintsIn = (path: string, text: string): string[] =>
  importsOf(path, text).flatMap((found) => {
    const why = complaint(found);
    return why === null ? [] : [`${path} ${why}: ${found.specifier}`];
  });

describe('imports', () => {
  it('never climb', () => {
    expect(CODE.length).toBeGreaterThan(20);
    expect(CODE.flatMap((path) => complaintsIn(path, read(path)))).toEqual([]);
  });

  it('lead to files that exist, by their full name', () => {
    // tests/style quotes imports that are wrong on purpose.
    const real = CODE.filter((path) => !path.startsWith('tests/style/'));
    const missing = real
      .flatMap((path) => importsOf(path, read(path)))
      .flatMap((found) => {
        const to = resolveImport(found)?.split('?')[0];
        return to === undefined || existsSync(join(ROOT, to)) ? [] : [`${found.from}: ${found.specifier}`];
      });
    expect(missing).toEqual([]);
  });

  it.each([
    ['machines/plant/pug-mill.ts', "import { step } from '../line/step.ts';"],
    ['machines/charts/batch/batch.machine.ts', "import { mayGive } from '../../line/view.ts';"],
    ['machines/mix/dose.ts', "import type { Entry } from '../record/entry.ts';"],
    ['machines/people/permissions.ts', "import { commandSchema } from '../line/commands.ts';"],
    ['machines/line/step.ts', "export { view } from '../../client/view.ts';"],
    ['machines/line/step.ts', "import { readFileSync } from 'node:fs';"],
    ['server/app.ts', "import {\n  a,\n  b,\n} from '../client/main.tsx';"],
    ['client/main.tsx', "const it = await import('../server/app.ts');"],
    ['machines/attic/old.ts', "import { a } from '../mix/dose.ts';"],
  ])('caught: %s with %s', (path, text) => {
    expect(complaintsIn(path, text)).toHaveLength(1);
  });

  it.each([
    ['machines/line/step.ts', "import { mayGive } from '../people/permissions.ts';"],
    ['machines/people/permissions.ts', "import type { CommandName } from '../line/commands.ts';"],
    ['server/app.ts', "import { step } from '../machines/line/step.ts';"],
  ])('allowed: %s with %s', (path, text) => {
    expect(complaintsIn(path, text)).toEqual([]);
  });
});
