/** One sheet of each kind worked out by hand, the working beside it. */
import { describe, expect, it } from 'vitest';
import { SHEETS } from '../../machines/lab/worksheets/index.ts';
import { GOOD } from './worksheets-good.ts';
import { CONTEXT, valuesOf } from './worksheets-support.ts';

const departuresOf = (id: keyof typeof GOOD, change: Record<string, string | number | null> = {}) => {
  const out = SHEETS[id].workOut({ ...GOOD[id], ...change }, CONTEXT);
  if (!out.ok) throw new Error(JSON.stringify(out.because));
  return out.departures;
};

describe('by hand', () => {
  it('sieve: cumulative 0, 280, 680, 920, 980 g of 1000 g; wash loss 15 g; 1 g of 985 lost', () => {
    expect(valuesOf('sieve', GOOD.sieve)).toEqual({
      'passing:9.5': 100,
      'passing:4.75': 72,
      'passing:2.36': 32,
      'passing:1.18': 8,
      'passing:0.075': 2,
    });
    const out = SHEETS.sieve.workOut(GOOD.sieve, CONTEXT);
    // 100 × (985 − 980 − 4) ÷ 985 = 0.1015 %
    if (out.ok) expect(out.working.at(-1)?.value).toBeCloseTo(0.1015, 4);
  });

  it('extraction: 1000 − 10 = 990 g of mix, 940 + 3 + 2 = 945 g of aggregate, 45 g of binder', () => {
    // 100 × 45 ÷ 990 = 4.545; 100 × 45 ÷ 945 = 4.762
    expect(valuesOf('extraction', GOOD.extraction)).toEqual({
      residualBinderMixPct: 4.55,
      residualBinderAggPct: 4.76,
    });
  });

  it('ignition: 1000 g of mix leave 951 g with the dust, loss 4.9 %, less 0.3 % = 4.6 %', () => {
    // 100 × 4.6 ÷ 95.4 = 4.822
    expect(valuesOf('ignition', GOOD.ignition)).toEqual({
      residualBinderMixPct: 4.6,
      residualBinderAggPct: 4.82,
    });
  });

  it('emulsion residue: 30.0, 30.1 and 30.2 g of 50 g are 60.0, 60.2 and 60.4 %, mean 60.2 %', () => {
    expect(valuesOf('emulsion-residue', GOOD['emulsion-residue'])).toEqual({ residuePct: 60.2 });
  });

  it('cutback residue: 160 of 200 ml; 160 × 1.02 = 163.2 g and 40 × 0.81 = 32.4 g', () => {
    // 100 × 163.2 ÷ 195.6 = 83.436; distillate 0, 2, 10, 28 of 40 ml
    expect(valuesOf('cutback-residue', GOOD['cutback-residue'])).toEqual({
      residuePct: 83.4,
      residueVolumePct: 80,
      'distillate:190': 0,
      'distillate:225': 5,
      'distillate:260': 25,
      'distillate:316': 70,
    });
  });

  it('coatings: the mean of two people; a half goes to the even one', () => {
    expect(valuesOf('wet-coating', GOOD['wet-coating'])).toEqual({ wetCoatedPct: 96 });
    expect(valuesOf('static-immersion', GOOD['static-immersion'])).toEqual({ immersionCoatedPct: 96 });
    expect(valuesOf('water-resistance', GOOD['water-resistance'])).toEqual({ coatedPct: 94 });
  });

  it('count: 190 + 195 + 285 = 670 of 700 are 95.71 %', () => {
    expect(valuesOf('particle-count', GOOD['particle-count'])).toEqual({ countCoatedPct: 95.7 });
  });

  it('workability: yes, in 35 s; no has no time', () => {
    expect(valuesOf('workability', GOOD.workability)).toEqual({ workable: 1, breakUpS: 35 });
    expect(valuesOf('workability', { ...GOOD.workability, broke: 'no', breakUpS: null })).toEqual({
      workable: 0,
    });
  });

  it('bond: 180 kgf on π × 10.16² ÷ 4 = 81.07 cm² are 2.22 kg/cm², 0.218 MPa', () => {
    expect(valuesOf('bond', GOOD.bond)).toEqual({ bondKgCm2: 2.22, bondMPa: 0.218 });
    // 180 kgf = 1765.197 N = 1.765197 kN
    expect(valuesOf('bond', { ...GOOD.bond, loadUnit: 'kN', load: 1.765197 })).toEqual({
      bondKgCm2: 2.22,
      bondMPa: 0.218,
    });
    expect(valuesOf('bond', { ...GOOD.bond, parted: 'before loading', load: null, loadUnit: null })).toEqual({
      bondKgCm2: 0,
      bondMPa: 0,
    });
  });

  it('tack on the joint: 2.03 g on 81.07 cm² are 0.25 kg/m²', () => {
    const out = SHEETS.bond.workOut(GOOD.bond, CONTEXT);
    if (out.ok) expect(out.working.find(({ unit }) => unit === 'kg/m²')?.value).toBeCloseTo(0.2504, 4);
  });

  it('binder delivery: 6 × 190 = 1140 mm²/s; 70 + 0.25 × 4 = 71 °C; 0.1 ml in 100 ml', () => {
    // 950 kg/m³ at 60 °C: column B gives 950 ÷ 0.9682 = 981 kg/m³, so column A holds: 950 ÷ 0.9715 = 977.9
    expect(valuesOf('binder-delivery', GOOD['binder-delivery'])).toEqual({
      viscosityMm2S: 1140,
      flashC: 71,
      waterPct: 0.1,
      residueVolumePct: 79,
      densityKgM3: 978,
    });
  });

  it.each([
    // 15 % flaky; 85 of the other 850 g are 10 %
    [{ what: 'shape', shapeG: 1000, flakyG: 150, elongatedG: 85 }, { flakinessElongationPct: 25 }],
    // 77 of 350 g; 0.4 g lost
    [
      { what: 'impact', impactG: 350, impactPassingG: 77, impactRetainedG: 272.6, impactBlows: 15 },
      { impactPct: 22 },
    ],
    // 1350 of 5000 g
    [
      {
        what: 'abrasion',
        drumGrading: 'B',
        drumBalls: 11,
        drumTurns: 500,
        drumBeforeG: 5000,
        drumAfterG: 3650,
      },
      { abrasionPct: 27 },
    ],
    // losses 6 % and 10 %, shares 60 and 20: (360 + 200) ÷ 80 = 7
    [
      {
        what: 'soundness',
        salt: 'sodium',
        cycles: 5,
        'sharePct:9.5-4.75': 60,
        'sharePct:4.75-2.36': 20,
        'sharePct:2.36-1.18': 0,
        'soundBeforeG:9.5-4.75': 300,
        'soundAfterG:9.5-4.75': 282,
        'soundBeforeG:4.75-2.36': 100,
        'soundAfterG:4.75-2.36': 90,
      },
      { soundnessPct: 7 },
    ],
    // 25 of 2000 g
    [{ what: 'absorption', surfaceDryG: 2025, ovenDryG: 2000, inWaterG: 1260 }, { absorptionPct: 1.25 }],
    // 440 of 500 g
    [{ what: 'fractured', faces: '2', fracturedG: 440, unfracturedG: 60 }, { fracturedPct: 88 }],
    // 66.1 goes up to 67, 64.0 stays; mean 65.5 goes up to 66
    [
      { what: 'cleanliness', 'clayMm:1': 118, 'sandMm:1': 78, 'clayMm:2': 100, 'sandMm:2': 64 },
      { sandEquivalentPct: 66 },
    ],
  ])('aggregate %o', (readings, results) => {
    expect(valuesOf('aggregate', { ...readings, endedAt: '2026-05-12T10:00' })).toEqual(results);
  });
});

