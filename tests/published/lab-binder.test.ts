/** Binder content by extraction and ignition, residues and counts against published arithmetic and wrong ways seen in print. */
import { describe, expect, it } from 'vitest';
import {
  type Readings,
  SHEETS,
  type SheetContext,
  type SheetId,
} from '../../machines/lab/worksheets/index.ts';

const CONTEXT: SheetContext = { nowAt: '2026-05-12T12:00:00', sieves: [], sampleMassG: null };
const ENDED = { endedAt: '2026-05-12T11:00:00' };

const workOut = (sheet: SheetId, readings: Readings) => {
  const out = SHEETS[sheet].workOut({ ...readings, ...ENDED }, CONTEXT);
  if (!out.ok) throw new Error(JSON.stringify(out.because));
  const exact = Object.fromEntries(out.results.map((result) => [result.property, result.exact]));
  return { ...out, exact };
};

/** Portion 500.0, aggregate 470.2, fines 3.1, filter gain 1.7: 25.0 g of binder (constructed from the formula). */
const EXTRACTION: Readings = {
  portionG: 500,
  waterPct: 0,
  solventPct: 0,
  aggregateG: 470.2,
  filterBeforeG: 14.5,
  filterAfterG: 16.2,
  washes: 4,
  colour: 'straw',
  finesBy: 'weighed',
  finesG: 3.1,
};

describe('centrifuge extraction, Pb = 100 × [W1 − (W2 + W3 + W4)] ÷ W1 (ASTM D2172 / AASHTO T 164)', () => {
  const out = workOut('extraction', EXTRACTION);

  it('gives 25.0 g, 5.00 % of mix and 5.26 % of aggregate', () => {
    expect(out.working.find(({ label }) => label.startsWith('Residual binder in'))?.value).toBeCloseTo(25, 9);
    expect(out.exact.residualBinderMixPct).toBeCloseTo(5, 9);
    expect(out.exact.residualBinderAggPct).toBeCloseTo(5.263, 3);
  });

  it('is not what the formula gives with its bracket misplaced, as one page prints it (the division on the sum only)', () => {
    const wrong = 100 * (500 - (470.2 + 3.1 + 1.7) / 500);
    expect(wrong).toBeGreaterThan(100);
    expect(Math.abs((out.exact.residualBinderMixPct as number) - wrong)).toBeGreaterThan(1);
  });

  it('calls what is divided by extracted aggregate "on aggregate", never on mix', () => {
    const divided = (100 * 25) / 475;
    for (const line of out.working)
      if (Math.abs(line.value - divided) < 0.005) expect(line.label).toMatch(/on aggregate/);
    expect(out.exact.residualBinderMixPct).not.toBeCloseTo(divided, 2);
    expect(out.results.find(({ property }) => property === 'residualBinderAggPct')?.reported).toBe('5.26 %');
  });

  it('subtracts water and solvent: 2 % and 1 % of 500 g leave 485 g of mix and 10 g of binder (by hand)', () => {
    const wet = workOut('extraction', { ...EXTRACTION, waterPct: 2, solventPct: 1 });
    // 500 − 10 − 5 = 485; 485 − 475 = 10; 100 × 10 ÷ 485 = 2.0619; 100 × 10 ÷ 475 = 2.1053
    expect(wet.exact.residualBinderMixPct).toBeCloseTo(2.0619, 4);
    expect(wet.exact.residualBinderAggPct).toBeCloseTo(2.1053, 4);
  });

  it('takes fines from ash: 0.124 g in 100 of 2500 ml are 3.1 g (by hand)', () => {
    const { finesG: _, ...rest } = EXTRACTION;
    const ashed = workOut('extraction', {
      ...rest,
      finesBy: 'ash',
      ashG: 0.124,
      extractMl: 2500,
      aliquotMl: 100,
    });
    expect(ashed.exact.residualBinderMixPct).toBeCloseTo(5, 9);
  });
});

describe('ignition, loss less correction (ASTM D6307 / AASHTO T 308; arithmetic of two published examples)', () => {
  it.each([
    [5.92, 0.31, 5.61],
    [5.5, 0.2, 5.3],
  ])('%f − %f = %f %', (lossPct, correctionPct, binderPct) => {
    const out = workOut('ignition', {
      cured: 'dried',
      waterPct: 0,
      solventPct: 0,
      basketG: 3000,
      beforeG: 5000,
      afterG: 5000 - 20 * lossPct,
      furnaceC: 538,
      correctionPct,
    });
    expect(out.exact.residualBinderMixPct).toBeCloseTo(binderPct, 9);
    // on aggregate, by hand: P ÷ (100 − P)
    expect(out.exact.residualBinderAggPct).toBeCloseTo((100 * binderPct) / (100 - binderPct), 9);
  });
});

describe('residue of a cutback, volume % to mass % (computed here from masses, not by the formula of the sheet)', () => {
  /** 20 vol % of solvent: its mass share at the two density pairs of the shared table is 0.154 and 0.166. */
  it.each([
    [0.8, 1.1, 15.4],
    [0.81, 1.02, 16.6],
  ])('solvent %f, residue %f: %f % by mass', (solvent, residue, solventMassPct) => {
    const grams = { solvent: 40 * solvent, residue: 160 * residue };
    const whole = grams.solvent + grams.residue;
    const common: Readings = {
      sampleMl: 200,
      'distillateMl:190': 0,
      'distillateMl:225': 2,
      'distillateMl:260': 10,
      'distillateMl:316': 28,
      'distillateMl:360': 40,
      distillateKgM3: 1000 * solvent,
    };
    const byResidue = workOut('cutback-residue', {
      ...common,
      densities: 'residue',
      residueKgM3: 1000 * residue,
    });
    const byCutback = workOut('cutback-residue', { ...common, densities: 'cutback', cutbackKgM3: 5 * whole });
    for (const { exact } of [byResidue, byCutback]) {
      expect(exact.residueVolumePct).toBeCloseTo(80, 9);
      expect(exact.residuePct).toBeCloseTo((100 * grams.residue) / whole, 9);
      expect(100 - (exact.residuePct as number)).toBeCloseTo(solventMassPct, 1);
    }
    expect(byResidue.exact['distillate:260']).toBeCloseTo(25, 9);
  });
});

describe('count of coated particles (AASHTO T 195: 100 × fully coated ÷ all)', () => {
  it('475 coated of 500 are 95.0 % (constructed example)', () => {
    const out = workOut('particle-count', {
      sieveMm: '9.5',
      'coated:1': 190,
      'counted:1': 200,
      'coated:2': 95,
      'counted:2': 100,
      'coated:3': 190,
      'counted:3': 200,
    });
    expect(out.results[0]).toMatchObject({ property: 'countCoatedPct', value: 95, reported: '95.0 %' });
    // binomial, by hand: 2 × √(0.95 × 0.05 ÷ 500) = 1.95 %
    expect(out.notes.join()).toMatch(/95\.0 ± 1\.9 %/);
  });
});

describe('bond in MPa', () => {
  it('2 kg/cm² are 0.196133 MPa (from the definition of kgf, 9.80665 N)', () => {
    const areaCm2 = (Math.PI * 10.16 ** 2) / 4;
    const out = workOut('bond', {
      diameterMm: 101.6,
      blowsLower: 50,
      blowsUpper: 50,
      stoodH: 24,
      testC: 25,
      parted: 'at the joint',
      loadUnit: 'N',
      load: 2 * areaCm2 * 9.80665,
    });
    expect(out.exact.bondKgCm2).toBeCloseTo(2, 9);
    expect(out.exact.bondMPa).toBeCloseTo(0.196133, 9);
  });
});
