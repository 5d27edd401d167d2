/** Every pair of colours the console puts on each other, against WCAG 2.2: 1.4.3 (4.5:1 for text), 1.4.11 (3:1 for marks and edges). */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const css = readFileSync(new URL('../../client/styles/tokens.css', import.meta.url), 'utf8');
const TOKENS = new Map(
  [...css.matchAll(/--([a-z-]+):\s*(#[0-9a-f]{6});/g)].map(([, name, hex]) => [name, hex]),
);

/** Relative luminance as WCAG 2.2 defines it. */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(one: string, other: string): number {
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}

const token = (name: string): string => {
  const hex = TOKENS.get(name);
  if (hex === undefined) throw new Error(`tokens.css has no colour --${name}`);
  return hex;
};

const GROUNDS = ['paper', 'card', 'raised'] as const;
const pairs = (inks: readonly string[], grounds: readonly string[]): [string, string][] =>
  inks.flatMap((ink) => grounds.map((ground): [string, string] => [ink, ground]));

describe('contrast', () => {
  it('the measure gives 21 for black on white and 4.54 for #767676 on white', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5);
    expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
  });

  it.each([
    ...pairs(['ink', 'soft', 'warn', 'trip', 'mark'], GROUNDS),
    ...pairs(['ink', 'warn'], ['warn-tint']),
    ...pairs(['ink', 'trip'], ['trip-tint']),
    ...pairs(['ink'], ['fill', 'band']),
    ...pairs(['on-dark'], ['ink', 'ink-hover', 'mark', 'warn', 'trip']),
  ])('words: %s on %s', (ink, ground) =>
    expect(contrast(token(ink), token(ground))).toBeGreaterThanOrEqual(4.5),
  );

  it.each([
    ...pairs(['edge', 'focus'], GROUNDS),
    ...pairs(['edge'], ['warn-tint', 'trip-tint']),
    ...pairs(['mark', 'ink', 'warn', 'trip'], ['fill', 'band']),
    ...pairs(['focus'], ['paper', 'warn-tint', 'trip-tint']),
  ])('marks and edges: %s on %s', (mark, ground) =>
    expect(contrast(token(mark), token(ground))).toBeGreaterThanOrEqual(3),
  );
});
