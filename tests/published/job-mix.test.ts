/** Figures of a job mix against published ones; the source stands beside each. */
import { describe, expect, it } from 'vitest';
import { binderContent } from '../../machines/mix/binder-content.ts';
import { dryingHeat, KJ_PER_KWH } from '../../machines/mix/drying-heat.ts';
import {
  inServiceErrorKg,
  intervalsAllowed,
  leastLoadKg,
  verificationErrorKg,
} from '../../machines/mix/oiml-r76.ts';
import { celsiusOf, MEASURED_DRYING_KWH_T_PER_PCT } from '../../machines/mix/published.ts';
import { massPctOfVolumePct } from '../../machines/mix/residue.ts';
import { SURFACE_FACTORS, specificSurfaceM2Kg } from '../../machines/mix/specific-surface.ts';
import { viscosityWindowC } from '../../machines/mix/viscosity-window.ts';
import { volumeFactor } from '../../machines/mix/volume-correction.ts';
import { publishedWindow } from '../../machines/yard/mixes/temperatures-sheet.ts';

describe('OIML R 76-1, table of maximum permissible errors', () => {
  it.each([
    ['II', 5_000, 20_000, 100_000],
    ['III', 500, 2_000, 10_000],
    ['IIII', 50, 200, 1_000],
  ] as const)(
    'class %s: 0.5 e, 1 e and 1.5 e up to and including each end',
    (scale, first, second, third) => {
      const e = 0.1;
      for (const [load, inE] of [
        [first, 0.5],
        [first + 1, 1],
        [second, 1],
        [second + 1, 1.5],
        [third, 1.5],
      ] as const) {
        expect(verificationErrorKg(scale, e, load * e)).toBeCloseTo(inE * e, 12);
        expect(inServiceErrorKg(scale, e, load * e)).toBeCloseTo(2 * inE * e, 12);
      }
      expect(verificationErrorKg(scale, e, (third + 1) * e)).toBeNull();
    },
  );

  it('least loads: 20 e in class III, 10 e in class IIII, 50 e in class II from e = 0.1 g', () => {
    expect(leastLoadKg('III', 1)).toBe(20);
    expect(leastLoadKg('IIII', 1)).toBe(10);
    expect(leastLoadKg('II', 0.0001)).toBeCloseTo(0.005, 12);
    expect(leastLoadKg('II', 0.00001)).toBeCloseTo(0.0002, 12);
  });

  it('class III has 500 to 10,000 intervals from e = 5 g, 100 to 10,000 below', () => {
    expect(intervalsAllowed('III', 1)).toEqual({ from: 500, to: 10_000 });
    expect(intervalsAllowed('III', 0.002)).toEqual({ from: 100, to: 10_000 });
    expect(intervalsAllowed('IIII', 1)).toEqual({ from: 100, to: 1_000 });
  });
});

describe('UFC 3-250-03, table of surface area factors', () => {
  /** ft² per lb for each per cent, the other column of the same table. */
  const FT2_LB = [0.02, 0.02, 0.04, 0.08, 0.14, 0.3, 0.6, 1.6];
  const M2_KG_PER_FT2_LB = 0.2048161;

  it('both columns of the table agree: m²/kg is 0.2048 of ft²/lb, per cent of passing', () => {
    SURFACE_FACTORS.forEach(({ m2KgPerPct }, i) => {
      expect(m2KgPerPct).toBeCloseTo((FT2_LB[i] as number) * M2_KG_PER_FT2_LB, 4);
    });
  });

  it('a grading by hand', () => {
    // 100, 66, 53, 41, 31, 21, 13, 4.5 % (UFC 3-250-03 Table 6-5, middle of the 12.5 mm band, 9.5 mm taken as 86 %):
    // 0.00409·(86 + 66) + 0.00819·53 + 0.01639·41 + 0.02867·31 + 0.06144·21 + 0.12289·13 + 0.32771·4.5 = 6.979
    const grading = [
      { sieveMm: 12.5, passingPct: 100 },
      { sieveMm: 9.5, passingPct: 86 },
      { sieveMm: 4.75, passingPct: 66 },
      { sieveMm: 2.36, passingPct: 53 },
      { sieveMm: 1.18, passingPct: 41 },
      { sieveMm: 0.6, passingPct: 31 },
      { sieveMm: 0.3, passingPct: 21 },
      { sieveMm: 0.15, passingPct: 13 },
      { sieveMm: 0.075, passingPct: 4.5 },
    ];
    const byHand =
      0.00409 * 152 +
      0.00819 * 53 +
      0.01639 * 41 +
      0.02867 * 31 +
      0.06144 * 21 +
      0.12289 * 13 +
      0.32771 * 4.5;
    expect(byHand).toBeCloseTo(6.979, 3);
    expect(specificSurfaceM2Kg(grading)).toBeCloseTo(byHand, 10);
  });
});

