/** What worksheets refuse: numbers that cannot be, said at the field, with what to do. */
import { describe, expect, it } from 'vitest';
import { diff, type Readings, type SheetContext } from '../../machines/lab/worksheets/index.ts';
import { minutesBetween, secondsOf } from '../../machines/lab/worksheets/plant-time.ts';
import { roundedTo, written } from '../../machines/lab/worksheets/rounding.ts';
import { typedNumber } from '../../machines/lab/worksheets/units.ts';
import { GOOD } from './worksheets-good.ts';
import { CONTEXT, refusalsOf, valuesOf } from './worksheets-support.ts';

type Case = readonly [sheet: keyof typeof GOOD, change: Readings, field: string | null, words: RegExp];

const CASES: readonly Case[] = [
  ['sieve', { 'retainedG:4.75': -3 }, 'retainedG:4.75', /cannot be negative.*tare/],
  ['sieve', { 'retainedG:4.75': 1200 }, 'retainedG:4.75', /more than was put on the sieves/],
  ['sieve', { panG: 1200 }, 'panG', /more than was put on the sieves/],
  ['sieve', { 'retainedG:2.36': 390 }, null, /1\.12 % was lost, at most 0\.3 %/],
  ['sieve', { 'retainedG:2.36': 410 }, null, /more than the 985\.0 g/],
  ['sieve', { washedG: 1010, 'retainedG:4.75': 305 }, 'washedG', /washing adds nothing/],
  ['sieve', { 'retainedG:4.75': '0.28 kg' }, 'retainedG:4.75', /enter 280/],
  ['sieve', { portions: 0 }, 'portions', /cannot be below 1/],
  ['sieve', { portions: 1.5 }, 'portions', /whole/],
  ['sieve', { 'retainedG:19': 5 }, 'retainedG:19', /no field/],
  ['extraction', { filterAfterG: 14.9 }, 'filterAfterG', /lighter after the test than empty/],
  ['extraction', { aggregateG: 1001 }, 'aggregateG', /heavier than the test portion/],
  ['extraction', { aggregateG: 990 }, 'aggregateG', /no binder is left/],
  ['extraction', { colour: 'dark' }, 'colour', /go on washing/],
  ['extraction', { portionG: '4.2 kg' }, 'portionG', /if 4\.2 kg is right, enter 4200/],
  ['extraction', { waterPct: 130 }, 'waterPct', /cannot be above 50 %/],
  ['extraction', { waterPct: 30, solventPct: 25 }, 'waterPct', /half of the mix/],
  [
    'extraction',
    { finesBy: 'ash', finesG: null, ashG: 0.1, extractMl: 100, aliquotMl: 200 },
    'aliquotMl',
    /more than all/,
  ],
  ['ignition', { beforeG: 2999 }, 'beforeG', /no more than the empty basket/],
  ['ignition', { afterG: 4001 }, 'afterG', /heavier after burning/],
  ['ignition', { afterG: 3000 }, 'afterG', /no aggregate is left/],
  ['ignition', { afterG: 3998 }, 'afterG', /no binder is left/],
  ['ignition', { afterG: 3100 }, 'afterG', /More than half/],
  ['ignition', { cured: 'as sampled', solventPct: 1 }, 'cured', /must not go into the furnace/],
  ['ignition', { solventPct: 9 }, 'solventPct', /cannot be above 5 %/],
  ['ignition', { furnaceC: 1200 }, 'furnaceC', /cannot be above 700 °C/],
  ['emulsion-residue', { 'afterG:2': 209 }, 'afterG:2', /lighter than empty/],
  ['emulsion-residue', { 'afterG:2': 261 }, 'afterG:2', /heavier after the oven/],
  ['emulsion-residue', { 'withG:1': 200 }, 'withG:1', /no more than empty/],
  ['cutback-residue', { 'distillateMl:316': 8 }, 'distillateMl:316', /only fills/],
  ['cutback-residue', { 'distillateMl:360': 210 }, 'distillateMl:360', /more than the sample/],
  ['cutback-residue', { 'distillateMl:360': 200 }, 'distillateMl:360', /no residue is left/],
  ['cutback-residue', { residueKgM3: 1.02 }, 'residueKgM3', /cannot be below 900 kg\/m³/],
  ['wet-coating', { firstPct: 130 }, 'firstPct', /more than all of it: enter at most 100 %/],
  ['wet-coating', { firstPct: 80 }, 'secondPct', /third person/],
  ['static-immersion', { immersedH: 0.5 }, 'immersedH', /no immersion test/],
  ['static-immersion', { secondPct: -5 }, 'secondPct', /cannot be below 0/],
  ['particle-count', { 'coated:1': 201 }, 'coated:1', /more coated than counted/],
  ['particle-count', { 'counted:1': 0 }, 'counted:1', /cannot be below 1/],
  ['water-resistance', { secondPct: 130 }, 'secondPct', /at most 100 %/],
  ['water-resistance', { waterMl: 700 }, 'waterMl', /cannot be above 600 ml/],
  ['water-resistance', { waterC: 130 }, 'waterC', /cannot be above 101 °C/],
  ['water-resistance', { stirredS: '3 min' }, 'stirredS', /enter 180/],
  ['water-resistance', { portionG: 0 }, 'portionG', /weigh 50 g/],
  ['workability', { middleC: -20 }, 'middleC', /cannot be colder than the cabinet/],
  ['workability', { portionG: '2.5 kg' }, 'portionG', /enter 2500/],
  ['bond', { load: 0 }, 'load', /Before it was loaded/],
  ['bond', { load: 0.18 * 9.80665 * 1000, loadUnit: 'kN' }, 'load', /unit that was chosen/],
  ['bond', { diameterMm: 10.16 }, 'diameterMm', /cannot be below 90 mm/],
  ['binder-delivery', { waterMl: 20, waterSampleMl: 10 }, 'waterMl', /More water/],
  ['binder-delivery', { densityC: null }, 'densityC', /missing/],
  ['aggregate', { flakyG: 1001 }, 'flakyG', /More is flaky/],
  ['aggregate', { elongatedG: 851 }, 'elongatedG', /only what is not flaky/],
  ['aggregate', { shapeG: 0, flakyG: 0, elongatedG: 0 }, 'shapeG', /weigh it/],
  [
    'aggregate',
    { what: 'impact', impactG: 350, impactPassingG: 77, impactRetainedG: 270, impactBlows: 15 },
    'impactRetainedG',
    /3\.0 g, at most 1 g/,
  ],
  ['aggregate', { what: 'absorption', surfaceDryG: 1990, ovenDryG: 2000 }, 'ovenDryG', /exchanged/],
  [
    'aggregate',
    { what: 'absorption', surfaceDryG: 2020, ovenDryG: 2000, inWaterG: 2000 },
    'inWaterG',
    /in water/,
  ],
  [
    'aggregate',
    { what: 'cleanliness', 'clayMm:1': 60, 'sandMm:1': 80, 'clayMm:2': 100, 'sandMm:2': 64 },
    'sandMm:1',
    /above the clay/,
  ],
];

