/** One name for one thing: what worksheets give is what specifications limit, in the same unit. */
import { describe, expect, it } from 'vitest';
import { propertyNamed, SHEETS } from '../../../machines/lab/worksheets/index.ts';
import { LAB_TESTS, PROPERTY_IDS, propertyOf, sieveOf } from '../../../machines/scenario/lab-tests.ts';

describe('properties', () => {
  it.each([...PROPERTY_IDS, 'passing:4.75', 'distillate:260'])('%s has one unit on sheet and limit', (id) => {
    expect(propertyNamed(id).unit).toBe(propertyOf(id)?.unit);
    expect(propertyNamed(id).label).not.toBe(id);
  });

  it('every kind of test a sheet is made for can be asked for by a specification', () => {
    for (const sheet of Object.values(SHEETS)) expect(LAB_TESTS).toContain(sheet.test);
  });

  it('an unknown id is no property, and a sieve must have an opening', () => {
    for (const id of [
      'coatdPct',
      'passing:',
      'passing:0',
      'passing:-1',
      'passing:1e9',
      'constructor',
      'toString',
    ])
      expect(propertyOf(id)).toBeNull();
    expect(sieveOf('passing:0.075')).toBe(0.075);
    expect(sieveOf('moisturePct')).toBeNull();
  });
});
