/** What is typed into worksheets, what they give before they are whole, and the pictures' scales. */
import { describe, expect, it } from 'vitest';
import { sieveShare } from '../../client/lab/plot/gradation-plot.tsx';
import { atStep, roundScale, spread } from '../../client/lab/plot/spread.ts';
import { aimOf } from '../../client/lab/trends/aim.ts';
import { csvOf } from '../../client/lab/trends/series.ts';
import { soFar } from '../../client/lab/worksheets/preview.ts';
import { SETTINGS } from '../../client/lab/worksheets/settings.ts';
import { leftS } from '../../client/lab/worksheets/timers.ts';
import { isAsked, readingsToSend, stillWanted, wholeTime } from '../../client/lab/worksheets/typing.ts';
import { chart } from '../../machines/lab/stats/index.ts';
import { fieldsOf, SHEETS, type SheetContext } from '../../machines/lab/worksheets/index.ts';

const NOW = '2026-05-13T14:05:30';
const context: SheetContext = {
  nowAt: NOW,
  sieves: [12.5, 9.5, 4.75],
  sampleMassG: 4000,
  sampledAt: '2026-05-12T06:00:00',
};

describe('times typed in short', () => {
  it.each([
    ['n', '2026-05-13T14:05'],
    ['14:05', '2026-05-13T14:05'],
    ['905', '2026-05-13T09:05'],
    ['9.05', '2026-05-13T09:05'],
    ['2026-05-12 09:05', '2026-05-12T09:05'],
    ['25:00', '25:00'],
    ['soon', 'soon'],
  ])('%s is %s', (typed, whole) => expect(wholeTime(typed, NOW)).toBe(whole));
});

describe('fields', () => {
  const fields = fieldsOf(SHEETS.extraction, { finesBy: 'weighed' }, context);

  it('a field with a condition is asked only when that was chosen', () => {
    const ash = SHEETS.extraction.fields.find(({ key }) => key === 'ashG');
    expect(ash).toBeDefined();
    if (ash === undefined) return;
    expect(isAsked(ash, { finesBy: 'weighed' })).toBe(false);
    expect(isAsked(ash, { finesBy: 'ash' })).toBe(true);
  });

  it('what is wanted is what is neither filled in nor optional; only what is filled in is sent', () => {
    const wanted = stillWanted(fields, { portionG: '1500', waterPct: ' ' }).map(({ key }) => key);
    expect(wanted).toContain('waterPct');
    expect(wanted).not.toContain('portionG');
    expect(readingsToSend(fields, { portionG: ' 1500 ', waterPct: ' ', ashG: '3' })).toEqual({
      portionG: '1500',
    });
  });

  it('what stays from sheet to sheet is equipment, never a reading or a judgement', () => {
    const kept = Object.values(SHEETS).flatMap((sheet) =>
      sheet.fields.filter(({ key }) => SETTINGS.includes(key)).map(({ kind }) => kind),
    );
    expect(kept.length).toBeGreaterThan(10);
    for (const kind of ['mass', 'temp', 'percent', 'time'] as const) expect(kept).not.toContain(kind);
    for (const key of ['colour', 'broke', 'parted']) expect(SETTINGS).not.toContain(key);
  });
});

describe('a sheet that is not whole yet', () => {
  const sieve = (readings: { readonly [key: string]: string }) =>
    soFar(SHEETS.sieve, fieldsOf(SHEETS.sieve, readings, context), readings, context);

  it('a sieve analysis gives what passes the sieves weighed so far, as the whole sheet will', () => {
    const part = sieve({ dryG: '1000', 'retainedG:12.5': '0', 'retainedG:9.5': '100' });
    expect(part?.results.map(({ property, value }) => [property, value])).toEqual([
      ['passing:12.5', 100],
      ['passing:9.5', 90],
    ]);
    const whole = SHEETS.sieve.workOut(
      {
        of: 'stockpile',
        dryG: '1000',
        sieveMm: '305',
        portions: '4',
        'retainedG:12.5': '0',
        'retainedG:9.5': '100',
        'retainedG:4.75': '500',
        panG: '400',
        endedAt: NOW,
      },
      context,
    );
    expect(whole.ok && whole.results.find(({ property }) => property === 'passing:9.5')?.value).toBe(90);
  });

  it('nothing is made up: no base, a gap at the coarsest sieve or a negative mass give nothing', () => {
    expect(sieve({ 'retainedG:12.5': '0' })).toBeNull();
    expect(sieve({ dryG: '1000', 'retainedG:9.5': '100' })).toBeNull();
    expect(sieve({ dryG: '1000', 'retainedG:12.5': '-4' })).toBeNull();
  });
});

