/** Words that must not be left behind: work not done, tests not run, paths of somebody's own machine. */
import { describe, expect, it } from 'vitest';
import { FILES, placesOf, read } from './sources.ts';

/** In two pieces each, so that this list does not find itself. */
const FORBIDDEN = [
  ['TO', 'DO'],
  ['FIX', 'ME'],
  ['XX', 'X'],
  ['/t', 'mp/'],
  ['/wo', 'rk/'],
  ['/ho', 'me/'],
  ['/ro', 'ot/'],
  ['seed ', 'document'],
  ['lorem ', 'ipsum'],
].map((pieces) => pieces.join(''));

const escaped = FORBIDDEN.map((word) => word.replace(/[/.]/g, '\\$&'));
const WORDS = new RegExp(`(?<![\\w.])(?:${escaped.join('|')})`, 'g');
const NOT_RUN = /\b(?:describe|it|test|suite)\.(?:skip|only|todo|fails|skipIf|runIf)\b/g;

const leftovers = (path: string, text: string): string[] => [
  ...placesOf(path, text, WORDS),
  ...placesOf(path, text, NOT_RUN),
];

describe('words', () => {
  it('left behind: none', () => {
    const texts = FILES.filter(
      (path) => /\.(ts|tsx|mjs|md|json|ya?ml|css|html|grit)$/.test(path) && path !== 'package-lock.json',
    );
    expect(texts.length).toBeGreaterThan(20);
    expect(texts.flatMap((path) => leftovers(path, read(path)))).toEqual([]);
  });

  it.each([
    ...FORBIDDEN.map((word) => `// ${word}`),
    `it.${'skip'}('x', () => {})`,
    `describe.${'only'}('x', () => {})`,
  ])('caught: %s', (text) => {
    expect(leftovers('machines/x.ts', text)).toHaveLength(1);
  });
});
