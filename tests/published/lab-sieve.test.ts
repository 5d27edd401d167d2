/** Sieve analysis against a published worked example and the rules of ASTM C136 and C117. */
import { describe, expect, it } from 'vitest';
import { axisX, densestPct } from '../../machines/lab/worksheets/gradation-axes.ts';
import { type Readings, SHEETS, type SheetContext } from '../../machines/lab/worksheets/index.ts';
import { overloadG, reportedPlaces } from '../../machines/lab/worksheets/sieve-rules.ts';

const contextOf = (sieves: readonly number[]): SheetContext => ({
  nowAt: '2026-05-12T12:00:00',
  sieves,
  sampleMassG: null,
});

const sheetOf = (dryG: number, held: Readonly<Record<number, number>>, panG: number): Readings => ({
  of: 'stockpile',
  dryG,
  sieveMm: '305',
  portions: 1,
  panG,
  endedAt: '2026-05-12T11:00:00',
  ...Object.fromEntries(Object.entries(held).map(([mm, grams]) => [`retainedG:${mm}`, grams])),
});

const workOut = (readings: Readings, sieves: readonly number[]) => {
  const out = SHEETS.sieve.workOut(readings, contextOf(sieves));
  if (!out.ok) throw new Error(JSON.stringify(out.because));
  return out;
};

describe('worked sieve analysis of 508 g (university soil laboratory hand-out; masses published, % computed)', () => {
  const HELD = { 4.75: 0, 2.36: 33, 2: 57, 1.18: 86, 0.6: 145, 0.3: 40, 0.15: 73, 0.075: 58 };
  const PASSING = [
    [4.75, 100],
    [2.36, 93.5],
    [2, 82.28],
    [1.18, 65.35],
    [0.6, 36.81],
    [0.3, 28.94],
    [0.15, 14.57],
    [0.075, 3.15],
  ] as const;
  const sieves = PASSING.map(([mm]) => mm);
  const out = workOut(sheetOf(508, HELD, 16), sieves);

  it.each(PASSING)('%f mm passes %f % (±0.01)', (mm, pct) => {
    const found = out.results.find(({ property }) => property === `passing:${mm}`);
    expect(Math.abs((found?.exact ?? Number.NaN) - pct)).toBeLessThanOrEqual(0.01);
  });

  it('is reported whole, 75 µm to 0.1 (ASTM C136)', () => {
    expect(out.results.map(({ reported }) => reported)).toEqual([
      '100 %',
      '94 %',
      '82 %',
      '65 %',
      '37 %',
      '29 %',
      '15 %',
      '3.1 %',
    ]);
  });
});

describe('second published example', () => {
  it('8800.0 of 13050.0 g on 4.75 mm: 67.4 % retained, 32.6 % passes', () => {
    const out = workOut(sheetOf(13_050, { 4.75: 8800 }, 4250), [4.75]);
    expect(out.results[0]).toMatchObject({ property: 'passing:4.75', value: 32.6 });
  });
});

describe('wash loss by ASTM C117', () => {
  it('5168.7 g before and 4911.3 g after is 4.98 % (field guide example, from memory)', () => {
    const readings = { ...sheetOf(5168.7, { 4.75: 3000 }, 1911.3), washedG: 4911.3 };
    const line = workOut(readings, [4.75]).working.find(({ label }) => label === 'Wash loss');
    expect(line?.value).toBeCloseTo(4.98, 2);
    // the base stays the mass before washing: (5168.7 − 3000.0) of 5168.7 pass 4.75 mm
    expect(workOut(readings, [4.75]).results[0]?.exact).toBeCloseTo(41.958, 3);
  });
});