describe('pictures', () => {
  it('0.45-power axis: 9.5 mm of 19 mm stands at 0.5^0.45 = 0.732; on the log axis decades are equally wide', () => {
    expect(sieveShare(9.5, 19, 'power')).toBeCloseTo(0.732, 3);
    expect(sieveShare(19, 19, 'log')).toBeCloseTo(1, 12);
    const decade = (from: number) => sieveShare(10 * from, 50, 'log') - sieveShare(from, 50, 'log');
    expect(decade(0.1)).toBeCloseTo(decade(1), 12);
  });

  it('words are moved apart, keep their order and stay inside', () => {
    expect(spread([10, 12, 50], 15, 0, 100)).toEqual([10, 25, 50]);
    const placed = spread([99, 98, 97], 15, 0, 100);
    expect([...placed].sort((a, b) => a - b)).toEqual([70, 85, 100]);
    expect(placed[2]).toBeLessThan(placed[1] ?? 0);
  });

  it('a scale has round steps, holds everything and does not go below nothing for what never is', () => {
    const { min, max, ticks } = roundScale([4.56, 5.0, 4.5, 5.5]);
    expect(ticks.map((tick) => Number((tick * 100).toFixed(6)) % 10)).toEqual(ticks.map(() => 0));
    expect(min).toBeLessThanOrEqual(4.5);
    expect(max).toBeGreaterThanOrEqual(5.5);
    expect(roundScale([0, 0.3, 0.5]).min).toBe(0);
    expect(roundScale([]).ticks.length).toBeGreaterThan(1);
    expect(atStep(-0.25, 0.05)).toBe('−0.25');
  });
});

describe('timed steps', () => {
  it('run by when they were started, not by whether the page was open', () => {
    const timer = {
      id: 'x#1',
      of: '',
      step: '',
      path: '',
      startedMs: 1_000_000,
      seconds: 180,
      sound: false,
      rung: false,
    };
    expect(leftS(timer, 1_000_000)).toBe(180);
    expect(leftS(timer, 1_060_000)).toBe(120);
    expect(leftS(timer, 1_240_000)).toBe(-60);
  });
});

describe('trends as a file', () => {
  const lots = [5.0, 4.9, 4.96, 4.64, 4.5].map((value, i) => ({
    lot: `26051${i}-1`,
    at: `2026-05-1${i}T06:00:00`,
    value,
    operator: i === 0 ? '=2+2' : 'wrenna',
  }));

  it('has a row a lot with everything drawn, and nothing that a spreadsheet would take for a formula', () => {
    const rows = csvOf(chart(lots, { centre: 5, sigma: 0.13 }), 'residualBinderMixPct').split('\r\n');
    expect(rows).toHaveLength(lots.length + 2);
    expect(rows[0]?.split(',').slice(0, 4)).toEqual([
      'lot',
      'opened',
      'residualBinderMixPct',
      'moving range',
    ]);
    expect(rows[1]).toContain(",'=2+2,");
    expect(rows[2]?.split(',')[3]).toBe('0.1');
    expect(rows[5]).toContain('individuals: beyond the limits');
  });

  it('charts aim at what the mix is dosed for: 7.5 % of a 60 % emulsion is 4.31 % of mix, 4.50 % of aggregate', () => {
    const view = {
      mixes: [{ id: 'm', version: 1, specification: 's', binder: { dosePct: 7.5, residueMassPct: 60 } }],
      specifications: [{ id: 's', version: 1, frequencies: { 'binder content': 2 } }],
    } as never;
    expect(aimOf(view, 'm', 'residualBinderMixPct')?.centre).toBeCloseTo(4.306, 3);
    expect(aimOf(view, 'm', 'residualBinderAggPct')?.centre).toBeCloseTo(4.5, 12);
    expect(aimOf(view, 'm', 'residualBinderMixPct')?.sigma).toBeCloseTo(0.18 / Math.SQRT2, 12);
    expect(aimOf(view, 'm', 'bondKgCm2')).toBeNull();
  });
});
