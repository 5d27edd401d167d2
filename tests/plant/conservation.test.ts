/** Nothing is lost and nothing appears: mass to a microgram-scale rounding error, heat to its own. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EQUIPMENT_FAULTS, type FieldAsk, type Outputs } from '../../machines/field/outputs.ts';
import { TAG_NAMES } from '../../machines/field/tags.ts';
import { chargeTargets } from '../../machines/mix/batch-targets.ts';
import { STONE_CP_KJ_KG_K, WATER_CP_KJ_KG_K, WATER_LATENT_KJ_KG } from '../../machines/mix/published.ts';
import { DRUM_STEEL_KJ_PER_K } from '../../machines/plant/dryer.ts';
import { type Plant, stepPlant } from '../../machines/plant/plant.ts';
import { truthOf } from '../../machines/plant/truth.ts';
import { cutbackMix, demoPlant, demoSpec, run } from './demo.ts';
import { discharge, lightBurner, mixEmulsion, weigh } from './sequences.ts';

const opening = fc.constantFrom('shut' as const, 'dribble' as const, 'full' as const);
const bool = fc.boolean();
/** Any outputs at all: also what no control would ever ask. */
const anyOutputs: fc.Arbitrary<Outputs> = fc.record({
  bin1Gate: opening,
  bin2Gate: opening,
  bin3Gate: opening,
  bin4Gate: opening,
  hopperTo: fc.constantFrom('shut' as const, 'mixer' as const, 'dryer' as const),
  drumTurn: bool,
  drumFan: bool,
  burnerPilot: bool,
  burnerMain: fc.constantFrom('shut' as const, 'low' as const, 'high' as const),
  drumDischarge: bool,
  coolingFan: bool,
  holdingGate: opening,
  emulsionFeed: opening,
  cutbackFeed: opening,
  bucketValve: bool,
  waterValve: bool,
  antiStripPump: bool,
  pugMill: bool,
  mixerGate: bool,
  belt: bool,
  beltToBay: fc.constantFrom(0, 1, 2, 3, 9, -1, 1.5, Number.NaN),
  hoodFan: bool,
  oilPump: bool,
  oilBurner: bool,
  emulsionCoil: bool,
  cutbackCoil: bool,
  emulsionStir: bool,
  cutbackStir: bool,
});
const anyAsk: fc.Arbitrary<FieldAsk> = fc.oneof(
  fc.record({ ask: fc.constant('refillBin' as const), bin: fc.integer({ min: -1, max: 6 }) }),
  fc.record({
    ask: fc.constant('equipmentFault' as const),
    equipment: fc.constantFrom(...EQUIPMENT_FAULTS),
    on: bool,
  }),
  fc.record({ ask: fc.constant('emergencyStop' as const), pressed: bool }),
  fc.record({
    ask: fc.constant('instrumentFault' as const),
    tag: fc.constantFrom(...TAG_NAMES),
    fault: fc.constantFrom(
      null,
      { fault: 'stuck' as const },
      { fault: 'dead' as const },
      { fault: 'noisy' as const },
      { fault: 'drift' as const, perHour: 3 },
    ),
  }),
);
const anyStretch = fc.record({
  outputs: anyOutputs,
  asks: fc.array(anyAsk, { maxLength: 2 }),
  steps: fc.integer({ min: 1, max: 1200 }),
});

const notFitForJson = (value: unknown, path = 'plant'): string | null => {
  if (typeof value === 'number') {
    // JSON turns −0 into 0, so a saved plant would differ from the one that went on
    if (Object.is(value, -0)) return `${path} is -0`;
    return Number.isFinite(value) ? null : `${path} is ${value}`;
  }
  if (value === undefined) return `${path} is undefined`;
  if (value === null || typeof value !== 'object') return null;
  for (const [key, inner] of Object.entries(value)) {
    const trouble = notFitForJson(inner, `${path}.${key}`);
    if (trouble !== null) return trouble;
  }
  return null;
};

