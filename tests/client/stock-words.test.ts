/** What people type into the yard's forms, and how masses are said. */
import { describe, expect, it } from 'vitest';
import { difference, mass, numberOf, when } from '../../client/yard/stock/words.ts';

describe('a number as typed', () => {
  it.each([
    ['8 000', 8000],
    ['80,5', 80.5],
    ['80.5', 80.5],
    ['−7', -7],
    [' 50 ', 50],
  ])('%s is %d', (text, value) => {
    expect(numberOf(text)).toBe(value);
  });

  it.each(['', '   ', '1.234,5', '1,234.5', '12 kg', 'abc'])('"%s" is none', (text) => {
    expect(numberOf(text)).toBeNaN();
  });
});

describe('words', () => {
  it('say masses in kilograms below a tonne and in tonnes above, with their sign for differences', () => {
    expect([mass(0), mass(51.7), mass(300), mass(1234.5)]).toEqual(['0 kg', '51.7 kg', '300 kg', '1.23 t']);
    expect([difference(12), difference(-620.4), difference(0)]).toEqual(['+12 kg', '−620 kg', '0 kg']);
  });

  it('say a time with its day, and a day with its year', () => {
    expect([when('2026-04-14T11:02:00'), when('2026-04-14')]).toEqual(['14 Apr, 11:02', '14 Apr 2026']);
  });
});
