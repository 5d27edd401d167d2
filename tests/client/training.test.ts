/** Figures the training pages draw from: bounds of a plot, stretches of time, scores by competency, addresses. */
import { describe, expect, it } from 'vitest';
import { seatIn } from '../../client/live/session.ts';
import { boundsOf, roundStep } from '../../client/training/debrief/plot.tsx';
import { stretchesOf } from '../../client/training/debrief/twin.tsx';
import { byCompetency } from '../../client/training/history-page.tsx';
import { clockOfS, targetWords } from '../../client/training/words.ts';
import { consoleIn } from '../../server/training/rerun.ts';

describe('a plot', () => {
  it.each([
    [
      [0, 19.4],
      [0, 20],
    ],
    [
      [60.2, 64.8],
      [60, 66],
    ],
    [[5], [4, 6]],
    [[], [0, 1]],
    [
      [-3, 7],
      [-5, 10],
    ],
  ])('of %o runs over %o', (values, bounds) => {
    const [low, high] = boundsOf(values);
    expect([low, high]).toEqual(bounds);
    for (const value of values) expect(value >= low && value <= high).toBe(true);
  });
  it.each([
    [10, 4, 5],
    [0.7, 4, 0.2],
    [1000, 4, 500],
  ])('of a span of %d in %d parts has steps of %d', (span, parts, step) => {
    expect(roundStep(span, parts)).toBeCloseTo(step, 10);
  });
});

it('stretches of time are joined while something holds', () => {
  const at = (atMs: number, flame: boolean) => ({ atMs, flame, vapourLelPct: 0, solventKg: 0 });
  const samples = [at(0, false), at(2, true), at(4, true), at(6, false), at(8, true)];
  expect(stretchesOf(samples, ({ flame }) => flame)).toEqual([
    { from: 2, to: 6 },
    { from: 8, to: 8 },
  ]);
  expect(stretchesOf([], () => true)).toEqual([]);
});

it('scores by competency are in order of time and leave out what was not asked for', () => {
  const one = (name: string, score: number, of: number) => ({
    competencies: [{ name, score, points: 0, of }],
  });
  const newestFirst = [one('faults', 90, 10), one('faults', 0, 0), one('faults', 40, 10)];
  expect(byCompetency(newestFirst as never)).toEqual([{ name: 'faults', scores: [40, 90] }]);
});

it('a seat in a drill has the same name on both sides', () => {
  for (const person of ['jessamy', 'x'.repeat(60)])
    expect(seatIn('0123456789', person)).toBe(consoleIn('0123456789', person));
});

it('times and targets are in words', () => {
  expect([clockOfS(754.9), clockOfS(-3), clockOfS(3600)]).toEqual(['12:34', '0:00', '60:00']);
  expect([targetWords('hoodFanStopped'), targetWords('vapourLelPct')]).toEqual([
    'Hood fan stopped',
    'Vapour at hood',
  ]);
});
