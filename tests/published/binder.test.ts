/** Binder arithmetic against published tables: volume correction, viscosity, residue, windows. */
import { describe, expect, it } from 'vitest';
import {
  AGGREGATE_LIMITS,
  celsiusOf,
  MC800_FLASH_MIN_C,
  MIXING_WINDOWS_F,
} from '../../machines/mix/published.ts';
import {
  massPctOfVolumePct,
  onAggregatePct,
  onMixPct,
  residueOfAggregatePct,
  residueOfMixPct,
} from '../../machines/mix/residue.ts';
import {
  bitumenColumn,
  densityKgM3,
  volumeFactor,
  volumeFactorGroup0F,
} from '../../machines/mix/volume-correction.ts';
import { tempOfViscosityC, viscosityMm2S, waltherLine } from '../../machines/mix/walther.ts';

describe('ASTM D4311 volume correction', () => {
  // Column A and B values computed from the polynomials printed in ASTM D4311; tolerance 5e-5 (four decimals).
  it.each([
    [15, 0.9995, 1.0],
    [25, 0.9933, 0.9929],
    [60, 0.9715, 0.9682],
    [80, 0.9593, 0.9543],
    [100, 0.9471, 0.9407],
    [150, 0.9173, 0.9072],
  ])('at %i °C is %f in column A and %f in column B', (tempC, a, b) => {
    expect(Math.abs(volumeFactor('A', tempC) - a)).toBeLessThanOrEqual(5.1e-5);
    expect(Math.abs(volumeFactor('B', tempC) - b)).toBeLessThanOrEqual(5.1e-5);
  });

  // Asphalt Institute / D1250 Group 0 table as reprinted in Iowa DOT IM T102C; tolerance ±0.0001.
  it.each([
    [0, 1.0211],
    [50, 1.0035],
    [100, 0.9861],
    [150, 0.9689],
    [200, 0.952],
    [207, 0.9496],
  ])('Group 0 at %i °F is %f', (tempF, factor) => {
    expect(Math.abs(volumeFactorGroup0F(tempF) - factor)).toBeLessThanOrEqual(1e-4);
  });

  it('gives 7.77 lb per US gallon for factor × specific gravity 0.9325 (US Army engineer course, ±0.005)', () => {
    expect(Math.abs(0.9325 * 8.328 - 7.77)).toBeLessThanOrEqual(0.005);
    // the same through our density: 0.9325 × 1000 kg/m³ in lb per US gallon
    const kgM3 = densityKgM3('A', 932.5 / volumeFactor('A', 60), 60);
    expect(Math.abs((kgM3 * 0.003785411784) / 0.45359237 - 7.77)).toBeLessThan(0.02);
  });

  it('takes column A from 966 kg/m³, column B below (ASTM D4311)', () => {
    expect(bitumenColumn(966)).toBe('A');
    expect(bitumenColumn(965)).toBe('B');
  });

  it('for emulsion falls 0.00045 per °C (from memory): 0.980 at 60 °C', () => {
    expect(volumeFactor('emulsion', 60)).toBeCloseTo(0.98, 3);
  });
});

describe('ASTM D341 viscosity line', () => {
  // Worked example: 32 mm²/s at 40 °C and 5.4 at 100 °C, kelvin counted from 273.
  const line = waltherLine({ tempC: 40, mm2S: 32 }, { tempC: 100, mm2S: 5.4 }, 273);

  it('has A = 9.5259 and B = 3.7449 (±1e-4)', () => {
    expect(Math.abs(line.a - 9.5259)).toBeLessThanOrEqual(1e-4);
    expect(Math.abs(line.b - 3.7449)).toBeLessThanOrEqual(1e-4);
  });

  it('gives 8.5 mm²/s at 80 °C (±0.05)', () => {
    expect(Math.abs(viscosityMm2S(line, 80) - 8.5)).toBeLessThanOrEqual(0.05);
    expect(viscosityMm2S(line, 80)).toBeCloseTo(8.533, 2);
  });

  it('from 273.15 has A = 9.53082 and B = 3.74658: the zero is part of the line', () => {
    const other = waltherLine({ tempC: 40, mm2S: 32 }, { tempC: 100, mm2S: 5.4 });
    expect(Math.abs(other.a - 9.53082)).toBeLessThanOrEqual(1e-4);
    expect(Math.abs(other.b - 3.74658)).toBeLessThanOrEqual(1e-4);
  });

  it('goes through its points and back', () => {
    expect(viscosityMm2S(line, 40)).toBeCloseTo(32, 9);
    expect(tempOfViscosityC(line, 5.4)).toBeCloseTo(100, 9);
    expect(viscosityMm2S(line, -200)).toBe(1e9);
  });

  it('below 2 mm²/s uses the second form of the standard: back within its 0.5 %', () => {
    const thin = waltherLine({ tempC: 20, mm2S: 3 }, { tempC: 100, mm2S: 0.9 });
    expect(Math.abs(viscosityMm2S(thin, 100) / 0.9 - 1)).toBeLessThan(0.005);
  });
});

