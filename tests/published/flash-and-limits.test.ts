/** Flash points, lower limits and saturated vapour against published values; each names where its number comes from. */
import { describe, expect, it } from 'vitest';
import { flashPointC } from '../../machines/mix/flash-point.ts';
import { KEROSENE_UEL_VOL_PCT, MC800_FLASH_MIN_C, MIXING_WINDOWS_F } from '../../machines/mix/published.ts';
import {
  detectorLelPct,
  doublesEveryK,
  pureVapourKgM3,
  saturatedLelPct,
  solventKPa,
  solventLelVolPct,
  solventMoleShare,
  vapourKgM3,
} from '../../machines/mix/solvent.ts';
import { cutFlashC, cutOf, cutVapour } from '../../machines/mix/solvent-cut.ts';
import { ANTOINE, antoineKPa, volumePctOf } from '../../machines/mix/vapour-pressure.ts';
import { viscosityMm2S } from '../../machines/mix/walther.ts';
import { binderIn } from '../../machines/plant/binder.ts';
import { cutbackMix, demoSpec, mixes } from '../plant/demo.ts';

/**
 * Lower limit, flash point (closed cup) and decane's heat of combustion: Crowl and Louvar, appendix B. Antoine
 * sets and the other heats from memory; the boiling points (NIST) check the sets.
 */
const PARAFFINS = [
  { name: 'hexane', a: 4.00266, b: 1171.53, c: -48.784, boilsC: 68.7, lfl: 1.2, flashC: -23, kJMol: 3855 },
  { name: 'heptane', a: 4.02832, b: 1268.636, c: -56.199, boilsC: 98.4, lfl: 1, flashC: -4, kJMol: 4465 },
  { name: 'octane', a: 4.04867, b: 1355.126, c: -63.633, boilsC: 125.7, lfl: 0.8, flashC: 13, kJMol: 5075 },
  { name: 'nonane', a: 4.06245, b: 1430.377, c: -71.355, boilsC: 150.8, lfl: 0.7, flashC: 31, kJMol: 5685 },
  { name: 'decane', ...ANTOINE.decane, boilsC: 174.1, lfl: 0.8, flashC: 46, kJMol: 6294.2 },
] as const;

describe('flash point from vapour pressure and lower limit', () => {
  it.each(PARAFFINS)('$name boils at $boilsC °C by its Antoine set (NIST, ±0.5 % of 1 atm)', (one) => {
    expect(Math.abs(antoineKPa(one, one.boilsC) / 101.325 - 1)).toBeLessThan(0.005);
  });

  it.each(PARAFFINS)('$name flashes at $flashC °C, ±3.5 K (Crowl and Louvar, appendix B)', (one) => {
    const found = flashPointC({ vapour: one, lfl25Pct: one.lfl, combustionKcalMol: one.kJMol / 4.184 });
    expect(Math.abs((found ?? Number.NaN) - one.flashC)).toBeLessThan(3.5);
  });

  it('is null for a vapour that never reaches its limit between −60 and 200 °C', () => {
    const fuel = { vapour: ANTOINE.decane, lfl25Pct: 0.8, combustionKcalMol: 1504 };
    expect(flashPointC(fuel, 1e-6)).toBeNull();
  });

  it('of the solvent surrogate lies within 3 K of 66 °C, the least of MC-800 (ASTM D2027 / AASHTO M 82 Table 1)', () => {
    let crossesC = 0;
    while (saturatedLelPct(crossesC, 1) < 100) crossesC += 0.01;
    expect(Math.abs(crossesC - MC800_FLASH_MIN_C)).toBeLessThan(3);
  });
});

describe('the working window of MC-800, UFC 3-250-03 Table 6-8 (170–205 °F)', () => {
  const windowC = (['fromF', 'toF'] as const).map((end) => (MIXING_WINDOWS_F['MC-800'][end] - 32) / 1.8);

  // Saturated undecane at 76.7–96 °C: 1.4–3.6 vol % by the published Antoine table, limits 0.7 and 5 % (NIOSH Pocket Guide).
  it('lies wholly above the flash point, its saturated vapour between the lower and the upper limit', () => {
    for (const tempC of windowC) {
      expect(tempC).toBeGreaterThan(MC800_FLASH_MIN_C);
      expect(saturatedLelPct(tempC, 1)).toBeGreaterThan(100);
      expect(volumePctOf(solventKPa(tempC, 1))).toBeLessThan(KEROSENE_UEL_VOL_PCT);
    }
  });

  it('is still inside the limits when Raoult’s law takes the bitumen into account', () => {
    const { residueMassPct, solventMassPct } = cutbackMix.binder;
    const share = solventMoleShare(residueMassPct, solventMassPct);
    expect(share).toBeCloseTo(0.549, 3);
    for (const tempC of windowC) expect(saturatedLelPct(tempC, share)).toBeGreaterThan(100);
  });

  it('is where the binder is thin enough to coat: 100–600 mm²/s by ASTM D341 through two points of its grade', () => {
    const { line } = binderIn(demoSpec.tanks.cutback, mixes);
    expect(viscosityMm2S(line, windowC[0] ?? 0)).toBeLessThan(600);
    expect(viscosityMm2S(line, windowC[1] ?? 0)).toBeGreaterThan(100);
  });
});

