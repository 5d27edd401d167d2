/** The grading charts: places of sieves, the band, and what lies outside it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  axisTicks,
  axisX,
  bandOutline,
  densestPct,
  extentOf,
  gradingLine,
  outOfBand,
  sieveName,
} from '../../machines/lab/worksheets/gradation-axes.ts';

const SIEVES = [9.5, 4.75, 2.36, 1.18, 0.075];
const EXTENT = extentOf(SIEVES);
const BAND = [
  { sieveMm: 9.5, fromPct: 100 },
  { sieveMm: 4.75, fromPct: 40, toPct: 100 },
  { sieveMm: 2.36, fromPct: 10, toPct: 40 },
  { sieveMm: 1.18, fromPct: 0, toPct: 10 },
  { sieveMm: 0.075, toPct: 2 },
];

describe('axes', () => {
  it('run from the finest to the coarsest on the log axis, from nothing to the coarsest on the power axis', () => {
    expect(EXTENT).toEqual({ finestMm: 0.075, coarsestMm: 9.5 });
    expect(axisX('log', 0.075, EXTENT)).toBe(0);
    expect(axisX('log', 9.5, EXTENT)).toBe(1);
    expect(axisX('power', 9.5, EXTENT)).toBe(1);
    expect(axisX('power', 0, EXTENT)).toBe(0);
    // half of 9.5 mm: 0.5^0.45 = 0.732 (by hand)
    expect(axisX('power', 4.75, EXTENT)).toBeCloseTo(0.732, 3);
    // log(4.75 ÷ 0.075) ÷ log(9.5 ÷ 0.075) = 4.1484 ÷ 4.8415 (by hand)
    expect(axisX('log', 4.75, EXTENT)).toBeCloseTo(0.8568, 3);
  });

  it('have a place for a single sieve and for none', () => {
    expect(axisX('log', 4.75, extentOf([4.75]))).toBe(0.5);
    expect(extentOf([])).toEqual({ finestMm: 0.1, coarsestMm: 100 });
  });

  it('keep the order of sieves whatever they are', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.01, max: 100, noNaN: true }), { minLength: 2, maxLength: 12 }),
        fc.constantFrom('power' as const, 'log' as const),
        (sieves, axis) => {
          const ticks = axisTicks(axis, sieves, extentOf(sieves));
          for (let i = 1; i < ticks.length; i += 1) {
            const [left, right] = [ticks[i - 1], ticks[i]];
            expect((right?.x ?? 0) >= (left?.x ?? 0)).toBe(true);
          }
        },
      ),
      { seed: 20260512, numRuns: 100 },
    );
  });

  it('put names that would touch in a second row', () => {
    const rows = axisTicks(
      'power',
      [19, 9.5, 4.75, 2.36, 1.18, 0.6, 0.3, 0.15, 0.075],
      extentOf([19, 0.075]),
    );
    expect(rows.map(({ row }) => row)).toContain(1);
    for (let i = 1; i < rows.length; i += 1) {
      const [a, b] = [rows[i - 1], rows[i]];
      if (a?.row === b?.row) expect((b?.x ?? 0) - (a?.x ?? 0)).toBeGreaterThanOrEqual(0.07);
    }
  });

  it('call sieves as people do', () => {
    expect([9.5, 4.75, 0.6, 0.075].map(sieveName)).toEqual(['9.5 mm', '4.75 mm', '600 µm', '75 µm']);
  });
});

describe('band', () => {
  it('goes along the upper edge from coarse to fine and back along the lower', () => {
    const outline = bandOutline('power', BAND, EXTENT);
    expect(outline.map(({ passingPct }) => passingPct)).toEqual([100, 100, 40, 10, 2, 0, 0, 10, 40, 100]);
    expect(outline[0]?.x).toBe(1);
    expect(outline.at(-1)?.x).toBe(1);
  });

  it('says on which side a sieve lies outside, and counts the limit itself as inside', () => {
    const points = [
      { sieveMm: 9.5, passingPct: 99 },
      { sieveMm: 4.75, passingPct: 40 },
      { sieveMm: 2.36, passingPct: 41 },
      { sieveMm: 0.6, passingPct: 3 },
      { sieveMm: 0.075, passingPct: 2 },
    ];
    expect(outOfBand(points, BAND)).toEqual([
      { sieveMm: 9.5, passingPct: 99, side: 'too coarse', limitPct: 100 },
      { sieveMm: 2.36, passingPct: 41, side: 'too fine', limitPct: 40 },
    ]);
  });

  it('draws a grading coarse to fine, and the densest as a straight line on the power axis', () => {
    const line = gradingLine(
      'power',
      SIEVES.map((sieveMm) => ({ sieveMm, passingPct: densestPct(sieveMm, 9.5) })),
      EXTENT,
    );
    expect(line[0]).toEqual({ x: 1, passingPct: 100 });
    for (const { x, passingPct } of line) expect(passingPct).toBeCloseTo(100 * x, 9);
  });
});
