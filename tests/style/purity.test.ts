/** machines/ computes and nothing else: no clock, no chance, no timers, no output, no knowledge of where it runs. */
import { describe, expect, it } from 'vitest';
import { bareCode, CODE, placesOf, read } from './sources.ts';

const IMPURE =
  /\b(?:new\s+Date|Date\.\w+|Math\.random|performance\.\w+|set(?:Timeout|Interval|Immediate)|queueMicrotask|requestAnimationFrame|console\.\w+|process\.\w+|globalThis|fetch\(|localStorage|document\.\w+|window\.(?!fromC|toC)\w+|require\(|localeCompare|toLocale\w+|Intl\.\w+|async\s|await\s|new\s+Promise|eval\()/g;

/** Reading an export waits for its bytes, wherever they come from; what is done with them is as pure as the rest. */
const MAY_WAIT = /^machines\/record\/(?:open-export|zip-read|verify-\w+|seal|proof)\.ts$/;
const WAITING = /(?:async|await)\s$|:\d+ (?:async|await)$/;

const impurities = (path: string, text: string): string[] =>
  placesOf(path, bareCode(text), IMPURE).filter((place) => !MAY_WAIT.test(path) || !WAITING.test(place));

describe('machines/', () => {
  const pure = CODE.filter((path) => path.startsWith('machines/'));

  it('is pure', () => {
    expect(pure.length).toBeGreaterThan(10);
    expect(pure.flatMap((path) => impurities(path, read(path)))).toEqual([]);
  });

  it('compiles without Node and DOM, so that what this test has no word for is a type error', () => {
    const config = JSON.parse(read('machines/tsconfig.json'));
    expect(config.compilerOptions).toEqual({ lib: ['ES2023'], types: [] });
  });

  it.each([
    'const now = Date.now();',
    'const at = new Date(0);',
    'const luck = Math.random();',
    'setTimeout(() => step(), 100);',
    'console.log(1);',
    'const t = performance.now();',
    'names.sort((a, b) => a.localeCompare(b));',
    'export const f = async () => 1;',
    `const text = \`at $\{Date.now()}\`;`,
  ])('caught: %s', (text) => {
    expect(impurities('machines/x.ts', text)).toHaveLength(1);
  });

  it('may wait where exports are read, and do nothing else there', () => {
    expect(impurities('machines/record/zip-read.ts', 'const at = await read(0);')).toEqual([]);
    expect(impurities('machines/record/zip-read.ts', 'const at = await read(Date.now());')).toHaveLength(1);
    expect(impurities('machines/line/step.ts', 'const at = await read(0);')).toHaveLength(1);
  });

  it.each([
    "const why = 'Date.now() is not for us';",
    '// Math.random() would not replay',
    '/* setTimeout */ const date = shift.date;',
  ])('allowed: %s', (text) => {
    expect(impurities('machines/x.ts', text)).toEqual([]);
  });
});
