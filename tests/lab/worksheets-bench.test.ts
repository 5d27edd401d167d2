/** The simulated bench and the worksheets are each other's inverse: masses made from a truth give that truth back. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { benchReadings, RELATIVE_SD, SD, type Truth } from '../../machines/lab/bench/index.ts';
import { passingSdPct } from '../../machines/lab/bench/precision.ts';
import { SHEETS, type SheetId } from '../../machines/lab/worksheets/index.ts';
import { nextState, unitOf } from '../../machines/line/random.ts';
import { CONTEXT } from './worksheets-support.ts';

const rngFrom = (seed: number) => {
  let state = seed >>> 0;
  return () => {
    const unit = unitOf(state);
    state = nextState(state);
    return unit;
  };
};

const exactOf = (sheet: SheetId, truth: Truth, seed: number, error: number): Record<string, number> => {
  const made = benchReadings(sheet, truth, rngFrom(seed), error, CONTEXT);
  // What the balance leaves uncertain is worked out anew for each weighing: slow, so looked at now and then only.
  const readings = seed % 20 === 1 ? made : { ...made, balance: null };
  expect(SHEETS[sheet].schema.safeParse(readings).success).toBe(true);
  const out = SHEETS[sheet].workOut(readings, CONTEXT);
  if (!out.ok) throw new Error(`${JSON.stringify(out.because)} from ${JSON.stringify(readings)}`);
  const unfit = out.departures.filter((words) => words.includes('balance'));
  expect(unfit).toEqual([]);
  return Object.fromEntries(out.results.map(({ property, exact }) => [property, exact]));
};

const GRADING = {
  'passing:9.5': 100,
  'passing:4.75': 72,
  'passing:2.36': 33,
  'passing:1.18': 8,
  'passing:0.075': 1.4,
};

/**
 * A truth for each sheet; `rounding` is what rounding of balance, burette and eye alone may change in the result,
 * reckoned from the readability and the size of the portion; `sd` is that of the test at error 1.
 */
