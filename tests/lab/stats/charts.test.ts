/** CUSUM, run rules, signals over lots, breakdown, and what changed when it drifted. */
import { describe, expect, it } from 'vitest';
import { breakdown } from '../../../machines/lab/stats/breakdown.ts';
import { cusum, stepBegan } from '../../../machines/lab/stats/cusum.ts';
import { whatChanged } from '../../../machines/lab/stats/drift.ts';
import { lotMeans } from '../../../machines/lab/stats/lot-means.ts';
import { RUN_RULE_NAMES, type RunRule, runsOf } from '../../../machines/lab/stats/run-rules.ts';
import type { Point } from '../../../machines/lab/stats/series.types.ts';
import { chart, signals } from '../../../machines/lab/stats/signals.ts';
import { pooledWithin } from '../../../machines/lab/stats/spread.ts';
import { normals } from './normals.ts';

describe('CUSUM in table form', () => {
  it('sums what lies beyond the allowance, and falls back to nothing', () => {
    const found = cusum([10, 12, 9, 11, 11], { centre: 10, sigma: 1, k: 0.5, h: 2 });
    expect(found.high).toEqual([0, 1.5, 0, 0.5, 1]);
    expect(found.low).toEqual([0, 0, 0.5, 0, 0]);
    expect(found.outside).toEqual([]);
  });

  it('names the value where a sum passes its limit', () => {
    const found = cusum([10, 9, 11.2, 11.2, 11.2, 11.2], { centre: 10, sigma: 1, k: 0.5, h: 2 });
    expect(found.outside.map((one) => [one.i, one.side])).toEqual([
      [4, 'high'],
      [5, 'high'],
    ]);
  });

  it('dates a step by its likelihood, worked by hand, not by what hung above nothing before', () => {
    const week = [5.01, 4.9, 4.97, 4.965, 4.655, 4.905, 4.7];
    // Squared sums over their number, from the end: 0.0992, 0.0903, 0.2054, 0.1743, 0.1549, 0.1650, 0.1429.
    expect(stepBegan(week, 5.015, 6)).toBe(4);
    const { low } = cusum(week, { centre: 5.015, sigma: 0.127 });
    // The sum never came back to nothing after the second value.
    expect(low.slice(1).every((sum) => sum > 0)).toBe(true);
    expect(stepBegan([10, 9, 11.2, 11.2, 11.2], 10, 4)).toBe(2);
    expect(stepBegan([10, 10], 10, 1)).toBe(1);
  });

  /** Average run length of the one-sided scheme k ½, h in sigmas, as a Markov chain (Brook and Evans 1972), 400 states. */
  const runLength = (shift: number, h: number): number => {
    const states = 200;
    const width = (2 * h) / (2 * states - 1);
    const below = (x: number): number => 0.5 * (1 + erf((x - shift + 0.5) / Math.SQRT2));
    const chance = (from: number, to: number): number => {
      const centre = from * width;
      const upper = to * width + width / 2 - centre;
      return to === 0 ? below(upper) : below(upper) - below(to * width - width / 2 - centre);
    };
    const rows = Array.from({ length: states }, (_, i) =>
      Array.from({ length: states }, (_, j) => (i === j ? 1 : 0) - chance(i, j)).concat(1),
    );
    for (let i = 0; i < states; i += 1) {
      const pivot = rows[i] as number[];
      for (let r = i + 1; r < states; r += 1) {
        const row = rows[r] as number[];
        const factor = (row[i] ?? 0) / (pivot[i] ?? 1);
        for (let c = i; c <= states; c += 1) row[c] = (row[c] ?? 0) - factor * (pivot[c] ?? 0);
      }
    }
    const lengths = new Array<number>(states).fill(0);
    for (let i = states - 1; i >= 0; i -= 1) {
      const row = rows[i] as number[];
      let sum = row[states] ?? 0;
      for (let c = i + 1; c < states; c += 1) sum -= (row[c] ?? 0) * (lengths[c] ?? 0);
      lengths[i] = sum / (row[i] ?? 1);
    }
    return lengths[0] ?? 0;
  };

  /** Abramowitz & Stegun 7.1.26 would be too coarse here: a series and a continued fraction. */
  const erf = (x: number): number => {
    const z = Math.abs(x);
    let value: number;
    if (z < 2.5) {
      let term = z;
      let sum = z;
      for (let n = 1; n < 60; n += 1) {
        term *= (-z * z) / n;
        sum += term / (2 * n + 1);
      }
      value = (2 / Math.sqrt(Math.PI)) * sum;
    } else {
      let f = z;
      for (let n = 60; n >= 1; n -= 1) f = z + n / 2 / f;
      value = 1 - Math.exp(-z * z) / Math.sqrt(Math.PI) / f;
    }
    return x < 0 ? -value : value;
  };

  /** Values until the upper sum first passes its limit, the mean over many series drawn with fixed seed. */
  const simulated = (shift: number, h: number, runs: number): number => {
    const next = normals(4711);
    let total = 0;
    for (let r = 0; r < runs; r += 1) {
      const values: number[] = [];
      let sum = 0;
      while (sum <= h && values.length < 5000) {
        const x = next() + shift;
        values.push(x);
        sum = Math.max(0, sum + x - 0.5);
      }
      const first = cusum(values, { centre: 0, sigma: 1, k: 0.5, h }).outside.find(
        (one) => one.side === 'high',
      );
      total += (first?.i ?? Number.NaN) + 1;
    }
    return total / runs;
  };

  // e-Handbook 6.3.2.3 table of average run lengths at k ½, one side (from memory): 336 and 8.38 at h 4, 930 and 10.4 at h 5.
  it('has the run lengths of its scheme: a Markov chain, the handbook’s table (from memory), and simulation agree', () => {
    expect(runLength(0, 4)).toBeGreaterThan(332);
    expect(runLength(0, 4)).toBeLessThan(340);
    expect(runLength(1, 4)).toBeCloseTo(8.38, 1);
    expect(runLength(1, 5)).toBeCloseTo(10.4, 1);
    expect(Math.abs(simulated(1, 4, 3000) - runLength(1, 4))).toBeLessThan(0.35);
    expect(Math.abs(simulated(1, 5, 3000) - runLength(1, 5))).toBeLessThan(0.4);
  });
});

