/** Heaps, tanks and bags against published values and independent arithmetic; each check names its source. */
import { describe, expect, it } from 'vitest';
import { cylinderM3 } from '../../machines/mix/cylinder.ts';
import {
  bayHeapOfM3,
  coneM3,
  coneOfM3,
  measuredKg,
  windrowM3,
  windrowOfM3,
} from '../../machines/yard/piles/piles.ts';
import { workOutDip } from '../../machines/yard/stock/dip.ts';
import { checkBags, fillLimits } from '../../machines/yard/stock/r61.ts';
import { dayNumber, daysOn, secondsBetween } from '../../machines/yard/stock/time.ts';
import { lostAfterKgM2, weatheredThrough } from '../../machines/yard/weathering/weathering.ts';
import { cutbackWorkability } from '../../machines/yard/weathering/workability.ts';

/** Simpson's rule: an answer that shares nothing with the closed form. */
const integral = (f: (x: number) => number, from: number, to: number, n = 4000): number => {
  const h = (to - from) / n;
  let sum = f(from) + f(to);
  for (let i = 1; i < n; i += 1) sum += f(from + i * h) * (i % 2 === 1 ? 4 : 2);
  return (sum * h) / 3;
};

describe('a cone (solid geometry, published worked values)', () => {
  it('of 3 m radius at 38° is 2.3439 m high and holds 22.090 m³', () => {
    const heightM = 3 * Math.tan((38 * Math.PI) / 180);
    expect(heightM).toBeCloseTo(2.3439, 4);
    expect(coneM3(3, heightM)).toBeCloseTo(22.09, 3);
  });

  it('of 10 t at 1.6 t/m³ and 38° has 1.969 m radius and 1.539 m height, and gives 10 t back', () => {
    const { radiusM, heightM } = coneOfM3(10 / 1.6, 38);
    expect(radiusM).toBeCloseTo(1.969, 3);
    expect(heightM).toBeCloseTo(1.539, 3);
    const measure = { how: 'cone', diameterM: 2 * radiusM, heightM, looseKgM3: 1600 } as const;
    expect(measuredKg(measure)).toBeCloseTo(10_000, 6);
  });

  it('agrees with the integral of its discs', () => {
    const disc = (y: number) => Math.PI * (3 * (1 - y / 2.4)) ** 2;
    expect(coneM3(3, 2.4)).toBeCloseTo(integral(disc, 0, 2.4), 9);
  });
});

describe('a windrow with rounded ends (solid geometry)', () => {
  it('agrees with the integral of its level sections, and its length comes back', () => {
    const [widthM, heightM, lengthM] = [4, 1.5, 11];
    // At height y a level section is a stadium: straight part always lengthM − widthM long.
    const section = (y: number) => {
      const w = widthM * (1 - y / heightM);
      return w * (lengthM - widthM) + (Math.PI * w * w) / 4;
    };
    expect(windrowM3(widthM, heightM, lengthM)).toBeCloseTo(integral(section, 0, heightM), 9);
    const slope = (Math.atan2(heightM, widthM / 2) * 180) / Math.PI;
    const back = windrowOfM3(windrowM3(widthM, heightM, lengthM), widthM, slope);
    expect(back.lengthM).toBeCloseTo(lengthM, 9);
    expect(back.heightM).toBeCloseTo(heightM, 9);
  });

  it('no longer than wide is a cone; in a bay it is a wedge that holds what it should', () => {
    expect(windrowM3(3, 1, 3)).toBeCloseTo(coneM3(1.5, 1), 12);
    const { footM, heightM, over } = bayHeapOfM3(20, 5, 5, 38);
    expect((footM * heightM * 5) / 2).toBeCloseTo(20, 9);
    expect(over).toBe(false);
    expect(bayHeapOfM3(60, 5, 5, 38)).toMatchObject({ footM: 5, over: true });
  });
});

describe('a dip in a lying tank', () => {
  it('gives the volume that numeric integration of its width gives, at every level', () => {
    for (const [d, l] of [
      [2, 4.5],
      [1.9, 4],
    ] as const)
      for (let dip = 0.05; dip < d; dip += 0.119) {
        // Substituting y = r(1 − cos a) takes away the steep ends.
        const r = d / 2;
        const a = Math.acos(1 - dip / r);
        const numeric = l * integral((x) => 2 * r * r * Math.sin(x) ** 2, 0, a);
        expect(cylinderM3(d, l, dip)).toBeCloseTo(numeric, 9);
      }
  });

  it('is brought to 15 °C by ASTM D4311: column A above 966 kg/m³, 0.9593 at 80 °C; B below, 0.9543', () => {
    const shape = { grade: '', diameterM: 1.9, lengthM: 4, leastMm: 0, densityAt15KgM3: 970 };
    const a = workOutDip('cutback', shape, 950, 80);
    expect(a.column).toBe('A');
    expect(a.factor).toBe(0.9593);
    // Half of π·0.95²·4 m³ = 5670.6 L; × 0.9593 × 0.970.
    expect(a.litres).toBeCloseTo(5670.6, 1);
    expect(a.kg).toBeCloseTo(5670.57 * 0.9593 * 0.97, 0);
    const b = workOutDip('cutback', { ...shape, densityAt15KgM3: 960 }, 950, 80);
    expect([b.column, b.factor]).toEqual(['B', 0.9543]);
    // Emulsion: 0.00045 per °C, from memory, no oracle.
    expect(workOutDip('emulsion', shape, 950, 25).factor).toBe(0.9955);
  });
});