describe('residue', () => {
  it('5.00 % of mix is 5.26 % of aggregate (constructed from the centrifuge formula)', () => {
    expect(onAggregatePct(5)).toBeCloseTo(5.263, 3);
    expect(onMixPct(onAggregatePct(5))).toBeCloseTo(5, 12);
  });

  it('of 7.5 % emulsion with 60 % residue is 4.5 % of aggregate and 4.31 % of mix', () => {
    expect(residueOfAggregatePct(7.5, 60)).toBeCloseTo(4.5, 12);
    expect(residueOfMixPct(7.5, 60)).toBeCloseTo((100 * 4.5) / 104.5, 12);
  });

  it('20 % solvent by volume is 15.4 % by mass at 0.8 and 1.1, 16.6 % at 0.81 and 1.02 (computed)', () => {
    expect(massPctOfVolumePct(20, 0.8, 1.1)).toBeCloseTo(15.4, 1);
    expect(massPctOfVolumePct(20, 0.81, 1.02)).toBeCloseTo(16.6, 1);
  });

  it('repeats the cutback emissions of AP-42 section 4.5 (mass % of cutback, ±0.7; table from memory, recomputed)', () => {
    // share of diluent that evaporates, density of diluent, then 25 / 35 / 45 vol %
    const rows = [
      [0.95, 0.7, [17, 24, 32]],
      [0.7, 0.8, [14, 20, 26]],
      [0.25, 0.9, [5, 8, 10]],
    ] as const;
    for (const [share, density, expected] of rows)
      [25, 35, 45].forEach((volumePct, i) => {
        const found = share * massPctOfVolumePct(volumePct, density, 1.1);
        expect(Math.abs(found - (expected[i] ?? Number.NaN))).toBeLessThanOrEqual(0.7);
      });
  });
});

describe('published windows', () => {
  // UFC 3-250-03 Table 6-8, °F; °C to one decimal.
  it.each([
    ['MC-800', 76.7, 96.1],
    ['SS-1', 23.9, 54.4],
    ['MS-2', 37.8, 71.1],
  ] as const)('mixing %s between %f and %f °C', (grade, fromC, toC) => {
    const { fromF, toF } = MIXING_WINDOWS_F[grade];
    expect(celsiusOf(fromF)).toBeCloseTo(fromC, 1);
    expect(celsiusOf(toF)).toBeCloseTo(toC, 1);
  });

  // US federal-type specification section 404.03.
  it('aggregate with cutback 15.6–107.2 °C and at most 3 % moisture, with emulsion 10–79.4 °C', () => {
    expect(celsiusOf(AGGREGATE_LIMITS.cutback.fromF)).toBeCloseTo(15.6, 1);
    expect(celsiusOf(AGGREGATE_LIMITS.cutback.toF)).toBeCloseTo(107.2, 1);
    expect(AGGREGATE_LIMITS.cutback.moistureMaxPct).toBe(3);
    expect(celsiusOf(AGGREGATE_LIMITS.emulsion.fromF)).toBe(10);
    expect(celsiusOf(AGGREGATE_LIMITS.emulsion.toF)).toBeCloseTo(79.4, 1);
  });

  it('MC-800 is mixed wholly above its least flash point (ASTM D2027): vapour must be controlled', () => {
    expect(celsiusOf(MIXING_WINDOWS_F['MC-800'].fromF)).toBeGreaterThan(MC800_FLASH_MIN_C);
  });
});
