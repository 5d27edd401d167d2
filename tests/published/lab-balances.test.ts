/** Errors of balances against OIML R 76-1, and what they do to results, by hand. */
import { describe, expect, it } from 'vitest';
import {
  type AccuracyClass,
  BALANCES,
  type Balance,
  balanceFor,
  permissibleErrorG,
  readabilityWantedG,
  unfitBecause,
} from '../../machines/lab/worksheets/balances.ts';
import { SHEETS, type SheetContext } from '../../machines/lab/worksheets/index.ts';
import { balanceUncertainty } from '../../machines/lab/worksheets/uncertainty.ts';

const balance = (accuracy: AccuracyClass, eG: number, maxG: number): Balance => ({ accuracy, eG, maxG });

describe('OIML R 76-1 maximum permissible errors, in e', () => {
  // [class, load in e, error in e on verification]: both ends of every step of the table
  const ROWS: readonly (readonly [AccuracyClass, number, number])[] = [
    ['II', 0, 0.5],
    ['II', 5000, 0.5],
    ['II', 5001, 1],
    ['II', 20_000, 1],
    ['II', 20_001, 1.5],
    ['II', 100_000, 1.5],
    ['III', 0, 0.5],
    ['III', 500, 0.5],
    ['III', 501, 1],
    ['III', 2000, 1],
    ['III', 2001, 1.5],
    ['III', 10_000, 1.5],
    ['IIII', 50, 0.5],
    ['IIII', 51, 1],
    ['IIII', 200, 1],
    ['IIII', 201, 1.5],
    ['IIII', 1000, 1.5],
  ];
  it.each(ROWS)('class %s at %i e: %f e, in service twice that', (accuracy, intervals, error) => {
    for (const eG of [0.01, 0.1, 1]) {
      const one = balance(accuracy, eG, 1e9);
      expect(permissibleErrorG(one, intervals * eG, 'on verification')).toBeCloseTo(error * eG, 12);
      expect(permissibleErrorG(one, intervals * eG, 'in service')).toBeCloseTo(2 * error * eG, 12);
    }
  });

  it('says nothing above the class, above the balance or below nothing', () => {
    expect(permissibleErrorG(balance('III', 1, 1e9), 10_001, 'in service')).toBeNull();
    expect(permissibleErrorG(balance('II', 0.1, 3000), 3000.1, 'in service')).toBeNull();
    expect(permissibleErrorG(balance('II', 0.1, 3000), -1, 'in service')).toBeNull();
  });
});

describe('choice of balance', () => {
  it('goes by the finest weighing of the sheet', () => {
    expect(readabilityWantedG(SHEETS.moisture)).toBe(0.1);
    expect(readabilityWantedG(SHEETS['emulsion-residue'])).toBe(0.01);
    expect(readabilityWantedG(SHEETS['particle-count'])).toBeNull();
  });

  it('refuses a balance too coarse or too small in words', () => {
    const field = SHEETS.moisture.fields.find(({ key }) => key === 'wetG');
    if (field === undefined) throw new Error('no such field');
    expect(unfitBecause(balance('II', 0.1, 6000), field, 1200)).toBeNull();
    expect(unfitBecause(balance('III', 1, 6000), field, 1200)).toMatch(/take a finer one/);
    expect(unfitBecause(balance('II', 0.1, 600), field, 1200)).toMatch(/take a larger one/);
  });
});

describe('uncertainty from the balance', () => {
  const CONTEXT: SheetContext = { nowAt: '2026-05-12T12:00:00', sieves: [], sampleMassG: null };
  const READINGS = {
    material: 'aggregate',
    panG: 200,
    wetG: 1230,
    dryG: 1200,
    ovenC: 110,
    endedAt: '2026-05-12T10:00',
  };

  it('of moisture with a class II balance of 0.1 g, by hand', () => {
    // Loads of 200, 1230 and 1200 g are 2 000, 12 300 and 12 000 e: 0.1, 0.2 and 0.2 g in service.
    // M = 100 (W − D) ÷ (D − P) = 3 %. dM/dW = 100 ÷ 1000 = 0.1 %/g; dM/dD = −100 × 1030 ÷ 1000² = −0.103 %/g;
    // dM/dP = 100 × 30 ÷ 1000² = 0.003 %/g. u² = (0.1² × 0.2² + 0.103² × 0.2² + 0.003² × 0.1²) ÷ 3.
    const byHand = Math.sqrt((0.02 ** 2 + 0.0206 ** 2 + 0.0003 ** 2) / 3);
    const [found] =
      balanceUncertainty(SHEETS.moisture, READINGS, CONTEXT, () => balance('II', 0.1, 6000)) ?? [];
    expect(found?.standard).toBeCloseTo(byHand, 6);
    expect(found?.expanded).toBeCloseTo(2 * byHand, 6);
    expect(found?.mostFrom).toBe('Pan and dry sample');
  });

  it('grows with the balance, and is not given for a load it does not take or a sheet that is refused', () => {
    const at = (one: Balance, readings = READINGS) =>
      balanceUncertainty(SHEETS.moisture, readings, CONTEXT, () => one);
    const [fine] = at(balance('II', 0.1, 6000)) ?? [];
    const [coarse] = at(balance('III', 1, 6000)) ?? [];
    expect(coarse?.standard ?? 0).toBeGreaterThan(5 * (fine?.standard ?? Number.POSITIVE_INFINITY));
    expect(at(balance('II', 0.1, 600))).toBeNull();
    expect(at(balance('II', 0.1, 6000), { ...READINGS, dryG: 1231 })).toBeNull();
  });

  it('is said on the sheet when a balance is named, and a balance that does not do is a departure', () => {
    const at = (name: string) => {
      const out = SHEETS.moisture.workOut({ ...READINGS, balance: name }, CONTEXT);
      if (!out.ok) throw new Error(JSON.stringify(out.because));
      return out;
    };
    // 2 × 0.01659 from the working above
    expect(at('to 0.1 g').notes.join('\n')).toMatch(
      /Moisture: ± 0\.033 % from the balance alone .* "Pan and dry sample"/,
    );
    expect(at('to 0.1 g').departures).toEqual([]);
    expect(at('to 1 g').departures.join('\n')).toMatch(
      /Pan and wet sample is weighed to 0\.1 g, this balance steps by 1 g/,
    );
    expect(at('to 0.01 g').departures.join('\n')).toMatch(/1230 g is more than this balance takes \(600 g\)/);
    expect(SHEETS.moisture.workOut({ ...READINGS, balance: 'kitchen scale' }, CONTEXT).ok).toBe(false);
  });

  it('weighs filter and fines of an extraction on a finer balance than the mix', () => {
    const { fields } = SHEETS.extraction;
    const field = (key: string) => fields.find((one) => one.key === key) ?? fields[0];
    const of = (key: string, loadG: number) => {
      const found = field(key);
      if (found === undefined) throw new Error('no fields');
      return balanceFor(SHEETS.extraction, 'to 0.1 g', found, loadG);
    };
    expect(of('portionG', 1000)).toBe(BALANCES['to 0.1 g']);
    expect(of('filterAfterG', 17)).toBe(BALANCES['to 0.01 g']);
    expect(of('ashG', 2)).toBe(BALANCES['to 0.001 g']);
  });
});