describe('departures from the method', () => {
  it.each(Object.keys(GOOD) as (keyof typeof GOOD)[])('%s filled as the method says has none', (id) => {
    expect(departuresOf(id)).toEqual([]);
  });

  it.each([
    ['moisture', { ovenC: 130 }, /Oven was 130 °C, the method asks for 105 to 115 °C/],
    ['moisture', { driedAgainG: 1198 }, /0\.1 % or more/],
    ['sieve', { furtherPct: 0.7 }, /sieve on/],
    ['extraction', { washes: 2 }, /three washes/],
    ['ignition', { furnaceC: 480 }, /530 to 546/],
    ['ignition', { cured: 'as sampled' }, /no water subtracted/],
    ['emulsion-residue', { 'afterG:3': 250.6 }, /differ by/],
    ['emulsion-residue', { ovenC: 140 }, /160 to 166/],
    ['cutback-residue', { sampleMl: 180 }, /199 to 201 ml/],
    ['wet-coating', { waterG: 0 }, /Water on dry aggregate was 0 %/],
    ['static-immersion', { immersedH: 20 }, /16 to 18 h/],
    ['static-immersion', { binder: 'emulsion' }, /132 to 138/],
    ['particle-count', { 'coated:2': 100, 'counted:2': 110 }, /count more/],
    ['water-resistance', { ovenC: 100 }, /115 to 125/],
    ['water-resistance', { ovenH: 2 }, /3\.75 to 4\.25 h/],
    ['water-resistance', { cooledC: 60 }, /92 to 98/],
    ['water-resistance', { waterMl: 300 }, /390 to 410 ml/],
    ['water-resistance', { waterC: 80 }, /93 to 101/],
    ['water-resistance', { stirredS: 120 }, /175 to 185 s/],
    ['water-resistance', { turns: 90 }, /0\.9 to 1\.1 a second/],
    ['workability', { middleC: 2 }, /−9 to −5 °C/],
    ['workability', { portionG: 1200 }, /2250 to 2750 g/],
    ['workability', { coldH: 1 }, /overnight/],
    ['workability', { spatula: 'other' }, /200 mm spatula/],
    ['bond', { blowsUpper: 35 }, /asks for 50:/],
    ['bond', { stoodH: 12 }, /23 to 25 h/],
    ['binder-delivery', { bathC: 50 }, /59\.9 to 60\.1/],
  ] as const)('%s %o', (id, change, words) => {
    expect(departuresOf(id, change).join('\n')).toMatch(words);
  });
});