/** What belongs to another choice is left out, as the screen does. */
const withChange = (sheet: keyof typeof GOOD, change: Readings): Readings => {
  const base: Readings = GOOD[sheet];
  return 'what' in change ? { endedAt: base.endedAt as string, ...change } : { ...base, ...change };
};

describe('refused', () => {
  it.each(CASES)('%s %o at %s', (sheet, change, field, words) => {
    const because = refusalsOf(sheet, withChange(sheet, change));
    const messages = because.filter((refusal) => refusal.field === field).map(({ message }) => message);
    expect(messages.join('\n')).toMatch(words);
  });

  it.each(Object.keys(GOOD) as (keyof typeof GOOD)[])(
    '%s: a time to come, and before the sample was taken',
    (sheet) => {
      const later = refusalsOf(sheet, { ...GOOD[sheet], endedAt: '2026-05-12T12:00:01' });
      expect(later).toEqual([
        { field: 'endedAt', message: expect.stringMatching(/still to come/) as string },
      ]);
      const context: SheetContext = { ...CONTEXT, sampledAt: '2026-05-12T10:30:00' };
      expect(refusalsOf(sheet, GOOD[sheet], context)[0]).toMatchObject({
        field: 'endedAt',
        message: expect.stringMatching(/before the sample was taken/) as string,
      });
    },
  );

  it('a test that ended sooner after sampling than it can: bond takes 24 h', () => {
    const at = (sampledAt: string) => ({ ...CONTEXT, sampledAt });
    expect(refusalsOf('bond', GOOD.bond, at('2026-05-11T10:01:00'))[0]?.message).toMatch(
      /takes at least 24 h/,
    );
    expect(valuesOf('bond', GOOD.bond, at('2026-05-11T10:00:00'))).toMatchObject({ bondKgCm2: 2.22 });
  });

  it.each([
    ['extraction', 'portionG'],
    ['sieve', 'dryG'],
    ['workability', 'portionG'],
    ['water-resistance', 'portionG'],
    ['moisture', 'wetG'],
    ['ignition', 'beforeG'],
  ] as const)('%s: more weighed out than the sample held', (sheet, field) => {
    const because = refusalsOf(sheet, GOOD[sheet], { ...CONTEXT, sampleMassG: 40 });
    expect(because).toEqual([
      {
        field,
        message: expect.stringMatching(/more than there was of the sample to test \(40\.0 g\)/) as string,
      },
    ]);
  });

  it('the wrong unit is told what it would be', () => {
    expect(typedNumber('4.2 kg', 'g')).toEqual({
      ok: false,
      message: '"4.2 kg" is not in g: if 4.2 kg is right, enter 4200',
    });
    expect(typedNumber('20 °F', '°C')).toMatchObject({
      message: expect.stringMatching(/enter −6\.666667/) as string,
    });
    expect(typedNumber('3 min', 's')).toMatchObject({
      message: expect.stringMatching(/enter 180/) as string,
    });
    expect(typedNumber('3 bananas', 's')).toMatchObject({
      message: expect.stringMatching(/enter a number in s/) as string,
    });
    for (const text of ['470.2', ' 470.2 ', '470.2 g', '470.2g', '470.2 grams', '+470.2'])
      expect(typedNumber(text, 'g')).toEqual({ ok: true, value: 470.2 });
    expect(typedNumber('−7', '°C')).toEqual({ ok: true, value: -7 });
    expect(typedNumber('95 percent', '%')).toEqual({ ok: true, value: 95 });
    for (const text of ['', 'abc', '1e5', '0x10', '1.2.3', '--4', '12 34'])
      expect(typedNumber(text, 'g')).toMatchObject({ ok: false });
    for (const text of ['1,234', '470,2', '1.234,5'])
      expect(typedNumber(text, 'g')).toMatchObject({ message: expect.stringMatching(/comma/) as string });
  });
});