const negativeMass = (plant: Plant): string | null => {
  const { mill, bucket, hopper, dryer, holdingBin, belt } = plant;
  const masses = {
    stone: mill.stoneKg,
    free: mill.freeKg,
    bound: mill.boundKg,
    absorbed: mill.absorbedKg,
    solvent: mill.solventKg,
    bitumen: mill.bitumenKg,
    emulsion: bucket.emulsionKg,
    cutback: bucket.cutbackKg,
    hopper: hopper.heap.stoneKg,
    drum: dryer.load.stoneKg,
    drumWater: dryer.load.waterKg,
    holding: holdingBin.heap.stoneKg,
    belt: belt.nearKg,
    vapour: plant.hood.vapourKg,
  };
  for (const [name, kg] of Object.entries(masses)) if (kg < -1e-9) return `${name} ${kg}`;
  return null;
};

describe('mass', () => {
  it('balances whatever the outputs ask, faults and refills included', () => {
    fc.assert(
      fc.property(fc.array(anyStretch, { minLength: 1, maxLength: 12 }), fc.nat(), (stretches, seed) => {
        let plant = demoPlant(seed);
        for (const { outputs, asks, steps } of stretches) {
          plant = stepPlant(plant, outputs, asks);
          for (let i = 1; i < steps; i += 1) plant = stepPlant(plant, outputs, []);
          expect(Math.abs(truthOf(plant).errorKg)).toBeLessThan(1e-6);
          expect(notFitForJson(plant)).toBeNull();
          expect(negativeMass(plant)).toBeNull();
        }
        const { outputs } = stretches[0] as (typeof stretches)[number];
        let copy: Plant = JSON.parse(JSON.stringify(plant));
        for (let i = 0; i < 50; i += 1) {
          plant = stepPlant(plant, outputs, []);
          copy = stepPlant(copy, outputs, []);
        }
        expect(JSON.stringify(copy)).toBe(JSON.stringify(plant));
      }),
      { numRuns: 20 },
    );
  }, 60_000);

  it('balances to below a milligram over 8 hours of one batch after another', () => {
    let plant = demoPlant(4);
    let batches = 0;
    while (plant.tick < 288_000) {
      plant = discharge(mixEmulsion(plant), 1 + (batches % 3));
      for (let bin = 1; bin <= 3; bin += 1)
        plant = run(plant, 0.1, { belt: true }, [{ ask: 'refillBin', bin }]);
      batches += 1;
    }
    plant = run(plant, 60, { belt: true, beltToBay: 1, pugMill: true, mixerGate: true });
    const truth = truthOf(plant);
    expect(batches).toBeGreaterThan(80);
    expect(Math.abs(truth.errorKg)).toBeLessThan(1e-6);
    expect(truth.laidKg.reduce((a, b) => a + b, 0)).toBeGreaterThan(batches * 730);
    expect(truth.heldKg).toBeLessThan(1);
  }, 60_000);
});

describe('heat in the dryer', () => {
  it('fire = warmed stone, water and steel + steam + losses, to 1e-9 of itself', () => {
    let plant = weigh(demoPlant(2), chargeTargets(cutbackMix, demoSpec.bins, 1000).parts, {});
    plant = run(plant, 60, { hopperTo: 'dryer', drumTurn: true, drumFan: true });
    plant = lightBurner(plant);
    const from = plant.dryer;
    const storedKj = (d: typeof from): number =>
      (d.load.stoneKg * STONE_CP_KJ_KG_K + d.load.waterKg * WATER_CP_KJ_KG_K + DRUM_STEEL_KJ_PER_K) *
      d.load.tempC;
    plant = run(plant, 300, { drumTurn: true, drumFan: true, burnerMain: 'high' });
    const to = plant.dryer;
    const steamKg = from.load.waterKg - to.load.waterKg;
    expect(steamKg).toBeGreaterThan(20);
    // each kg of steam left with 2257 kJ and its water's heat up to 100 °C (counted from 0 °C)
    const steamKj = steamKg * (WATER_LATENT_KJ_KG + WATER_CP_KJ_KG_K * 100);
    const fireKj = to.takenKj - from.takenKj;
    const found = storedKj(to) - storedKj(from) + steamKj + (to.lostKj - from.lostKj);
    expect(Math.abs(found - fireKj) / fireKj).toBeLessThan(1e-9);
  });
});