const CASES: readonly {
  sheet: SheetId;
  truth: Truth;
  check: string;
  rounding: number;
  sd: number;
}[] = [
  // two weighings of 0.05 g on 700 g or more
  {
    sheet: 'moisture',
    truth: { moisturePct: 3.4 },
    check: 'moisturePct',
    rounding: 0.02,
    sd: SD.moisturePct,
  },
  // 0.05 g on each of five sieves above 75 µm, of 1000 g
  { sheet: 'sieve', truth: GRADING, check: 'passing:4.75', rounding: 0.02, sd: passingSdPct(72) },
  { sheet: 'sieve', truth: GRADING, check: 'passing:0.075', rounding: 0.03, sd: passingSdPct(1.4) },
  {
    sheet: 'extraction',
    truth: { residualBinderMixPct: 4.31, waterPct: 1.2, solventPct: 0.4 },
    check: 'residualBinderMixPct',
    rounding: 0.02,
    sd: SD.extractionPct,
  },
  {
    sheet: 'ignition',
    truth: { residualBinderAggPct: 4.5 },
    check: 'residualBinderAggPct',
    rounding: 0.02,
    sd: 1.1 * SD.ignitionPct,
  },
  // 0.005 g three times on 50 g
  {
    sheet: 'emulsion-residue',
    truth: { residuePct: 61.3 },
    check: 'residuePct',
    rounding: 0.03,
    sd: SD.emulsionResiduePct / Math.sqrt(3),
  },
  // 0.05 ml of 200 ml
  {
    sheet: 'cutback-residue',
    truth: { residuePct: 84 },
    check: 'residuePct',
    rounding: 0.03,
    sd: SD.cutbackResidueVolumePct,
  },
  {
    sheet: 'cutback-residue',
    truth: { residueVolumePct: 78 },
    check: 'residueVolumePct',
    rounding: 0.03,
    sd: SD.cutbackResidueVolumePct,
  },
  // two people to whole percents
  {
    sheet: 'wet-coating',
    truth: { wetCoatedPct: 94.3 },
    check: 'wetCoatedPct',
    rounding: 0.5,
    sd: SD.coatedPct,
  },
  {
    sheet: 'static-immersion',
    truth: { immersionCoatedPct: 95.4 },
    check: 'immersionCoatedPct',
    rounding: 0.5,
    sd: SD.coatedPct,
  },
  {
    sheet: 'water-resistance',
    truth: { coatedPct: 91.2 },
    check: 'coatedPct',
    rounding: 0.5,
    sd: SD.coatedPct,
  },
  // half a particle of 220
  { sheet: 'particle-count', truth: { countCoatedPct: 95 }, check: 'countCoatedPct', rounding: 0.25, sd: 1 },
  {
    sheet: 'workability',
    truth: { workable: 1, breakUpS: 40 },
    check: 'breakUpS',
    rounding: 0.5,
    sd: 40 * RELATIVE_SD.breakUp,
  },
  // half a kgf on 81 cm²
  {
    sheet: 'bond',
    truth: { bondKgCm2: 2.6 },
    check: 'bondKgCm2',
    rounding: 0.007,
    sd: 2.6 * RELATIVE_SD.bond,
  },
  // 0.05 s of 150 s of 1200 mm²/s
  {
    sheet: 'binder-delivery',
    truth: { viscosityMm2S: 1200, flashC: 71, waterPct: 0.05 },
    check: 'viscosityMm2S',
    rounding: 0.5,
    sd: 1200 * RELATIVE_SD.viscosity,
  },
  {
    sheet: 'binder-delivery',
    truth: { viscosityMm2S: 1200, flashC: 71, waterPct: 0.05 },
    check: 'flashC',
    rounding: 0.51,
    sd: SD.flashC,
  },
  {
    sheet: 'binder-delivery',
    truth: { furolS: 60, residuePct: 61, densityKgM3: 1010 },
    check: 'densityKgM3',
    rounding: 0.51,
    sd: SD.densityKgM3,
  },
  {
    sheet: 'binder-delivery',
    truth: { densityKgM3: 968 },
    check: 'densityKgM3',
    rounding: 0.6,
    sd: SD.densityKgM3,
  },
  {
    sheet: 'aggregate',
    truth: { flakinessElongationPct: 28 },
    check: 'flakinessElongationPct',
    rounding: 0.02,
    sd: SD.flakinessElongationPct,
  },
  {
    sheet: 'aggregate',
    truth: { impactPct: 22 },
    check: 'impactPct',
    rounding: 0.02,
    sd: 22 * RELATIVE_SD.impact,
  },
  {
    sheet: 'aggregate',
    truth: { abrasionPct: 27 },
    check: 'abrasionPct',
    rounding: 0.011,
    sd: 27 * RELATIVE_SD.abrasion,
  },
  {
    sheet: 'aggregate',
    truth: { soundnessPct: 6 },
    check: 'soundnessPct',
    rounding: 0.05,
    sd: SD.soundnessPct,
  },
  {
    sheet: 'aggregate',
    truth: { absorptionPct: 0.9 },
    check: 'absorptionPct',
    rounding: 0.01,
    sd: SD.absorptionPct,
  },
  {
    sheet: 'aggregate',
    truth: { fracturedPct: 88 },
    check: 'fracturedPct',
    rounding: 0.02,
    sd: SD.fracturedPct,
  },
  // goes up to whole ones twice
  {
    sheet: 'aggregate',
    truth: { sandEquivalentPct: 67 },
    check: 'sandEquivalentPct',
    rounding: 1.5,
    sd: SD.sandEquivalentPct,
  },
];