describe('drying', () => {
  it('1 % of water from 20 °C takes 7.20 kWh a tonne, within 10 % of 6.86 measured in a field study', () => {
    const kwh =
      (dryingHeat(1000, 3, 20, 100, 1).usefulKj - dryingHeat(1000, 2, 20, 100, 1).usefulKj) / KJ_PER_KWH;
    expect(kwh).toBeCloseTo(7.2, 2);
    expect(Math.abs(kwh / MEASURED_DRYING_KWH_T_PER_PCT - 1)).toBeLessThan(0.1);
  });
});

describe('ASTM D341, the worked example of 32 mm²/s at 40 °C and 5.4 at 100 °C', () => {
  it('the window between 32 and 8.533 mm²/s is 40 to 80 °C', () => {
    const window = viscosityWindowC(
      [
        { tempC: 40, mm2S: 32 },
        { tempC: 100, mm2S: 5.4 },
      ],
      8.5332,
      32,
    );
    expect(window.fromC).toBeCloseTo(40, 6);
    expect(window.toC).toBeCloseTo(80, 2);
  });
});

describe('binder', () => {
  it('ASTM D4311 column A: 1000 L at 80 °C are 959.3 L at 15 °C, so 950 kg/m³ at 15 °C hold 911.3 kg', () => {
    expect(volumeFactor('A', 80)).toBeCloseTo(0.9593, 4);
    expect(volumeFactor('A', 80) * 950).toBeCloseTo(911.3, 1);
  });

  it('a cutback with 80 % residue by volume (1.02 and 0.81 t/m³) has 83.4 % by mass, and 5.5 % of it leave 4.39 % of mix', () => {
    // 80·1.02/(80·1.02 + 20·0.81) = 81.6/97.8 = 83.436 %; 5.5 × 0.83436 = 4.589 on aggregate; 4.589/104.589 = 4.388 %.
    const massPct = massPctOfVolumePct(80, 1.02, 0.81);
    expect(massPct).toBeCloseTo(83.436, 3);
    expect(binderContent(5.5, massPct, 0, 0.5).residueOfMixPct).toBeCloseTo(4.388, 3);
  });

  it('the dose of 7 % of a 60 % residue leaves 4.2 % on aggregate and 4.03 % of mix, not 4.2', () => {
    const content = binderContent(7, 60, 0, 0.5);
    expect(content.residuePct).toBeCloseTo(4.2, 12);
    expect(content.residueOfMixPct).toBeCloseTo(4.0307, 4);
  });

  it('published mixing windows are found by the name of the grade (UFC 3-250-03 Table 6-8)', () => {
    expect(publishedWindow('MC-800')).toEqual({
      grade: 'MC-800',
      window: { fromC: celsiusOf(170), toC: celsiusOf(205) },
    });
    expect(publishedWindow('cationic slow-setting emulsion')?.window.toC).toBeCloseTo(54.4, 1);
    expect(publishedWindow('CMS-2')?.grade).toBe('MS-2');
    expect(publishedWindow('something else')).toBeNull();
  });
});
