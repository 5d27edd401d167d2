/** Arithmetic of a job mix by hand-worked cases, the working written beside each, and by its properties. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawForecast } from '../../machines/mix/bin-cooling.ts';
import { absorbedBinderPct, binderContent, doseForResiduePct } from '../../machines/mix/binder-content.ts';
import {
  binderCpKjKgK,
  contactC,
  stoneBody,
  tempForContactC,
  waterBody,
} from '../../machines/mix/contact-heat.ts';
import { campaignPlan, dryingHeat } from '../../machines/mix/drying-heat.ts';
import { residueOfMixPct } from '../../machines/mix/residue.ts';
import { roundedTo, roundedToSum } from '../../machines/mix/round-to-interval.ts';
import { filmUm, specificSurfaceM2Kg } from '../../machines/mix/specific-surface.ts';
import { heatUpS, warmingS } from '../../machines/mix/tank-warming.ts';

describe('rounding that keeps the sum', () => {
  it('three thirds of 100 kg on a 1 kg scale: the earliest gets the odd kilogram', () => {
    expect(roundedToSum([100 / 3, 100 / 3, 100 / 3], 1)).toEqual([34, 33, 33]);
  });

  it('plain rounding would lose a kilogram here: 0.4 + 0.4 + 0.4 + 0.8 is 2, not 1', () => {
    expect(roundedToSum([0.4, 0.4, 0.4, 0.8], 1)).toEqual([1, 0, 0, 1]);
  });

  it('knows decimals: 44.4 kg are 444 intervals of 0.1 kg', () => {
    expect(roundedTo(44.44, 0.1)).toBe(44.4);
    expect(roundedToSum([0.1, 0.2], 0.1)).toEqual([0.1, 0.2]);
  });

  it('always whole intervals, always the sum, never a whole interval away', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 900, noNaN: true }), { minLength: 1, maxLength: 6 }),
        fc.constantFrom(0.01, 0.1, 0.5, 1, 2, 5),
        (parts, interval) => {
          const rounded = roundedToSum(parts, interval);
          const counts = rounded.map((kg) => Math.round(kg / interval));
          rounded.forEach((kg, i) => {
            expect(Math.abs(kg - (counts[i] as number) * interval)).toBeLessThan(1e-9);
            expect(Math.abs(kg - (parts[i] as number))).toBeLessThan(interval * (1 + 1e-6));
          });
          const total = parts.reduce((sum, kg) => sum + kg, 0);
          expect(Math.abs(counts.reduce((sum, n) => sum + n, 0) * interval - total)).toBeLessThanOrEqual(
            interval / 2 + 1e-6,
          );
        },
      ),
      { numRuns: 300, seed: 71 },
    );
  });
});

describe('binder', () => {
  it('4.5 % of mix from a 60 % residue needs 7.85 % on aggregate: 4.5/95.5 = 4.712 %, over 0.60', () => {
    expect(doseForResiduePct(4.5, 60)).toBeCloseTo(7.8534, 4);
    expect(residueOfMixPct(doseForResiduePct(4.5, 60), 60)).toBeCloseTo(4.5, 12);
  });

  it('7.5 % of 60 % residue on stone that drinks 0.8 % water, half as much binder', () => {
    // residue 4.5 on aggregate; of mix 4.5/104.5 = 4.306; absorbed 0.8 × 0.5 = 0.4; effective 4.1.
    const content = binderContent(7.5, 60, 0.8, 0.5);
    expect(content.residuePct).toBeCloseTo(4.5, 12);
    expect(content.residueOfMixPct).toBeCloseTo(4.3062, 4);
    expect(content.absorbedPct).toBeCloseTo(0.4, 12);
    expect(content.effectivePct).toBeCloseTo(4.1, 12);
    // Pbe = Pb − Pba·Ps/100 = 4.3062 − 0.4 × 95.6938/100 = 3.9234, which is 4.1 of 104.5 as well.
    expect(content.effectiveOfMixPct).toBeCloseTo(3.9234, 4);
    expect(content.effectiveOfMixPct).toBeCloseTo((100 * 4.1) / 104.5, 10);
  });

  it('stone never drinks more binder than there is', () => {
    expect(binderContent(1, 50, 4, 0.5).effectivePct).toBe(0);
    expect(absorbedBinderPct(1.2, 0.5)).toBeCloseTo(0.6, 12);
  });
});

describe('surface', () => {
  it('film of 4.1 % binder of 1020 kg/m³ on 5 m²/kg: 0.041/1020/5 = 8.04 µm', () => {
    expect(filmUm(4.1, 1020, 5)).toBeCloseTo(8.039, 3);
    expect(filmUm(4.1, 1020, 0)).toBe(0);
  });

  it('finer stone has more surface, sieve by sieve', () => {
    const coarse = [
      { sieveMm: 9.5, passingPct: 100 },
      { sieveMm: 2.36, passingPct: 20 },
      { sieveMm: 0.075, passingPct: 1 },
    ];
    const fine = coarse.map((point, i) => ({ ...point, passingPct: i === 0 ? 100 : point.passingPct + 1 }));
    expect(specificSurfaceM2Kg(fine)).toBeGreaterThan(specificSurfaceM2Kg(coarse));
  });
});

describe('contact', () => {
  it('100 kg stone at 50 °C and 5 kg water at 10 °C: (84·50 + 20.93·10)/104.93 = 42.02 °C', () => {
    expect(contactC([stoneBody(100, 50), waterBody(5, 10)])).toBeCloseTo(42.021, 3);
  });

  it('700 kg stone at 50 °C and 38.5 kg cutback at 84 °C: warmed by 4.2 K', () => {
    // Cutback 0.97: (0.388 + 0.00045·183.2)/√0.97·4.1868 = 1.9998 kJ/kg·K; 38.5·1.9998 = 76.99; stone 588.
    const cp = binderCpKjKgK(0, 0.97, 84);
    expect(cp).toBeCloseTo(1.9998, 3);
    const mix = contactC([stoneBody(700, 50), { massKg: 38.5, cpKjKgK: cp, tempC: 84 }]);
    expect(mix).toBeCloseTo(50 + (34 * 76.99) / (588 + 76.99), 2);
  });

  it('emulsion of 60 % residue takes about 2.75 kJ/kg·K by mass of its parts', () => {
    expect(binderCpKjKgK(0.4, 1.02, 40)).toBeCloseTo(0.6 * 1.8 + 0.4 * 4.186, 1);
  });

  it('the temperature a body must bring is the one that meets', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 900, noNaN: true }),
        fc.double({ min: 1, max: 90, noNaN: true }),
        fc.double({ min: 0, max: 90, noNaN: true }),
        (stoneKg, binderKg, wantedC) => {
          const stone = stoneBody(stoneKg, 20);
          const binder = { massKg: binderKg, cpKjKgK: 2 };
          const tempC = tempForContactC([stone], binder, wantedC) as number;
          expect(contactC([stone, { ...binder, tempC }])).toBeCloseTo(wantedC, 8);
        },
      ),
      { numRuns: 50, seed: 72 },
    );
    expect(tempForContactC([stoneBody(1, 20)], { massKg: 0, cpKjKgK: 2 }, 30)).toBeNull();
    expect(() => contactC([])).toThrow(RangeError);
  });
});

describe('drying', () => {
  it('950 kg wet at 4.5 % from 10 to 100 °C', () => {
    // dry 950/1.045 = 909.09; water 40.91 kg. Stone 909.09·0.84·90 = 68,727 kJ; water 40.91·(4.186·90 + 2257) = 107,744.
    const heat = dryingHeat(909.0909, 4.5, 10, 100, 0.84);
    expect(heat.stoneKj).toBeCloseTo(68_727, 0);
    expect(heat.waterKj).toBeCloseTo(107_744, 0);
    expect(heat.firedKj).toBeCloseTo((68_727 + 107_744) / 0.84, -1);
  });

  it('a campaign: 9 t in charges of 909 kg are 10; 231 kJ/kg at 1000 kW and 42.6 MJ/kg', () => {
    // 9090 kg · 231 = 2,099,790 kJ: 2099.8 s of fire, 49.29 kg of fuel; 18.75 + 10 · 60 s around it.
    const plan = campaignPlan(9000, 909, 231, 1000, 42_600, 18.75, 60);
    expect(plan.charges).toBe(10);
    expect(plan.fireS).toBeCloseTo(2099.79, 2);
    expect(plan.fuelKg).toBeCloseTo(49.291, 3);
    expect(plan.aroundS).toBeCloseTo(618.75, 9);
    expect(plan.kwhPerDryT).toBeCloseTo(64.167, 3);
  });

  it('as much as a whole number of charges needs no further one', () => {
    expect(campaignPlan(909 * 3, 909, 231, 1000, 42_600, 0, 0).charges).toBe(3);
  });
});

describe('cooling while drawn from', () => {
  it('the first two batches by hand', () => {
    // 1400 kg at 40 °C, air 10 °C, 60 W/K, 700 kg every 300 s: left 700 kg, τ = 700·0.84·1000/60 = 9800 s.
    const forecast = drawForecast(1400, 40, 10, 60, 700, 300, 25);
    expect(forecast.tempsC[0]).toBe(40);
    expect(forecast.tempsC[1]).toBeCloseTo(10 + 30 * Math.exp(-300 / 9800), 10);
    expect(forecast).toMatchObject({ batches: 2, endsBy: 'empty' });
  });

  it('ends when the stone is below the floor', () => {
    const forecast = drawForecast(10_000, 30, -10, 2000, 700, 600, 25);
    expect(forecast.endsBy).toBe('cold');
    expect(forecast.tempsC.every((tempC) => tempC >= 25)).toBe(true);
    expect(forecast.batches).toBeLessThan(14);
  });

  it('stone below the floor from the start gives none', () => {
    expect(drawForecast(5000, 20, 10, 60, 700, 300, 25).batches).toBe(0);
  });
});

describe('warming a tank', () => {
  const tank = {
    massKg: 8000,
    cpKjKgK: 2,
    coilWPerK: 450,
    lossWPerK: 45,
    oilC: 170,
    airC: 10,
    mostW: 70_000,
  };

  it('coil alone: −τ·ln((end − to)/(end − from)) with τ = 16,000,000/495 and end = (450·170 + 45·10)/495', () => {
    const endC = (450 * 170 + 45 * 10) / 495;
    const expected = -(16_000_000 / 495) * Math.log((endC - 84) / (endC - 50));
    expect(warmingS(tank, 50, 84)).toBeCloseTo(expected, 6);
  });

  it('at a weak heater the power is the limit: 20 kW less what is lost', () => {
    // Coil could take more than 20 kW up to 170 − 20000/450 = 125.6 °C, so the heater limits all the way.
    const endC = 10 + 20_000 / 45;
    const expected = -(16_000_000 / 45) * Math.log((endC - 84) / (endC - 50));
    expect(warmingS({ ...tank, mostW: 20_000 }, 50, 84)).toBeCloseTo(expected, 6);
  });

  it('agrees with the balance turned step by step', () => {
    let tempC = 20;
    let seconds = 0;
    while (tempC < 84 && seconds < 1e6) {
      const inW = Math.min(30_000, 450 * (170 - tempC));
      tempC += (inW - 45 * (tempC - 10)) / 16_000_000;
      seconds += 1;
    }
    expect(Math.abs((warmingS({ ...tank, mostW: 30_000 }, 20, 84) as number) - seconds)).toBeLessThan(3);
  });

  it('is there already, or never gets there', () => {
    expect(warmingS(tank, 85, 84)).toBe(0);
    expect(warmingS({ ...tank, mostW: 2000 }, 50, 84)).toBeNull();
    expect(warmingS({ ...tank, lossWPerK: 0, mostW: 16_000 }, 50, 84)).toBeCloseTo(34_000, 6);
  });

  const oil = { oilKg: 450, oilCpKjKgK: 2.3, oilLossWPerK: 40, fromC: 170 };

  it('with the oil hot already the two ways agree within half a per cent', () => {
    const strong = { ...tank, mostW: 1e6 };
    expect((heatUpS(strong, oil, 50, 84) as number) / (warmingS(strong, 50, 84) as number)).toBeCloseTo(1, 2);
  });

  it('cold oil takes longer, by no more than it takes to warm it alone: 450·2.3·160/70 = 2366 s and its losses', () => {
    const hot = heatUpS(tank, oil, 50, 84) as number;
    const cold = heatUpS(tank, { ...oil, fromC: 10 }, 50, 84) as number;
    expect(cold).toBeGreaterThan(hot + 600);
    expect(cold).toBeLessThan(hot + 2600);
  });

  it('one kelvin needs no hot oil: the first heat does it', () => {
    // 8000 kg · 2 kJ are 16 MJ; oil passes 60 °C after some 13 minutes and gives 450·(oil − 24) W from then on.
    expect(heatUpS(tank, { ...oil, fromC: 10 }, 24, 25)).toBeLessThan(1800);
  });

  it('a heater too weak for its losses never gets there', () => {
    expect(heatUpS({ ...tank, mostW: 2000 }, { ...oil, fromC: 10 }, 50, 84)).toBeNull();
  });
});
