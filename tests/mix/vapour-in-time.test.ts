/** Vapour through time against an independent solver (odex): hood, fresh pile, tank vent; and the hood against the plant's own. */
import { Solver } from 'odex';
import { describe, expect, it } from 'vitest';
import { coneOf, type Pile, pileRates, pileThrough } from '../../machines/mix/fresh-pile.ts';
import { integrate, type Rates } from '../../machines/mix/ode.ts';
import { saturatedLelPct } from '../../machines/mix/solvent.ts';
import {
  headSpaceM3,
  type VentedTank,
  ventM3S,
  ventRates,
  ventThrough,
} from '../../machines/mix/tank-vent.ts';
import {
  type Space,
  secondsUntilKgM3,
  settlesAtKgM3,
  sourceKgS,
  vapourAfterKgM3,
} from '../../machines/mix/well-mixed.ts';
import { createHood, stepHood } from '../../machines/plant/hood.ts';
import { demoSpec } from '../plant/demo.ts';

const DAY_S = 24 * 3600;
const dayAirC = (atS: number): number => 16 - 7 * Math.cos((2 * Math.PI * (atS / 3600 + 5)) / 24);

const solved = (rates: Rates, y0: readonly number[], endS: number): readonly number[] => {
  const solver = new Solver(y0.length);
  solver.absoluteTolerance = 1e-10;
  solver.relativeTolerance = 1e-10;
  return solver.solve((x, y) => [...rates(x, y)], 0, [...y0], endS).y;
};

describe('Runge–Kutta', () => {
  it('gives e^-1 to nine digits in a hundred steps, and a moment for every tenth', () => {
    const moments = integrate((_t, [y = 0]) => [-y], [1], 1, 0.01, 10);
    expect(moments).toHaveLength(11);
    expect(moments.at(-1)?.y[0]).toBeCloseTo(Math.exp(-1), 9);
  });
});

describe('a well-mixed space', () => {
  const hood: Space = { volumeM3: 6, flowM3S: 0.2, exchangeM3S: 0.15, saturatedKgM3: 0.03 };

  it.each([0, 0.004, 0.03])('from %f kg/m³ follows odex', (start) => {
    const rates: Rates = (_t, [m = 0]) => [
      hood.exchangeM3S * (hood.saturatedKgM3 - m / hood.volumeM3) - (hood.flowM3S * m) / hood.volumeM3,
    ];
    for (const seconds of [5, 40, 300]) {
      const [m = Number.NaN] = solved(rates, [start * hood.volumeM3], seconds);
      expect(vapourAfterKgM3(hood, start, seconds)).toBeCloseTo(m / hood.volumeM3, 9);
    }
  });

  it('settles where the source gives what is drawn off', () => {
    const settled = settlesAtKgM3(hood);
    expect(sourceKgS(hood, settled)).toBeCloseTo(hood.flowM3S * settled, 12);
  });

  it('says when a level is reached, that it is there, or that it never is', () => {
    const level = 0.01;
    const seconds = secondsUntilKgM3(hood, 0, level) ?? Number.NaN;
    expect(vapourAfterKgM3(hood, 0, seconds)).toBeCloseTo(level, 12);
    expect(secondsUntilKgM3(hood, 0.02, level)).toBe(0);
    expect(secondsUntilKgM3(hood, 0, settlesAtKgM3(hood))).toBeNull();
    expect(secondsUntilKgM3({ ...hood, flowM3S: 0, exchangeM3S: 0 }, 0, level)).toBeNull();
  });

  it('is what the simulated hood does once its fan runs steadily', () => {
    const spec = demoSpec.hood;
    const space: Space = {
      volumeM3: spec.volumeM3,
      flowM3S: spec.fanM3S + spec.leakM3S,
      exchangeM3S: 0.2,
      saturatedKgM3: 0.012,
    };
    let plants = { ...createHood(18), flowM3S: spec.fanM3S, exchangeM3S: 0.2, saturatedKgM3: 0.012 };
    for (let i = 0; i < 60; i += 1) plants = stepHood(plants, spec, true, 100);
    expect(plants.vapourKg / spec.volumeM3).toBeCloseTo(vapourAfterKgM3(space, 0, 6), 9);
  });
});

