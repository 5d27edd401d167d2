/** What the lessons say is what their figures say: each claim of their words is computed again here. */
import { describe, expect, it } from 'vitest';
import { aggregateAt } from '../../client/lessons/aggregate.data.ts';
import { binderAt, binderRows, openGPerMin, vapourWords } from '../../client/lessons/binder.data.ts';
import { csvOf } from '../../client/lessons/csv.ts';
import { pileRows, solventInLotKg, ventRows } from '../../client/lessons/day.data.ts';
import { EXAMPLE } from '../../client/lessons/example.ts';
import { afterLoss, secondsToLel, settledAt, sourceOf } from '../../client/lessons/hood.data.ts';
import { type Axis, shareOn, shortFigure } from '../../client/lessons/picture-scale.ts';
import { purgeAt, talkedOf, volumesToClear } from '../../client/lessons/purge.data.ts';
import { figuresOf } from '../../machines/mix/figures.ts';
import { cutFlashC, cutOf } from '../../machines/mix/solvent-cut.ts';
import { createHood, type Hood, hoodLelPct, stepHood } from '../../machines/plant/hood.ts';
import { scenarioOf } from '../line/yard.ts';

const { windows, binder } = EXAMPLE.mix;

it('the example figures are those of the shipped yard with its plain cutback mix', () => {
  const found = figuresOf(scenarioOf('plain-mixes'));
  expect(EXAMPLE).toEqual({ ...found, mix: { ...found.mix, basis: EXAMPLE.mix.basis } });
});

describe('binder temperature', () => {
  it('has no degree at which the binder is in its window and its vapour cannot burn', () => {
    for (const row of binderRows(EXAMPLE))
      if (row.tempC >= windows.binderC.fromC && row.tempC <= windows.binderC.toC) {
        expect(row.solventLelPct).toBeGreaterThan(100);
        expect(row.solventLelPct).toBeLessThan(row.upperPct);
        expect(vapourWords(row)).toContain('any flame or spark');
      }
  });

  it('is below the lower limit well under the flash point, and beyond the upper one far above it', () => {
    expect(vapourWords(binderAt(EXAMPLE, (binder.flashC ?? 0) - 10))).toContain('too thin to burn');
    expect(vapourWords(binderAt(EXAMPLE, 120))).toContain('too rich');
  });

  it('a quarter of decane brings the flash point of the solvent down by about five kelvin', () =>
    expect(cutFlashC(cutOf(0)) - cutFlashC(cutOf(-0.5))).toBeCloseTo(5, 0));
});

describe('an open square metre of binder', () => {
  it('gives off several times as much at 95 °C as at 60 °C, and more in wind than in still air', () => {
    expect(openGPerMin(EXAMPLE, 95, 1) / openGPerMin(EXAMPLE, 60, 1)).toBeGreaterThan(4);
    expect(openGPerMin(EXAMPLE, 84, 1)).toBeGreaterThan(3 * openGPerMin(EXAMPLE, 84, 0.1));
  });
});

describe('purge', () => {
  it('4, 5 and 6.35 volumes leave 262, 96 and 25 % LEL of a full drum; it starts at 143 times the limit', () => {
    expect(talkedOf(EXAMPLE, 100).map(({ lelPct }) => Math.round(lelPct))).toEqual([262, 96, 25]);
    expect(Math.round(purgeAt(EXAMPLE, 0, 100).lelPct / 100)).toBe(143);
    expect(volumesToClear(100)).toBeCloseTo(6.35, 2);
    expect(purgeAt(EXAMPLE, 4, 100).seconds).toBeCloseTo(15, 9);
  });
});

describe('hood', () => {
  const source = sourceOf(EXAMPLE, windows.drawAtC ?? 0, windows.tankSetC);
  const { fanM3S } = EXAMPLE.hood;

  it('half the air is nearly twice the vapour', () => {
    const ratio = settledAt(EXAMPLE, source, fanM3S / 2).lelPct / settledAt(EXAMPLE, source, fanM3S).lelPct;
    expect(ratio).toBeGreaterThan(1.7);
    expect(ratio).toBeLessThan(2);
  });

  it('the trip level is less than a minute away once the fan is lost, and most of that is gone with aggregate at its limit', () => {
    const ordinary = secondsToLel(EXAMPLE, source, fanM3S, EXAMPLE.limits.vapourTripLelPct) ?? Number.NaN;
    expect(ordinary).toBeGreaterThan(5);
    expect(ordinary).toBeLessThan(60);
    const hot = sourceOf(EXAMPLE, EXAMPLE.limits.aggregateMaxC, windows.tankSetC);
    expect(secondsToLel(EXAMPLE, hot, fanM3S, EXAMPLE.limits.vapourTripLelPct)).toBeLessThan(ordinary / 2);
  });

  it('reaches a level at the second it says, and never one above where it settles', () => {
    const seconds = secondsToLel(EXAMPLE, source, fanM3S, 15) ?? Number.NaN;
    expect(afterLoss(EXAMPLE, source, fanM3S, seconds)).toBeCloseTo(15, 9);
    expect(secondsToLel(EXAMPLE, source, fanM3S, 100)).toBeNull();
    expect(secondsToLel(EXAMPLE, source, fanM3S, 1)).toBe(0);
  });

  it('is what the simulated plant does with the same batch under a running fan', () => {
    const { exchangeM3S, saturatedKgM3 } = source;
    let hood: Hood = { ...createHood(EXAMPLE.airC.start), exchangeM3S, saturatedKgM3, flowM3S: fanM3S };
    for (let i = 0; i < 600; i += 1) hood = stepHood(hood, EXAMPLE.hood, true, 1000);
    const lel = hoodLelPct(hood, EXAMPLE.hood.volumeM3);
    expect(settledAt(EXAMPLE, source, fanM3S).lelPct).toBeCloseTo(lel, 6);
  });
});

