/** Percent within limits against published tables. */
import { describe, expect, it } from 'vitest';
import { pwlOf, pwlOfQuality } from '../../machines/lab/stats/pwl.ts';

/** FHWA Technical Advisory T 5080.12 (23 June 1989), Table 1B: quality index for a PWL, by number of results. */
const TABLE_1B_N = [3, 4, 5, 6, 7, 8, 9, 10] as const;
const TABLE_1B: readonly (readonly [pwl: number, q: readonly number[]])[] = [
  [73, [0.76, 0.69, 0.66, 0.65, 0.64, 0.63, 0.63, 0.63]],
  [71, [0.71, 0.63, 0.6, 0.59, 0.58, 0.57, 0.57, 0.57]],
  [68, [0.62, 0.54, 0.51, 0.5, 0.49, 0.49, 0.48, 0.48]],
  [67, [0.59, 0.51, 0.47, 0.47, 0.46, 0.46, 0.46, 0.45]],
  [65, [0.52, 0.45, 0.43, 0.41, 0.41, 0.4, 0.4, 0.4]],
  [64, [0.49, 0.42, 0.4, 0.39, 0.38, 0.38, 0.37, 0.37]],
  [60, [0.36, 0.3, 0.28, 0.27, 0.27, 0.27, 0.26, 0.26]],
  [56, [0.22, 0.18, 0.17, 0.16, 0.16, 0.16, 0.16, 0.16]],
];

/** The one cell that does not fit its neighbours. */
const MISPRINT = { pwl: 67, n: 5 } as const;

/** Quality index at which the estimate is `pwl`, found by halving. */
const qualityFor = (pwl: number, n: number): number => {
  let [low, high] = [0, 3];
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2;
    if (pwlOfQuality(middle, n) < pwl) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

const cells = TABLE_1B.flatMap(([pwl, row]) =>
  row.map((q, i) => ({ pwl, n: TABLE_1B_N[i] as number, q })),
).filter(({ pwl, n }) => !(pwl === MISPRINT.pwl && n === MISPRINT.n));

describe('FHWA T 5080.12 Table 1B', () => {
  it('has 64 cells, of which 63 are checked one by one', () => {
    expect(TABLE_1B.flatMap(([, row]) => row)).toHaveLength(64);
    expect(cells).toHaveLength(63);
  });

  it.each(cells)('PWL $pwl from n $n asks for a quality index of $q', ({ pwl, n, q }) => {
    expect(Math.abs(qualityFor(pwl, n) - q)).toBeLessThanOrEqual(0.01);
  });

  it('prints .47 for PWL 67 from n 5, where the estimator and both neighbours say .48: a suspected misprint', () => {
    expect(qualityFor(67, 5)).toBeCloseTo(0.484, 3);
    expect(Math.abs(qualityFor(67, 5) - 0.47)).toBeGreaterThan(0.01);
    // Along the row the index falls from n 4 to n 6; .47 for n 5 would be as low as n 6 already.
    expect(qualityFor(67, 5)).toBeGreaterThan(qualityFor(67, 6));
    expect(qualityFor(67, 5)).toBeLessThan(qualityFor(67, 4));
  });

  it('takes n 11 with n 10 in one column', () => {
    for (const [pwl, row] of TABLE_1B)
      expect(Math.abs(qualityFor(pwl, 11) - (row[7] ?? 0))).toBeLessThanOrEqual(0.01);
  });
});

// Florida DOT Standard Specifications, Table 334-8: quality index 2.00.
describe('the table of the Florida standard specifications (334-8) at a quality index of 2.00', () => {
  it.each([
    [3, 100],
    [4, 100],
    [5, 100],
    [6, 99.97],
  ])('gives from n %i a PWL of %f', (n, pwl) => {
    expect(Math.abs(pwlOfQuality(2, n) - pwl)).toBeLessThanOrEqual(0.005);
  });
});

// Computed apart from this program, from the beta estimator; two decimals.
describe('the computed grid', () => {
  const N = [3, 4, 5, 6, 7, 8, 10] as const;
  it.each([
    [0, [50, 50, 50, 50, 50, 50, 50]],
    [0.5, [64.25, 66.67, 67.56, 68.0, 68.26, 68.43, 68.63]],
    [1, [83.33, 83.33, 83.64, 83.8, 83.9, 83.96, 84.03]],
    [1.5, [100, 100, 96.2, 95.19, 94.72, 94.44, 94.13]],
    [2, [100, 100, 100, 99.97, 99.57, 99.24, 98.83]],
  ])('at a quality index of %f', (q, row) => {
    N.forEach((n, i) => {
      expect(Math.abs(pwlOfQuality(q, n) - (row[i] ?? 0)), `n ${n}`).toBeLessThanOrEqual(0.0051);
    });
  });

  it('has closed forms for n 3 (arcsine) and n 4 (straight line)', () => {
    for (let q = -1.1; q <= 1.1; q += 0.1) {
      expect(pwlOfQuality(q, 3)).toBeCloseTo(50 + (100 / Math.PI) * Math.asin((q * Math.sqrt(3)) / 2), 9);
      expect(pwlOfQuality(q, 4)).toBeCloseTo(50 + (100 * q) / 3, 9);
    }
  });

  it('turns over for a negative index', () => {
    for (const n of [3, 5, 8]) expect(pwlOfQuality(-0.7, n)).toBeCloseTo(100 - pwlOfQuality(0.7, n), 12);
  });
});

describe('both sides at once', () => {
  // Computed apart from this program: binder 4.9, 5.1, 5.0, 5.3, 4.8 against 4.7 to 5.3.
  const pwl = pwlOf([4.9, 5.1, 5.0, 5.3, 4.8], { from: 4.7, to: 5.3 });

  it('gives mean 5.02, spread 0.192354, indices 1.455651 and 1.663601', () => {
    expect(pwl?.mean).toBeCloseTo(5.02, 10);
    expect(pwl?.deviation).toBeCloseTo(0.192354, 6);
    expect(pwl?.upperQuality).toBeCloseTo(1.455651, 6);
    expect(pwl?.lowerQuality).toBeCloseTo(1.663601, 6);
  });

  it('gives 95.312 above, 98.900 below, 94.212 within', () => {
    expect(pwl?.upperPct).toBeCloseTo(95.312, 3);
    expect(pwl?.lowerPct).toBeCloseTo(98.9, 3);
    expect(pwl?.withinPct).toBeCloseTo(94.212, 3);
  });

  it('says nothing of fewer than three results', () => {
    expect(pwlOf([4.9, 5.1], { from: 4.7, to: 5.3 })).toBeNull();
    expect(pwlOfQuality(1, 2)).toBeNaN();
  });

  it('takes results that are all alike as all in or all out', () => {
    expect(pwlOf([5, 5, 5], { from: 4.7, to: 5.3 })?.withinPct).toBe(100);
    expect(pwlOf([5.4, 5.4, 5.4], { from: 4.7, to: 5.3 })?.withinPct).toBe(0);
  });
});
