/** Dose against limit, and other things a specification and a mix cannot both mean. */
import { describe, expect, it } from 'vitest';
import { contradictionsOf } from '../../../machines/lab/judge/contradictions.ts';
import { shippedMix, shippedSpecification, smallSpecification } from './support.ts';

const mix = shippedMix('emulsion-patch');
const dosed = (dosePct: number, residueMassPct = 60) => ({
  ...mix,
  binder: { ...mix.binder, dosePct, residueMassPct },
});
const spec = smallSpecification();
const known = { absorptionPct: 0.8 };

describe('dose against residual binder', () => {
  it('7 % of a 60 % emulsion is 4.20 % of aggregate and 4.03 % of mix, below 4.5 %', () => {
    const [found] = contradictionsOf(spec, dosed(7), known);
    expect(found?.kind).toBe('aim');
    expect(found?.value).toBeCloseTo((100 * 4.2) / 104.2, 10);
    expect(found?.words).toBe(
      '7 % of dry aggregate of a binder with 60 % residue is 4.20 % of aggregate, 4.03 % of mix; the limit is 4.5 to 5.5 % of mix. A dose of 7.85 % would just meet it.',
    );
  });

  it('is held against a limit of aggregate where the specification sets one', () => {
    const ofAggregate = smallSpecification({
      limits: spec.limits.map((limit, i) =>
        i === 0 ? { ...limit, property: 'residualBinderAggPct' } : limit,
      ),
    });
    const [found] = contradictionsOf(ofAggregate, dosed(7), known);
    expect(found?.value).toBeCloseTo(4.2, 10);
    expect(found?.words).toContain('4.5 to 5.5 % of aggregate. A dose of 7.50 % would just meet it.');
  });

  it('the dose it names does meet the limit', () => {
    const dose = Number(
      /dose of ([\d.]+) %/.exec(contradictionsOf(spec, dosed(7), known)[0]?.words ?? '')?.[1],
    );
    expect(contradictionsOf(spec, dosed(dose), known).filter((one) => one.kind === 'aim')).toEqual([]);
  });

  it('also names a dose too high', () => {
    const [found] = contradictionsOf(spec, dosed(10), known);
    expect(found?.kind).toBe('aim');
    expect(found?.words).toContain('A dose of 9.70 % would just meet it');
  });

  it('says when the weighing tolerance alone can carry it outside', () => {
    // 7.8 % gives 4.47, rounded 4.5: within; 1.5 % less gives 4.41, rounded 4.4: outside.
    const [found] = contradictionsOf(spec, dosed(7.8), known);
    expect(found?.kind).toBe('edge');
    expect(found?.words).toContain('4.41 to 4.53 %');
  });

  it('finds nothing wrong with a dose in the middle', () => {
    expect(contradictionsOf(spec, dosed(8.75), known)).toEqual([]);
  });
});

describe('other contradictions', () => {
  it('a mix of another family', () => {
    const found = contradictionsOf(spec, { ...dosed(8.75), family: 'cutback' }, known);
    expect(found[0]).toMatchObject({ kind: 'family' });
    expect(
      contradictionsOf(
        smallSpecification({ family: 'either' }),
        { ...dosed(8.75), family: 'cutback' },
        known,
      ),
    ).toEqual([]);
  });

  it('shares of stone whose grading lies outside, by the gradings of the bins', () => {
    const graded = smallSpecification({
      limits: [
        ...spec.limits,
        { property: 'passing:1.18', from: 0, to: 10, unit: '%', source: 'test', status: 'published' },
      ],
    });
    const gradings = new Map([
      [1, [{ sieveMm: 1.18, passingPct: 2 }]],
      [2, [{ sieveMm: 1.18, passingPct: 5 }]],
      [3, [{ sieveMm: 1.18, passingPct: 55 }]],
    ]);
    const found = contradictionsOf(graded, dosed(8.75), { ...known, gradings });
    // 45 % of 2, 35 % of 5 and 20 % of 55.
    expect(found[0]?.value).toBeCloseTo(13.65, 10);
    expect(found[0]?.words).toContain('13.7 % through 1.18 mm, and the limit is 0 to 10 %');
    expect(contradictionsOf(graded, dosed(8.75), known)).toEqual([]);
  });

  it('limits that leave one value alone for stone that drinks much', () => {
    const shipped = shippedSpecification('emulsion-patch');
    const windows = (absorptionPct: number | null) =>
      contradictionsOf(shipped, null, { absorptionPct }).filter((one) => one.kind === 'window');
    expect(windows(null)[0]?.words).toContain(
      'leave 5.5 % alone for stone that drinks more than 1.5 % water',
    );
    expect(windows(1.8)).toHaveLength(1);
    expect(windows(0.8)).toEqual([]);
  });

  it('samples no limit judges', () => {
    const found = contradictionsOf(
      smallSpecification({ frequencies: { 'binder content': 2, bond: 1 } }),
      null,
      known,
    );
    expect(found.map((one) => one.words)).toEqual(['1 sample of bond is asked for, and no limit judges it.']);
  });
});
