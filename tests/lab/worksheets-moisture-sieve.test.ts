/** Moisture and sieve sheets: their arithmetic by hand, and what they refuse. */
import { describe, expect, it } from 'vitest';
import { SHEETS } from '../../machines/lab/worksheets/index.ts';
import { CONTEXT, refusalsOf, valuesOf } from './worksheets-support.ts';

const MOISTURE = {
  material: 'aggregate',
  panG: 200,
  wetG: 1230.9,
  dryG: 1200,
  driedAgainG: 1200,
  ovenC: 110,
  endedAt: '2026-05-12T10:00',
};

describe('moisture', () => {
  it('is loss over dry mass: 30.9 g of 1000.0 g is 3.09 % (by hand)', () => {
    expect(valuesOf('moisture', MOISTURE)).toEqual({ moisturePct: 3.09 });
  });

  it('also tells it on the mass as sampled: 30.9 of 1030.9 g is 3.00 % (by hand)', () => {
    const out = SHEETS.moisture.workOut(MOISTURE, CONTEXT);
    if (!out.ok) throw new Error(JSON.stringify(out.because));
    const line = out.working.find(({ label }) => label.startsWith('The same'));
    expect(line?.value).toBeCloseTo(2.9974, 4);
    expect(line?.numbers).toBe('100 × 30.9 ÷ (1000 + 30.9)');
  });

  it.each([
    ['dry heavier than wet', { dryG: 1231 }, 'dryG', /heavier than wet/],
    ['negative mass', { wetG: -3 }, 'wetG', /cannot be negative/],
    ['empty pan as heavy as all', { panG: 1230.9 }, 'wetG', /no more than the empty pan/],
    ['time to come', { endedAt: '2026-05-13T10:00' }, 'endedAt', /still to come/],
    ['kilograms', { wetG: '1.2309 kg' }, 'wetG', /is not in g: if 1\.2309 kg is right, enter 1230\.9/],
    ['a decimal comma', { wetG: '1230,9' }, 'wetG', /comma/],
    ['Fahrenheit', { ovenC: '230 °F' }, 'ovenC', /enter 110/],
    ['nothing', { dryG: '' }, 'dryG', /is missing/],
    ['no such choice', { material: 'soup' }, 'material', /choose Aggregate or/],
    ['no such field', { soup: 3 }, 'soup', /no field/],
    ['no such day', { endedAt: '2026-02-30T10:00' }, 'endedAt', /no time/],
  ])('refuses %s', (_, change, field, words) => {
    const because = refusalsOf('moisture', { ...MOISTURE, ...change });
    expect(because.find((refusal) => refusal.field === field)?.message).toMatch(words);
  });
});
