/** Grading curves: read on the log chart, blended by shares. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blendGrading, passingPct } from '../../machines/mix/gradation.ts';

const chips = [
  { sieveMm: 10, passingPct: 100 },
  { sieveMm: 5, passingPct: 40 },
  { sieveMm: 1.25, passingPct: 10 },
];
const fines = [
  { sieveMm: 5, passingPct: 100 },
  { sieveMm: 0.075, passingPct: 8 },
];

describe('passingPct', () => {
  it('gives the points back and the logarithmic middle between two of them', () => {
    expect(passingPct(chips, 10)).toBe(100);
    expect(passingPct(chips, 5)).toBe(40);
    expect(passingPct(chips, 2.5)).toBeCloseTo(25, 12);
    expect(passingPct(chips, 20)).toBe(100);
    expect(passingPct(chips, 0.625)).toBeCloseTo(5, 12);
    expect(passingPct([], 5)).toBe(0);
  });

  it('never falls as the sieve opens', () => {
    const mm = fc.double({ min: 0.01, max: 20, noNaN: true });
    fc.assert(
      fc.property(mm, mm, (a, b) => {
        const [small, large] = a < b ? [a, b] : [b, a];
        expect(passingPct(chips, small)).toBeLessThanOrEqual(passingPct(chips, large) + 1e-9);
      }),
    );
  });
});

describe('blendGrading', () => {
  it('is the sum of shares on every sieve of any part', () => {
    const blend = blendGrading([
      { share: 0.6, grading: chips },
      { share: 0.4, grading: fines },
    ]);
    expect(blend.map((point) => point.sieveMm)).toEqual([10, 5, 1.25, 0.075]);
    expect(blend[1]?.passingPct).toBeCloseTo(0.6 * 40 + 0.4 * 100, 12);
    expect(blend[3]?.passingPct).toBeCloseTo(0.6 * ((10 * 0.075) / 1.25) + 0.4 * 8, 12);
  });
});
