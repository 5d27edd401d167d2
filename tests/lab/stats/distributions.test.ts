/** Our distribution functions against two libraries that share no code with them. */
import jstat from 'jstat';
import { cumulativeStdNormalProbability, probit } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import {
  betaCdf,
  chiSquaredCdf,
  fAbove,
  lnGamma,
  normalCdf,
  normalQuantile,
  tCdf,
} from '../../../machines/lab/stats/distributions.ts';

const { jStat } = jstat;
const grid = (from: number, to: number, n: number): number[] =>
  Array.from({ length: n + 1 }, (_, i) => from + ((to - from) * i) / n);

describe('against jstat', () => {
  it('ln Γ', () => {
    for (const x of grid(0.25, 40, 60)) expect(lnGamma(x)).toBeCloseTo(jStat.gammaln(x), 8);
  });

  it('incomplete beta', () => {
    for (const a of [0.5, 1, 1.5, 2.5, 7, 20])
      for (const b of [0.5, 1, 3, 9])
        for (const x of grid(0.01, 0.99, 20))
          expect(betaCdf(x, a, b), `${x} ${a} ${b}`).toBeCloseTo(jStat.ibeta(x, a, b), 7);
  });

  it('normal, both ways', () => {
    for (const z of grid(-5, 5, 80)) expect(normalCdf(z)).toBeCloseTo(jStat.normal.cdf(z, 0, 1), 9);
    for (const p of [1e-6, 0.001, 0.025, 0.1, 0.5, 0.9, 0.975, 0.999, 1 - 1e-6])
      expect(normalQuantile(p)).toBeCloseTo(jStat.normal.inv(p, 0, 1), 6);
  });

  it('chi-squared, t and F', () => {
    for (const freedom of [1, 2, 4, 9, 30]) {
      for (const x of grid(0.1, 40, 30))
        expect(chiSquaredCdf(x, freedom)).toBeCloseTo(jStat.chisquare.cdf(x, freedom), 7);
      for (const t of grid(-4, 4, 16))
        expect(tCdf(t, freedom)).toBeCloseTo(jStat.studentt.cdf(t, freedom), 7);
      for (const f of grid(0.1, 9, 16))
        expect(fAbove(f, 3, freedom)).toBeCloseTo(1 - jStat.centralF.cdf(f, 3, freedom), 7);
    }
  });
});

describe('against simple-statistics', () => {
  it('normal, to the four digits its table has', () => {
    for (const z of grid(-3, 3, 40))
      expect(Math.abs(normalCdf(z) - cumulativeStdNormalProbability(z))).toBeLessThan(1e-4);
  });

  it('whose quantile is not to be used: 1.95716 at 0.975, where 1.95996 is right', () => {
    expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 12);
    expect(Math.abs(probit(0.975) - 1.959963984540054)).toBeGreaterThan(1e-3);
  });
});

describe('among themselves', () => {
  it('the quantile undoes the normal distribution', () => {
    for (const p of grid(0.0001, 0.9999, 100)) expect(normalCdf(normalQuantile(p))).toBeCloseTo(p, 12);
  });

  it('F of one degree between is t squared', () => {
    for (const t of [0.3, 1, 2.2]) expect(fAbove(t * t, 1, 8)).toBeCloseTo(2 * (1 - tCdf(t, 8)), 12);
  });

  it('ends are 0 and 1', () => {
    expect([betaCdf(-1, 2, 3), betaCdf(0, 2, 3), betaCdf(1, 2, 3), betaCdf(2, 2, 3)]).toEqual([0, 0, 1, 1]);
    expect([normalCdf(-40), normalCdf(0), normalCdf(40)]).toEqual([0, 0.5, 1]);
  });
});