describe('notes', () => {
  const notesOf = (id: keyof typeof GOOD, change: Record<string, string | number | null> = {}) => {
    const out = SHEETS[id].workOut({ ...GOOD[id], ...change }, CONTEXT);
    if (!out.ok) throw new Error(JSON.stringify(out.because));
    return out.notes.join('\n');
  };

  it('hold a binder delivery against its grade', () => {
    expect(notesOf('binder-delivery')).toMatch(/viscosity: 1140 mm²\/s is within its limits \(ASTM D2027/);
    expect(notesOf('binder-delivery', { effluxS: 300 })).toMatch(
      /1800 mm²\/s is above the most, 1600 mm²\/s/,
    );
    expect(notesOf('binder-delivery', { flashC: 60 })).toMatch(/61 °C is below the least, 66 °C/);
    expect(notesOf('binder-delivery', { waterMl: 0.5 })).toMatch(/0\.50 % is above the most, 0\.2 %/);
    expect(notesOf('binder-delivery', { residueVolumePct: 70 })).toMatch(
      /below the least, 75 % \(from memory\)/,
    );
  });

  it('say what to do with a flash point of rapid-curing cutback', () => {
    expect(notesOf('binder-delivery', { flashC: 27 })).toMatch(/Do not unload it/);
    expect(notesOf('binder-delivery')).not.toMatch(/Do not unload/);
  });

  it('name what was entered and is not used', () => {
    expect(notesOf('workability', { broke: 'no' })).toMatch(
      /Time to break it up was entered but belongs to another/,
    );
    expect(notesOf('workability')).not.toMatch(/not used/);
  });

  it('tell water from solvent in the oven', () => {
    expect(notesOf('moisture', { material: 'cutback mix' })).toMatch(/D1461/);
    expect(notesOf('moisture')).not.toMatch(/D1461/);
  });

  it('round a result as its limit does before they compare (ASTM E29)', () => {
    // 4.55 % is rounded to 4.6 (even), 4.45 would be 4.4
    const limits = [{ property: 'residualBinderMixPct', from: 4.6, decimals: 1 }] as const;
    const out = SHEETS.extraction.workOut(GOOD.extraction, { ...CONTEXT, limits });
    if (out.ok) expect(out.notes.join()).toMatch(/4\.55 % is within its limits/);
    const strict = SHEETS.extraction.workOut(GOOD.extraction, {
      ...CONTEXT,
      limits: [{ property: 'residualBinderMixPct', from: 4.6 }],
    });
    if (strict.ok) expect(strict.notes.join()).toMatch(/4\.55 % is below the least, 4\.6 %/);
    expect(out.ok && strict.ok).toBe(true);
  });

  it('keep stone and mix apart, and the two salts', () => {
    expect(valuesOf('moisture', { ...GOOD.moisture, material: 'emulsion mix' })).toEqual({
      mixMoisturePct: 3.09,
    });
    const sound = {
      what: 'soundness',
      salt: 'magnesium',
      cycles: 5,
      'sharePct:9.5-4.75': 100,
      'sharePct:4.75-2.36': 0,
      'sharePct:2.36-1.18': 0,
      'soundBeforeG:9.5-4.75': 300,
      'soundAfterG:9.5-4.75': 270,
      endedAt: '2026-05-12T10:00',
    };
    expect(valuesOf('aggregate', sound)).toEqual({ soundnessMagnesiumPct: 10 });
  });

  it('say that static immersion knows 95 % only', () => {
    expect(notesOf('static-immersion')).toMatch(/at least 95 %/);
    expect(notesOf('static-immersion', { secondPct: 94 })).toMatch(/below 95 %/);
  });

  it('hold results against the limits of the context', () => {
    const limits = [{ property: 'bondKgCm2', from: 2.5, source: 'trial' }] as const;
    const out = SHEETS.bond.workOut(GOOD.bond, { ...CONTEXT, limits });
    if (out.ok) expect(out.notes.join()).toMatch(/2\.22 kg\/cm² is below the least, 2\.5 kg\/cm² \(trial\)/);
    expect(out.ok).toBe(true);
  });
});