describe('run rules', () => {
  const found = (z: readonly number[], rule: RunRule) =>
    runsOf(z, { centre: 0, sigma: 1 }, [rule]).map((one) => one.i);
  const just: {
    readonly [R in RunRule]: { readonly yes: readonly number[]; readonly no: readonly number[] };
  } = {
    'beyond the limits': { yes: [0, 3.01], no: [0, 3, -3] },
    'nine on one side': {
      yes: [0.1, 2, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1],
      no: [0.1, 2, 0.1, 0.1, -0.1, 0.1, 0.1, 0.1, 0.1],
    },
    'six rising or falling': { yes: [0, 0.1, 0.2, 0.3, 0.4, 0.5], no: [0, 0.1, 0.2, 0.2, 0.4, 0.5] },
    'fourteen up and down': {
      yes: [1, 0, 1, 0, 1, 0, 1, 0, 1, 0, 1, 0, 1, 0],
      no: [1, 0, 1, 0, 1, 0, 1, 0, 1, 0, 1, 0, 1, 2],
    },
    'two of three far out': { yes: [2.1, 0, 2.1], no: [2.1, 0, -2.1] },
    'four of five out': { yes: [-1.1, -1.1, 0, -1.1, -1.1], no: [-1.1, -1.1, 0, 0, -1.1] },
    'fifteen close in': {
      yes: Array.from({ length: 15 }, (_, i) => (i % 2 === 0 ? 0.5 : -0.5)),
      no: Array.from({ length: 15 }, (_, i) => (i === 7 ? 1.5 : 0.1)),
    },
    'eight out': {
      yes: [1.1, -1.1, 1.2, -1.2, 1.1, -1.1, 1.2, 1.2],
      no: [1.1, -1.1, 1.2, 0.9, 1.1, -1.1, 1.2, 1.2],
    },
  };

  it.each(RUN_RULE_NAMES)('%s: found when just there, and not one step short of it', (rule) => {
    expect(found(just[rule].yes, rule)).toEqual([just[rule].yes.length - 1]);
    expect(found(just[rule].no, rule)).toEqual([]);
  });

  it('are the same above and below the centre', () => {
    for (const rule of RUN_RULE_NAMES)
      expect(
        found(
          just[rule].yes.map((one) => -one),
          rule,
        ),
      ).toEqual([just[rule].yes.length - 1]);
  });

  it('say nothing without spread', () => {
    expect(runsOf([1, 2, 3], { centre: 0, sigma: 0 })).toEqual([]);
  });

  it('raise about three false alarms in a thousand values for the limits alone (0.27 % of a normal distribution)', () => {
    const next = normals(99);
    const values = Array.from({ length: 20_000 }, next);
    const alarms = runsOf(values, { centre: 0, sigma: 1 }, ['beyond the limits']).length;
    // 54 expected; five standard deviations either way.
    expect(Math.abs(alarms - 54)).toBeLessThan(37);
  });
});