describe('corrections', () => {
  it('name each field that changed, with what was and what is', () => {
    expect(diff({ a: 1, b: '2', c: null, d: 4 }, { a: 1, b: '3', c: '', e: 5 })).toEqual([
      { field: 'b', was: '2', now: '3' },
      { field: 'd', was: 4, now: null },
      { field: 'e', was: null, now: 5 },
    ]);
    expect(diff(GOOD.bond, { ...GOOD.bond })).toEqual([]);
  });
});

describe('times and rounding', () => {
  it('count over midnight, months and leap days', () => {
    expect(minutesBetween('2026-05-12T23:50', '2026-05-13T00:10:30')).toBe(20.5);
    expect(minutesBetween('2028-02-28T12:00', '2028-03-01T12:00')).toBe(2 * 1440);
    expect(minutesBetween('2026-12-31T12:00', '2027-01-01T12:00')).toBe(1440);
    for (const text of [
      '2026-02-29T10:00',
      '2026-13-01T10:00',
      '2026-05-12T24:00',
      '2026-05-12 10:00',
      '10:00',
      '',
    ])
      expect(secondsOf(text)).toBeNull();
  });

  it('round a tie to the even digit (ASTM E29) although binary numbers are never quite ties', () => {
    expect([0.5, 1.5, 2.5, -0.5, -1.5].map((value) => roundedTo(value, 0))).toEqual([0, 2, 2, 0, -2]);
    expect(roundedTo(2.675, 2)).toBe(2.68);
    expect(roundedTo(2.665, 2)).toBe(2.66);
    expect(roundedTo(1.005, 2)).toBe(1);
    expect(written(-7.04, 1)).toBe('−7.0');
    expect(written(-0.04, 1)).toBe('0.0');
  });
});