describe('a solvent that is a mixture', () => {
  const cut = { decane: 0.5, undecane: 0.3, dodecane: 0.2 };
  const ONLY = { decane: 0, undecane: 0, dodecane: 0 };

  it('of decane alone flashes at 46 °C, ±3.5 K (Crowl and Louvar, appendix B), of dodecane within 71–83 °C (from memory)', () => {
    expect(Math.abs(cutFlashC({ ...ONLY, decane: 1 }) - 46)).toBeLessThan(3.5);
    const dodecaneC = cutFlashC({ ...ONLY, dodecane: 1 });
    expect(dodecaneC).toBeGreaterThan(71);
    expect(dodecaneC).toBeLessThan(83);
  });

  it('of undecane alone is the surrogate', () => {
    for (const tempC of [40, 66, 90])
      expect(cutVapour(cutOf(0), tempC).lelPct).toBeCloseTo(saturatedLelPct(tempC, 1), 9);
  });

  // Le Chatelier says the parts of the limits add: 50/30/20 of 0.17, 0.052 and 0.015 kPa (Antoine table) at 25 °C.
  it('adds up by parts of the limits: 0.5·0.171/0.8 + 0.3·0.0512/0.7 + 0.2·0.0152/0.6 at 25 °C, ±0.5 %', () => {
    const sum = (0.5 * 0.17095) / 0.8 + (0.3 * 0.05122) / 0.7 + (0.2 * 0.0152) / 0.6;
    expect(Math.abs(cutVapour(cut, 25).lelPct / (100 * sum) - 1)).toBeLessThan(0.005);
  });

  it('has a limit between those of its parts, and flashes lower the lighter it is', () => {
    const { lelVolPct } = cutVapour(cut, 25);
    expect(lelVolPct).toBeGreaterThan(0.6);
    expect(lelVolPct).toBeLessThan(0.8);
    const flashes = [-1, -0.5, 0, 0.5, 1].map((heaviness) => cutFlashC(cutOf(heaviness)));
    expect([...flashes].sort((a, b) => a - b)).toEqual(flashes);
    expect(new Set(flashes).size).toBe(5);
  });
});

describe('solvent vapour', () => {
  // Antoine with published coefficients, computed apart from this code to four figures.
  it.each([
    [46, 0.2386],
    [60, 0.572],
    [66, 0.807],
    [74, 1.247],
    [80, 1.699],
    [90, 2.762],
    [100, 4.341],
  ])('of undecane at %i °C is %f kPa, ±0.1 %%', (tempC, kPa) => {
    expect(Math.abs(solventKPa(tempC, 1) / kPa - 1)).toBeLessThan(1e-3);
  });

  it('is 156.31 g in 24.465 L at 25 °C and 1 atm (molar volume of an ideal gas)', () => {
    expect(pureVapourKgM3(25)).toBeCloseTo(0.15631 / 0.024465, 3);
    expect(vapourKgM3(101.325, 25)).toBeCloseTo(pureVapourKgM3(25), 12);
  });

  it('at 0.7 vol % of room air reads 100 % on a detector set to kerosene (NIOSH Pocket Guide)', () => {
    expect(detectorLelPct(0.007 * pureVapourKgM3(20), 20)).toBeCloseTo(100, 9);
  });

  it('has a lower limit that falls by 4 to 5 % to 95 °C, a heavy paraffin’s slope by Burgess–Wheeler and by Zabetakis', () => {
    const zabetakis = 0.7 * (1 - 0.000721 * 70);
    expect(Math.abs(solventLelVolPct(95) / zabetakis - 1)).toBeLessThan(0.01);
  });

  it('doubles every 10 to 15 K, as twice the pressure that many kelvin on shows', () => {
    for (const tempC of [40, 60, 80]) {
      const step = doublesEveryK(tempC);
      expect(step).toBeGreaterThan(9.5);
      expect(step).toBeLessThan(15);
      const ratio = solventKPa(tempC + step / 2, 1) / solventKPa(tempC - step / 2, 1);
      expect(ratio).toBeCloseTo(2, 1);
    }
  });
});