describe('rules of ASTM C136', () => {
  it('0.3 % may be lost, more is refused, and more coming out than went in is refused with other words', () => {
    const at = (panG: number) => SHEETS.sieve.workOut(sheetOf(1000, { 4.75: 500 }, panG), contextOf([4.75]));
    expect(at(500).ok).toBe(true);
    expect(at(497).ok).toBe(true);
    expect(at(503).ok).toBe(true);
    for (const [panG, words] of [
      [496.9, /0\.31 % was lost/],
      [503.1, /more than the 1000\.0 g put on them/],
    ] as const) {
      const out = at(panG);
      expect(out).toMatchObject({ ok: false });
      if (!out.ok) expect(out.because.map(({ message }) => message).join()).toMatch(words);
    }
  });

  it.each([
    // [sieve, passing before rounding, kept, reported]
    [4.75, 36.811, 36.8, '37 %'],
    [0.075, 3.149, 3.1, '3.1 %'],
    [0.075, 10.4, 10.4, '10 %'],
    [0.075, 9.96, 10, '10.0 %'],
    // two steps, as the standard writes it: 65.46 is computed as 65.5 and reported as 66; ties go to even (ASTM E29)
    [4.75, 65.46, 65.5, '66 %'],
    [4.75, 64.46, 64.5, '64 %'],
  ])('%f mm, %f %: computed to %f, reported as %s', (mm, pct, kept, reported) => {
    const retainedG = 100_000 - 1000 * pct;
    const out = workOut(sheetOf(100_000, { [mm]: retainedG }, 100_000 - retainedG), [mm]);
    expect(out.results[0]).toMatchObject({ value: kept, reported });
  });

  it('reports one place on 75 µm below 10 % only', () => {
    expect([reportedPlaces(0.075, 9.94), reportedPlaces(0.075, 10), reportedPlaces(0.15, 5)]).toEqual([
      1, 0, 0,
    ]);
  });

  it('lets at most 200 g lie on a 203 mm sieve and 469 g on a 305 mm one below 4.75 mm', () => {
    expect(overloadG(2.36, '203')).toBe(200);
    expect(overloadG(0.075, '305')).toBe(469);
    // both are 7 kg/m² on the sieving area
    expect(7000 * 0.067).toBeCloseTo(469, 9);
  });

  it('lets 2.5 × opening × area lie on coarser ones: 9.5 mm on 203 mm, 677 g (by hand: 2.5 × 9.5 × 0.0285 kg)', () => {
    expect(overloadG(9.5, '203')).toBeCloseTo(676.9, 1);
    // 4.75 mm belongs to the coarser rule
    expect(overloadG(4.75, '203')).toBeCloseTo(338.4, 1);
  });

  it('says which sieve was overloaded, and what more portions allow', () => {
    const readings = { ...sheetOf(1000, { 2.36: 450 }, 550), sieveMm: '203' };
    expect(workOut(readings, [2.36]).departures.join()).toMatch(/2\.36 mm was overloaded: 450 g/);
    expect(workOut({ ...readings, portions: 3 }, [2.36]).departures).toEqual([]);
  });

  it('takes at most 0.5 % in one more minute by hand', () => {
    const readings = sheetOf(1000, { 4.75: 500 }, 500);
    expect(workOut({ ...readings, furtherPct: 0.5 }, [4.75]).departures).toEqual([]);
    expect(workOut({ ...readings, furtherPct: 0.6 }, [4.75]).departures).toHaveLength(1);
    expect(workOut(readings, [4.75]).notes.join()).toMatch(/was not checked/);
  });
});

describe('0.45-power chart (openings raised to 0.45 as printed on the FHWA chart, from memory; ±0.005)', () => {
  it.each([
    [19, 3.762],
    [12.5, 3.116],
    [9.5, 2.754],
    [4.75, 2.016],
    [2.36, 1.472],
    [1.18, 1.077],
    [0.6, 0.795],
    [0.3, 0.582],
    [0.15, 0.426],
    [0.075, 0.312],
  ])('%f mm stands at %f', (mm, at) => {
    const extent = { finestMm: 0.075, coarsestMm: 19 };
    expect(Math.abs(axisX('power', mm, extent) * 3.762 - at)).toBeLessThanOrEqual(0.005);
  });

  it('has its line of greatest density straight: half way along the axis half passes', () => {
    const half = 19 * 0.5 ** (1 / 0.45);
    expect(axisX('power', half, { finestMm: 0.075, coarsestMm: 19 })).toBeCloseTo(0.5, 12);
    expect(densestPct(half, 19)).toBeCloseTo(50, 12);
  });
});