describe('pile and tank vent', () => {
  it('the pile gives off most in its first hour; a sheet gathers hundreds of times what the open air carries off', () => {
    const rows = pileRows(EXAMPLE, 52, 1);
    const [first] = rows;
    expect(first?.leavingKgH).toBe(Math.max(...rows.map(({ leavingKgH }) => leavingKgH)));
    expect(rows[4]?.leavingKgH).toBeLessThan(0.5 * (first?.leavingKgH ?? 0));
    expect((first?.sheetedLelPct ?? 0) / (first?.behindLelPct ?? 1)).toBeGreaterThan(100);
    expect(rows.at(-1)?.lostKg).toBeLessThan(solventInLotKg(EXAMPLE));
  });

  it('the head space of a hot tank is burnable all day; only a delivery pushes much of it out', () => {
    const rows = ventRows(EXAMPLE, windows.tankSetC, true);
    for (const { headLelPct } of rows) expect(headLelPct).toBeGreaterThan(100);
    const delivering = rows.filter(({ ventLMin }) => ventLMin > 10);
    expect(delivering.map(({ hour }) => hour)).toEqual([10, 10.25, 10.5, 10.75]);
    const idle = ventRows(EXAMPLE, windows.tankSetC, false);
    expect(Math.max(...idle.map(({ ventLMin }) => ventLMin))).toBeLessThan(1);
  });
});

describe('aggregate temperature', () => {
  const at = (aggregateC: number, binderC = windows.tankSetC) => aggregateAt(EXAMPLE, aggregateC, binderC);

  it('ten kelvin in the stone warm the mix by nearly nine, ten in the binder by about one', () => {
    expect(at(60).mixC - at(50).mixC).toBeGreaterThan(8.5);
    expect(at(60).mixC - at(50).mixC).toBeLessThan(9);
    expect(at(50, 94).mixC - at(50, 84).mixC).toBeCloseTo(1.1, 0);
  });

  it('vapour pressure doubles about every eleven kelvin, vapour at the hood grows several times as fast', () => {
    expect(at(50).doublesK).toBeGreaterThan(10.5);
    expect(at(50).doublesK).toBeLessThan(12);
    expect(at(60).lelPct / at(50).lelPct).toBeGreaterThan(3);
  });

  it('stays below the trip level at the limit of the aggregate with the fan at full flow', () =>
    expect(at(EXAMPLE.limits.aggregateMaxC).lelPct).toBeLessThan(EXAMPLE.limits.vapourTripLelPct));
});

describe('the picture and the table', () => {
  const log: Axis = { min: 1, max: 100, log: true, label: '', ticks: [] };

  it('place values on straight and logarithmic axes, held at the ends', () => {
    expect(shareOn({ min: 0, max: 10, label: '', ticks: [] }, 2.5)).toBe(0.25);
    expect(shareOn(log, 10)).toBeCloseTo(0.5, 12);
    expect(shareOn(log, 0)).toBe(0);
    expect(shareOn(log, 1e9)).toBe(1);
  });

  it.each([
    [0, '0'],
    [0.004567, '0.0046'],
    [1, '1'],
    [1.5, '1.5'],
    [25.04, '25'],
    [262.4, '262'],
    [14_286, '14\u00a0286'],
    [-3.5, '−3.5'],
  ])('write %f as %s', (value, text) => expect(shortFigure(value)).toBe(text));

  it('write CSV with a head, points in numbers, quotes where a comma stands, nothing for never', () => {
    const columns = [
      { head: 'a', of: (row: number) => row },
      { head: 'b, in %', of: (row: number) => (row > 1 ? null : row / 3) },
    ];
    expect(csvOf([1, 2], columns)).toBe('a,"b, in %"\r\n1,0.3333333\r\n2,\r\n');
  });
});