describe('a fresh pile through a day', () => {
  const pile: Pile = {
    massKg: 10_000,
    startC: 52,
    solventPctOfMix: 0.83,
    moleShare: 0.55,
    windMS: 1,
    airC: dayAirC,
  };

  it('has the cone of 10 t at 38°: radius 1.969 m, height 1.539 m (plane geometry)', () => {
    const { radiusM, areaM2 } = coneOf(10_000);
    expect(radiusM).toBeCloseTo(1.969, 3);
    expect(areaM2).toBeCloseTo(Math.PI * radiusM * Math.hypot(radiusM, 1.539), 2);
  });

  it('follows odex in temperature and loss to a part in ten thousand', () => {
    const last = pileThrough(pile, 24, 3600).at(-1);
    const [tempC = 0, lostKgM2 = 0] = solved(pileRates(pile), [pile.startC, 0], DAY_S);
    expect(last?.tempC).toBeCloseTo(tempC, 4);
    expect(Math.abs((last?.lostKg ?? 0) / (lostKgM2 * coneOf(10_000).areaM2) - 1)).toBeLessThan(1e-4);
  });

  it('gives off most at once, less as its skin dries and it cools, and loses no more than it holds', () => {
    const day = pileThrough(pile, 24, 3600);
    const leaving = day.map(({ leavingKgH }) => leavingKgH);
    expect(leaving[0]).toBe(Math.max(...leaving));
    expect(leaving[0]).toBeGreaterThan(4 * (leaving[4] ?? 0));
    expect(day.at(-1)?.lostKg).toBeLessThan(83);
    expect(day.every(({ lostKg }, i) => i === 0 || lostKg > (day[i - 1]?.lostKg ?? 0))).toBe(true);
  });

  it('loses more when laid hotter and in more wind', () => {
    const lost = (change: Partial<Pile>): number =>
      pileThrough({ ...pile, ...change }, 4, 3600).at(-1)?.lostKg ?? 0;
    expect(lost({ startC: 65 })).toBeGreaterThan(lost({}));
    expect(lost({ windMS: 4 })).toBeGreaterThan(lost({ windMS: 0 }));
  });
});

describe('a tank vent through a day', () => {
  const tank: VentedTank = {
    diameterM: 1.9,
    lengthM: 4,
    dipM: 1.2,
    binderC: 84,
    moleShare: 0.55,
    airC: dayAirC,
    // a delivery of half an hour, ramped so that both solvers meet no corner
    fillM3S: (atS) => 0.003 * Math.exp(-(((atS - 6 * 3600) / 900) ** 2)),
  };

  it('follows odex in what has left by the vent', () => {
    const end = 10 * 3600;
    const moments = ventThrough(tank, 10, 600);
    const start = moments[0]?.headKgM3 ?? 0;
    const [headKgM3 = 0, lostKg = 0] = solved(ventRates(tank), [start, 0], end);
    expect(moments.at(-1)?.headKgM3).toBeCloseTo(headKgM3, 6);
    expect(Math.abs((moments.at(-1)?.lostKg ?? 0) / lostKg - 1)).toBeLessThan(1e-3);
  });

  it('breathes out while the air warms and in while it cools, and a delivery pushes out as much as comes in', () => {
    const idle: VentedTank = { ...tank, fillM3S: () => 0 };
    expect(ventM3S(idle, 3 * 3600)).toBeGreaterThan(0);
    expect(ventM3S(idle, 14 * 3600)).toBe(0);
    const filled = ventM3S(tank, 6 * 3600) - ventM3S(idle, 6 * 3600);
    expect(filled).toBeCloseTo(0.003, 9);
  });

  it('stays settled while a delivery pushes gas out, and is never richer than that', () => {
    const settled = ventThrough({ ...tank, airC: () => 16, fillM3S: () => 0 }, 1, 600)[0]?.headKgM3 ?? 0;
    const filling = ventThrough({ ...tank, airC: () => 16 }, 8, 600);
    for (const { headKgM3 } of filling) expect(headKgM3).toBeCloseTo(settled, 9);
    const pushedOutM3 = 0.003 * 900 * Math.sqrt(Math.PI);
    expect(filling.at(-1)?.lostKg).toBeCloseTo(pushedOutM3 * settled, 3);
    expect(headSpaceM3(tank)).toBeGreaterThan(3);
  });

  it('stands above its lower limit at 84 °C, and well below it at 40 °C', () => {
    expect(saturatedLelPct(84, tank.moleShare)).toBeGreaterThan(150);
    expect(saturatedLelPct(40, tank.moleShare)).toBeLessThan(20);
  });
});
