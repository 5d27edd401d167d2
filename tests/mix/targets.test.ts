/** Batch targets: shares add up, moisture is on dry mass, water already there is taken off. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  batchTargets,
  blendMoisturePct,
  chargeTargets,
  dryTargets,
} from '../../machines/mix/batch-targets.ts';
import type { BinSpec } from '../../machines/scenario/plant.schema.ts';
import { cutbackMix, demoSpec, emulsionMix } from '../plant/demo.ts';

const binWith = (testedMoisturePct: number): BinSpec => ({
  name: 'stone',
  size: '0–10 mm',
  capacityKg: 1000,
  startKg: 500,
  testedMoisturePct,
  trueMoisturePct: testedMoisturePct,
  absorptionPct: 1,
  fullFlowKgS: 10,
  dribbleKgS: 1,
});

describe('batchTargets', () => {
  it('of bone-dry stone: 750 kg = dry × (1 + 0.015 + 0.075)', () => {
    const targets = batchTargets(emulsionMix, [binWith(0), binWith(0), binWith(0)]);
    expect(targets.dryKg).toBeCloseTo(750 / 1.09, 9);
    expect(targets.waterKg).toBeCloseTo((750 / 1.09) * 0.015, 9);
    expect(targets.binderKg).toBeCloseTo((750 / 1.09) * 0.075, 9);
    expect(targets.antiStripKg).toBe(0);
  });

  it('takes the moisture already there off the pre-wet water', () => {
    const targets = batchTargets(emulsionMix, [binWith(0.5), binWith(1), binWith(2)]);
    const moisture = 0.45 * 0.5 + 0.35 * 1 + 0.2 * 2;
    expect((100 * targets.waterKg) / targets.dryKg).toBeCloseTo(1.5 - moisture, 9);
  });

  it('adds no water to stone wetter than the pre-wet, and takes none away', () => {
    const targets = batchTargets(emulsionMix, [binWith(5), binWith(5), binWith(5)]);
    expect(targets.waterKg).toBe(0);
    expect(targets.dryKg).toBeCloseTo(750 / (1 + 0.05 + 0.075), 9);
  });

  it('always weighs the batch of the mix, whatever the moisture', () => {
    const pct = fc.double({ min: 0, max: 15, noNaN: true });
    fc.assert(
      fc.property(pct, pct, pct, (a, b, c) => {
        const targets = batchTargets(emulsionMix, [binWith(a), binWith(b), binWith(c)]);
        const wetKg = targets.parts.reduce((sum, part) => sum + part.wetKg, 0);
        const dryKg = targets.parts.reduce((sum, part) => sum + part.dryKg, 0);
        expect(wetKg + targets.waterKg + targets.binderKg + targets.antiStripKg).toBeCloseTo(750, 8);
        expect(dryKg).toBeCloseTo(targets.dryKg, 8);
        expect(targets.waterKg).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('says which bin is missing', () => {
    expect(() => batchTargets(emulsionMix, [binWith(1)])).toThrow(
      'the mix draws from bin 2, the plant has 1',
    );
  });
});

describe('dryTargets', () => {
  it('make the batch from dry stone, binder and anti-strip alone', () => {
    const targets = dryTargets(cutbackMix);
    expect(targets.dryKg + targets.binderKg + targets.antiStripKg).toBeCloseTo(750, 9);
    expect(targets.binderKg / targets.dryKg).toBeCloseTo(0.055, 12);
    expect(targets.antiStripKg / targets.binderKg).toBeCloseTo(0.008, 12);
    expect(targets.waterKg).toBe(0);
  });
});

describe('chargeTargets', () => {
  it('split a wet charge so that its dry parts stand in the shares of the mix', () => {
    const charge = chargeTargets(cutbackMix, demoSpec.bins, 1000);
    expect(charge.parts.reduce((sum, part) => sum + part.wetKg, 0)).toBeCloseTo(1000, 9);
    expect((charge.parts[0]?.dryKg ?? 0) / charge.dryKg).toBeCloseTo(0.5, 12);
    const moisture = blendMoisturePct(cutbackMix, demoSpec.bins);
    expect(moisture).toBeGreaterThan(4);
    expect(moisture).toBeLessThan(5);
    expect(charge.dryKg * (1 + moisture / 100)).toBeCloseTo(1000, 9);
  });
});