describe.each(CASES)('bench of $sheet, $check', ({ sheet, truth, check, rounding, sd }) => {
  const expected = truth[check] as number;

  it('without test error gives the truth back but for rounding', () => {
    for (let seed = 1; seed <= 16; seed += 1)
      expect(Math.abs((exactOf(sheet, truth, seed, 0)[check] as number) - expected)).toBeLessThanOrEqual(
        rounding,
      );
  });

  it('with test error stays within five standard deviations, and does vary', () => {
    const found = Array.from({ length: 40 }, (_, i) => exactOf(sheet, truth, 1000 + i, 1)[check] as number);
    for (const value of found) expect(Math.abs(value - expected)).toBeLessThanOrEqual(5 * sd + rounding);
    expect(new Set(found).size).toBeGreaterThan(3);
  });
});

describe('bench of workability', () => {
  it('shows a mix that is not workable as one', () => {
    expect(exactOf('workability', { workable: 0 }, 7, 1)).toEqual({ workable: 0 });
  });
});

describe('bench of sieves', () => {
  it('for any grading is accepted, and percentages never rise towards finer sieves', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 5, maxLength: 5 }),
        fc.integer({ min: 0, max: 2 ** 31 }),
        fc.double({ min: 0, max: 3, noNaN: true }),
        (numbers, seed, error) => {
          const sorted = [...numbers].sort((a, b) => b - a);
          const truth = Object.fromEntries(
            CONTEXT.sieves.map((mm, i) => [`passing:${mm}`, sorted[i] as number]),
          );
          const out = exactOf('sieve', truth, seed, error);
          const passing = CONTEXT.sieves.map((mm) => out[`passing:${mm}`] as number);
          for (let i = 1; i < passing.length; i += 1)
            expect(passing[i] as number).toBeLessThanOrEqual(passing[i - 1] as number);
          expect(passing.every((pct) => pct >= 0 && pct <= 100)).toBe(true);
        },
      ),
      { seed: 20260512, numRuns: 80 },
    );
  });
});

describe('bench and the sieves of the specifications that are shipped', () => {
  const SIEVES = [
    [12.5, 9.5, 4.75, 2.36, 0.6, 0.075],
    [9.5, 4.75, 2.36, 1.18, 0.6, 0.3, 0.15, 0.075],
    [9.5, 4.75, 2.36, 1.18, 0.3],
    [19, 12.5, 9.5, 4.75, 2.36, 1.18, 0.3, 0.075],
  ];
  it.each(SIEVES.map((sieves) => [sieves]))('%o: never refused, no sieve overloaded', (sieves) => {
    for (let seed = 1; seed <= 25; seed += 1) {
      const truth = {
        'passing:12.5': 100,
        'passing:9.5': 96,
        'passing:4.75': 30 + seed,
        'passing:1.18': 5,
        'passing:0.075': 1,
      };
      const context = { ...CONTEXT, sieves, sampleMassG: seed % 2 === 0 ? 10_000 : 1500 };
      const readings = { ...benchReadings('sieve', truth, rngFrom(seed), 1, context), balance: null };
      const out = SHEETS.sieve.workOut(readings, context);
      if (!out.ok) throw new Error(JSON.stringify(out.because));
      expect(out.departures).toEqual([]);
    }
  });
});

describe('bench of extraction', () => {
  it('conserves mass: water, solvent, residual binder and aggregate are the portion', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 9, noNaN: true }),
        fc.double({ min: 0, max: 4, noNaN: true }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        fc.integer({ min: 0, max: 2 ** 31 }),
        (residualBinderMixPct, waterPct, solventPct, seed) => {
          const truth = { residualBinderMixPct, waterPct, solventPct };
          const readings = benchReadings('extraction', truth, rngFrom(seed), 1, CONTEXT);
          const out = SHEETS.extraction.workOut(readings, CONTEXT);
          if (!out.ok) throw new Error(JSON.stringify(out.because));
          const of = (label: string) => out.working.find((line) => line.label === label)?.value ?? Number.NaN;
          const sum =
            of('Water in the portion') +
            of('Solvent left in the portion') +
            of('Residual binder in the portion') +
            of('Aggregate in all');
          expect(sum).toBeCloseTo(readings.portionG as number, 6);
        },
      ),
      { seed: 20260512, numRuns: 80 },
    );
  });
});