describe('filled bags, OIML R 61 as in UK SI 2000/388 schedule 5', () => {
  it('of 50 kg: X(1) 350 g first, 500 g in service, preset 125 g; X(0.5) 175, 250 and 62.5 g', () => {
    expect(fillLimits(50, 1)).toEqual({ deviationG: 500, initialDeviationG: 350, presetG: 125 });
    expect(fillLimits(50, 0.5)).toEqual({ deviationG: 250, initialDeviationG: 175, presetG: 62.5 });
    expect(fillLimits(12, 1)).toEqual({ deviationG: 150, initialDeviationG: 105, presetG: 37.5 });
    expect(fillLimits(5, 1)).toMatchObject({ deviationG: 75, initialDeviationG: 52.5 });
  });

  it('are within on the limit and out beyond it', () => {
    expect(checkBags([50.5, 50, 49.5], 50, 1)).toMatchObject({ presetErrorG: 0, pass: true });
    expect(checkBags([50.502, 50, 49.498], 50, 1).bags.map((bag) => bag.within)).toEqual([
      false,
      true,
      false,
    ]);
    expect(checkBags([50.125, 50.125], 50, 1).presetWithin).toBe(true);
    expect(checkBags([50.126, 50.126], 50, 1).presetWithin).toBe(false);
  });
});

describe('the plant’s clock as text, against the language’s own calendar', () => {
  it('counts days and seconds over leap years and month ends', () => {
    for (let n = 0; n < 6000; n += 37) {
      const date = new Date(Date.UTC(2023, 11, 28) + n * 86_400_000).toISOString();
      const at = date.slice(0, 10);
      expect(dayNumber(at) - dayNumber('2023-12-28')).toBe(n);
      expect(daysOn('2023-12-28', n)).toBe(at);
    }
    expect(secondsBetween('2024-02-28T23:59:30', '2024-03-01T00:00:10')).toBe(86_400 + 40);
  });
});

describe('weathering, a teaching model held to its own physics', () => {
  const heap = {
    massKg: 10_000,
    areaM2: 20,
    looseKgM3: 1600,
    solventPctOfMix: 0.83,
    moleShare: 0.5,
    cover: 'open' as const,
  };

  it('solves the receding front exactly: small steps add up to one large one', () => {
    let lost = 0;
    for (let i = 0; i < 1000; i += 1) lost = lostAfterKgM2(heap, lost, 15, 864);
    expect(lost).toBeCloseTo(lostAfterKgM2(heap, 0, 15, 864_000), 10);
    expect(lost).toBeGreaterThan(0);
  });

  it('loses ever more slowly, less under cover, never more than there was, and ends at the air’s temperature', () => {
    const air = [{ date: '', startC: 5, warmestC: 15, rainMm: 2 }];
    const day = (days: number, cover: 'open' | 'roof' | 'sheet' = 'open') =>
      weatheredThrough({ ...heap, cover }, 70, air, days);
    const [one, two, long] = [day(10).solventLostPct, day(20).solventLostPct, day(40).solventLostPct];
    expect(two - one).toBeGreaterThan(0);
    expect((long - two) / 20).toBeLessThan((two - one) / 10);
    expect(day(20, 'roof').solventLostPct).toBeLessThan(two);
    expect(day(20, 'sheet').solventLostPct).toBeLessThan(day(20, 'roof').solventLostPct);
    expect(day(3000).solventLostPct).toBeLessThanOrEqual(100);
    expect(day(20).tempC).toBeCloseTo(10, 3);
    expect([day(1).rainMm, day(1, 'roof').rainMm]).toEqual([2, 0]);
  });

  it('calls fresh mix workable at −7 °C, and less so with solvent gone', () => {
    const points = [
      { tempC: 60, mm2S: 1200 },
      { tempC: 100, mm2S: 110 },
    ] as const;
    expect(cutbackWorkability(points, 0, -7)).toMatchObject({ word: 'workable', times: 1 });
    expect(cutbackWorkability(points, 10, -7).word).toBe('stiff');
    expect(cutbackWorkability(points, 40, -7).word).toBe('too stiff');
    expect(cutbackWorkability(points, 40, 15).word).toBe('workable');
  });
});
