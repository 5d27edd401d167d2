/** The shape of the tree: what stands at the top, what must be there, how long a file may grow, how it begins. */
import { describe, expect, it } from 'vitest';
import { CODE, FILES, read } from './sources.ts';

const TOP_LEVEL = [
  'DEVELOPERS.md',
  'LICENSE',
  'README.md',
  'client',
  'machines',
  'package-lock.json',
  'package.json',
  'scenarios',
  'server',
  'tests',
  'tsconfig.json',
];
const LONGEST_FILE_LINES = 400;

const linesOf = (path: string): number => read(path).split('\n').length;

describe('the tree', () => {
  it('has exactly these names at the top, and dotfiles', () => {
    const names = new Set(
      FILES.map((path) => path.split('/')[0] ?? '').filter((name) => !name.startsWith('.')),
    );
    expect([...names].sort()).toEqual(TOP_LEVEL);
  });

  it('has a licence that says who and what', () => {
    expect(read('LICENSE')).toMatch(/^MIT License\n\nCopyright \(c\) \d{4} /);
    expect(JSON.parse(read('package.json')).license).toBe('MIT');
  });

  it('runs one command in continuous integration', () => {
    expect(read('.ci/run')).toMatch(/^npm test$/m);
  });

  it(`has no source file over ${LONGEST_FILE_LINES} lines`, () => {
    const sources = FILES.filter((path) => /^(machines|server|client)\/.*\.(ts|tsx|mjs|css)$/.test(path));
    expect(sources.length).toBeGreaterThan(20);
    const long = sources.filter((path) => linesOf(path) > LONGEST_FILE_LINES);
    expect(long.map((path) => `${path}: ${linesOf(path)}`)).toEqual([]);
  });

  it('says at the head of each file what the file is for', () => {
    const silent = CODE.filter((path) => !/^(#![^\n]*\n)?\s*(\/\*\*|\/\/)\s*\S/.test(read(path)));
    expect(silent).toEqual([]);
  });

  it('pins every package to one version', () => {
    const { dependencies, devDependencies } = JSON.parse(read('package.json'));
    const loose = Object.entries({ ...dependencies, ...devDependencies }).filter(
      ([, version]) => !/^\d+\.\d+\.\d+$/.test(String(version)),
    );
    expect(loose).toEqual([]);
  });
});