const lot = (n: number, value: number, more: Partial<Point> = {}): Point => ({
  lot: `260504-${n}`,
  at: `2026-05-04T0${Math.min(9, n)}:00:00`,
  value,
  operator: 'kim',
  delivery: 'D-260501-1',
  ...more,
});

describe('signals over lots', () => {
  const quiet = [5.02, 4.98, 5.0, 5.03, 4.97];

  it('takes lots with several results as their means, and drops labels they do not share', () => {
    const series = [lot(1, 4.9), lot(1, 5.1, { operator: 'noor' }), lot(2, 5)];
    expect(lotMeans(series)).toEqual([
      { lot: '260504-1', at: '2026-05-04T01:00:00', value: 5, delivery: 'D-260501-1' },
      lot(2, 5),
    ]);
  });

  it('finds nothing in a quiet series', () => {
    expect(
      signals(
        quiet.map((value, i) => lot(i + 1, value)),
        { centre: 5, sigma: 0.05 },
      ),
    ).toEqual([]);
  });

  const drifted = [
    ...quiet.slice(0, 4).map((value, i) => lot(i + 1, value)),
    ...[4.93, 4.9, 4.88, 4.86].map((value, i) => lot(i + 5, value, { delivery: 'D-260504-2' })),
  ];
  const charted = chart(drifted, { centre: 5, sigma: 0.05 });

  it('finds a small lasting shift by EWMA and CUSUM after a few lots, before any single value is beyond its limit', () => {
    const first = (name: string) => charted.signals.find((one) => one.chart === name)?.lot;
    expect(
      charted.signals.some((one) => one.rule === 'beyond the limits' && one.chart === 'individuals'),
    ).toBe(false);
    expect(first('ewma')).toBe('260504-7');
    expect(first('cusum')).toBe('260504-8');
    expect(charted.signals.map((one) => one.words)[0]).toMatch(/^Lot 260504-\d: /);
  });

  it('says when it began and what changed then', () => {
    expect(charted.drift?.lots[0]).toBe('260504-5');
    expect(charted.drift?.changes.map((one) => one.label)).toEqual(['delivery']);
    expect(charted.drift?.words).toBe(
      'It began about lot 260504-5. Changed since the quiet lots: binder delivery: D-260501-1 before, D-260504-2 since lot 260504-5.',
    );
  });

  it('says nothing of two lots without limits of their own', () => {
    expect(signals([lot(1, 5), lot(2, 9)])).toEqual([]);
    expect(signals([])).toEqual([]);
  });

  it('takes its limits from the baseline alone, so that a drift does not widen them', () => {
    const whole = chart(drifted);
    const early = chart(drifted, { baseline: 4 });
    expect(early.individuals.centre).toBeCloseTo(5.0075, 10);
    expect(early.signals.length).toBeGreaterThan(whole.signals.length);
  });
});

