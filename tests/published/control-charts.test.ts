/** Control charts and capability against the worked examples of the NIST/SEMATECH e-Handbook. */
import { describe, expect, it } from 'vitest';
import { capability } from '../../machines/lab/stats/capability.ts';
import { ewma } from '../../machines/lab/stats/ewma.ts';
import { individuals } from '../../machines/lab/stats/individuals.ts';

describe('individuals and moving range (e-Handbook 6.3.2.2)', () => {
  // Ten batches; the data are from memory and give the printed limits exactly.
  const chart = individuals([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]);

  it('has a mean of 50.81 and limits of 55.8041 and 45.8159', () => {
    expect(chart.centre).toBeCloseTo(50.81, 10);
    expect(Math.abs(chart.upper - 55.8041)).toBeLessThanOrEqual(1e-4);
    expect(Math.abs(chart.lower - 45.8159)).toBeLessThanOrEqual(1e-4);
  });

  it('has moving ranges of mean 1.8778 and upper limit 6.1347', () => {
    expect(chart.ranges.map((one) => Number(one.toFixed(1)))).toEqual([
      2, 2.3, 1.4, 3.5, 3.4, 1.4, 0.2, 1.2, 1.5,
    ]);
    expect(Math.abs(chart.meanRange - 1.8778)).toBeLessThanOrEqual(1e-4);
    expect(Math.abs(chart.upperRange - 6.1347)).toBeLessThanOrEqual(1e-4);
  });
});

describe('EWMA (e-Handbook 6.3.2.4)', () => {
  const data = [
    52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6,
    52.4, 53.6, 52.1,
  ];
  const chart = ewma(data, { centre: 50, sigma: 2.0539, lambda: 0.3, k: 3, limits: 'settled' });

  it('gives the twenty averages to two digits', () => {
    const printed = [
      50.6, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38,
      49.92, 50.73, 51.23, 51.94, 51.99,
    ];
    chart.values.forEach((value, i) => {
      expect(Math.abs(value - (printed[i] ?? 0)), `value ${i + 1}`).toBeLessThanOrEqual(0.0051);
    });
  });

  it('has limits of 52.5884 and 47.4116 (printed 47.4115, the last digit cut off), and nothing beyond them', () => {
    expect(chart.upper[0]).toBeCloseTo(52.58843, 5);
    expect(chart.lower[0]).toBeCloseTo(47.41157, 5);
    expect(Math.abs((chart.lower[0] ?? 0) - 47.4115)).toBeLessThanOrEqual(1e-4);
    expect(chart.outside).toEqual([]);
  });

  it('has limits that grow to the settled ones when taken from the start', () => {
    const growing = ewma(data, { centre: 50, sigma: 2.0539, limits: 'growing' });
    // First average: λ·x alone, so its sigma is λ·s.
    expect(growing.upper[0]).toBeCloseTo(50 + 3 * 0.3 * 2.0539, 10);
    expect(growing.upper.at(-1)).toBeCloseTo(52.58843, 4);
    expect([...growing.upper].sort((a, b) => a - b)).toEqual(growing.upper);
  });
});

describe('capability (e-Handbook 6.1.6)', () => {
  it('gives Cp 1.0, Cpk 0.6667, sides 1.3333 and 0.6667, k 0.3333 for 8 to 20, mean 16, s 2', () => {
    const found = capability({ mean: 16, sigma: 2 }, { from: 8, to: 20 });
    expect(found.cp).toBeCloseTo(1, 10);
    expect(found.cpk).toBeCloseTo(0.6667, 4);
    expect(found.cpUpper).toBeCloseTo(0.6667, 4);
    expect(found.cpLower).toBeCloseTo(1.3333, 4);
    expect(found.k).toBeCloseTo(0.3333, 4);
  });

  it('knows one side alone, and says nothing of a process without spread', () => {
    expect(capability({ mean: 96, sigma: 2 }, { from: 90, to: null })).toEqual({
      cp: null,
      cpLower: 1,
      cpUpper: null,
      cpk: 1,
      k: null,
    });
    expect(capability({ mean: 96, sigma: 0 }, { from: 90, to: 100 }).cpk).toBeNull();
  });
});
