/** Blending by hand and writing single fields: shares always add to 100, and nothing else of the mix changes. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mixSchema } from '../../../machines/scenario/mix.schema.ts';
import { differences, NAMED_PATHS } from '../../../machines/yard/mixes/difference.ts';
import { fieldAt, withField } from '../../../machines/yard/mixes/fields.ts';
import { allShares, drawnShares, withShare } from '../../../machines/yard/mixes/hand-blend.ts';
import { coldMix, cutbackMix } from '../../plant/demo.ts';

const shares = (...pcts: number[]) => pcts.map((dryPct, i) => ({ bin: i + 1, dryPct }));

describe('shares by hand', () => {
  it('one bin up by 10: the others give in proportion, 60 and 40 of 100 become 50, 30 and 20', () => {
    expect(withShare(shares(50, 30, 20), 1, 50)).toEqual(shares(50, 30, 20));
    // 40 % left for 30 : 20, so 24 and 16.
    expect(withShare(shares(50, 30, 20), 1, 60)).toEqual(shares(60, 24, 16));
  });

  it('all of one bin, and back: what stood at nothing shares equally', () => {
    const all = withShare(shares(50, 30, 20), 1, 100);
    expect(all).toEqual(shares(100, 0, 0));
    expect(withShare(all, 1, 80)).toEqual(shares(80, 10, 10));
  });

  it('a single bin gives all', () => {
    expect(withShare(shares(100), 1, 30)).toEqual(shares(100));
  });

  it('adds to 100 in steps of 0.1 whatever is moved, and is a mix the schema takes', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            bin: fc.integer({ min: 1, max: 3 }),
            pct: fc.double({ min: -5, max: 105, noNaN: true }),
          }),
          {
            minLength: 1,
            maxLength: 8,
          },
        ),
        (moves) => {
          const end = moves.reduce((now, { bin, pct }) => withShare(now, bin, pct), shares(50, 35, 15));
          const sum = end.reduce((total, one) => total + Math.round(one.dryPct * 10), 0);
          expect(sum).toBe(1000);
          expect(end.every((one) => Math.abs(one.dryPct * 10 - Math.round(one.dryPct * 10)) < 1e-6)).toBe(
            true,
          );
          expect(mixSchema.safeParse({ ...cutbackMix, aggregates: drawnShares(end) }).success).toBe(true);
        },
      ),
      { numRuns: 100, seed: 31 },
    );
  });

  it('bins a mix does not draw from stand at 0', () => {
    expect(allShares([{ bin: 2, dryPct: 100 }], [1, 2, 3])).toEqual(shares(0, 100, 0));
  });
});

describe('fields by path', () => {
  it('reads what it wrote, and only that field differs', () => {
    for (const path of NAMED_PATHS) {
      const before = fieldAt(coldMix, path);
      const now = typeof before === 'number' ? before + 1 : 'otherwise';
      const changed = withField(coldMix, path, now);
      expect(fieldAt(changed, path)).toBe(now);
      if (path === 'family') continue;
      expect(differences(coldMix, changed).map((one) => one.path)).toEqual([path]);
    }
  });

  it('takes an optional field away and leaves the rest', () => {
    const with_ = withField(coldMix, 'specification', 'some');
    expect(withField(with_, 'specification', undefined)).not.toHaveProperty('specification');
  });

  it('never touches the mix it was given', () => {
    const text = JSON.stringify(coldMix);
    withField(coldMix, 'binder.viscosity.2.mm2S', 1);
    expect(JSON.stringify(coldMix)).toBe(text);
  });
});