describe('what changed when it drifted', () => {
  it('names every label no quiet lot had, and none that was known before', () => {
    const lots = [
      lot(1, 5, { scaleZeroed: '06:00' }),
      lot(2, 5, { operator: 'noor', scaleZeroed: '06:00' }),
      lot(3, 4.8, { operator: 'noor', scaleZeroed: '10:40', mixVersion: '2' }),
    ];
    const note = whatChanged(lots, { began: 2, found: 2 });
    expect(note.changes.map((one) => [one.label, one.now])).toEqual([['scaleZeroed', '10:40']]);
  });

  it('says so when nothing changed, and when there is nothing to compare with', () => {
    expect(whatChanged([lot(1, 5), lot(2, 4)], { began: 1, found: 1 }).words).toContain(
      'look at pump, meter and scale',
    );
    expect(whatChanged([lot(1, 4)], { began: 0, found: 0 }).words).toContain('no quiet lot before it');
  });
});

describe('breakdown', () => {
  it('tells groups that differ from groups that do not', () => {
    const two = (a: readonly number[], b: readonly number[]) =>
      breakdown(
        [...a.map((v, i) => lot(i, v)), ...b.map((v, i) => lot(i, v, { operator: 'noor' }))],
        'operator',
      );
    expect(two([5, 5.1, 4.9], [5.02, 5.1, 4.95]).words).toContain('No difference by operator');
    expect(two([5, 5.1, 4.9], [4.2, 4.1, 4.3]).words).toContain('The means differ by operator');
    expect(two([5], [4.2]).words).toContain('Too few results');
    expect(breakdown([lot(1, 5)], 'operator').words).toContain('Only one operator');
  });

  it('has the F test of a worked example: three groups of five (e-Handbook 7.4.3.3, from memory, recomputed by hand)', () => {
    const groups = [
      [6.9, 5.4, 5.8, 4.6, 4.0],
      [8.3, 6.8, 7.8, 9.2, 6.5],
      [8.0, 10.5, 8.1, 6.9, 9.3],
    ];
    const found = breakdown(
      groups.flatMap((values, g) => values.map((value, i) => lot(i, value, { bin: `bin ${g + 1}` }))),
      'bin',
    );
    expect(found.groups.map((one) => Number(one.mean.toFixed(2)))).toEqual([5.34, 7.72, 8.56]);
    // Between 27.897 with 2, within 17.452 with 12 degrees of freedom: F = 9.59.
    expect(found.f?.value).toBeCloseTo(9.59, 2);
    expect([found.f?.between, found.f?.within]).toEqual([2, 12]);
    expect(found.f?.p).toBeCloseTo(0.00325, 4);
  });

  it('counts results that carry no such label', () => {
    expect(breakdown([lot(1, 5), lot(2, 5)], 'weather')).toMatchObject({
      unlabelled: 2,
      groups: [],
      f: null,
    });
  });
});

describe('spread within lots', () => {
  it('is pooled over lots with two results or more', () => {
    const series = [lot(1, 5), lot(1, 5.2), lot(2, 4.8), lot(2, 5.0), lot(3, 9)];
    expect(pooledWithin(series)?.sigma).toBeCloseTo(Math.sqrt(0.02), 10);
    expect(pooledWithin(series)).toMatchObject({ freedom: 2, lots: 2 });
    expect(pooledWithin([lot(1, 5)])).toBeNull();
  });
});
