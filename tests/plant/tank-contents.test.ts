/** What gets into a tank is conserved: deliveries, water, foam over the top; and boiling takes the heat it takes. */
import { describe, expect, it } from 'vitest';
import { AT_REST, type FieldAsk } from '../../machines/field/outputs.ts';
import { saturatedLelPct, solventMoleShare } from '../../machines/mix/solvent.ts';
import { createPlant, type Plant, stepPlant } from '../../machines/plant/plant.ts';
import { truthOf } from '../../machines/plant/truth.ts';
import { scenarioOf } from '../line/yard.ts';

const SCENARIO = scenarioOf('cutback-day');
const plantWith = (change: Partial<Parameters<typeof createPlant>[0]> = {}, startC = 82): Plant =>
  createPlant({
    spec: {
      ...SCENARIO.plant,
      tanks: { ...SCENARIO.plant.tanks, cutback: { ...SCENARIO.plant.tanks.cutback, startC } },
    },
    mixes: SCENARIO.mixes,
    weather: SCENARIO.shift.weather,
    startsAtMin: 360,
    seed: 5,
    ...change,
  });
const turn = (plant: Plant, seconds: number, asks: readonly FieldAsk[] = []): Plant => {
  let next = stepPlant(plant, AT_REST, asks);
  for (let i = 1; i < seconds * 10; i += 1) next = stepPlant(next, AT_REST, []);
  return next;
};
/** start + delivered = held + given + spilled + boiled + drawn off, for a tank that gives nothing. */
const errorKg = (before: Plant, after: Plant, tank: 'emulsionTank' | 'cutbackTank'): number => {
  const { massKg, deliveredKg, spilledKg, boiledKg, drawnOffKg } = after[tank];
  return before[tank].massKg + deliveredKg - massKg - spilledKg - boiledKg - drawnOffKg;
};

describe('a tank', () => {
  it('takes what is delivered, to the gram, and its temperature meets by mass', () => {
    const start = plantWith();
    const after = turn(start, 60, [
      { ask: 'delivery', tank: 'cutback', product: 'cutback', kg: 500, kgS: 10 },
    ]);
    expect(after.cutbackTank.massKg - start.cutbackTank.massKg).toBeCloseTo(500, 6);
    expect(errorKg(start, after, 'cutbackTank')).toBeCloseTo(0, 9);
    const mixedC = (8000 * 82 + 500 * 85) / 8500;
    expect(after.cutbackTank.tempC).toBeCloseTo(mixedC, 1);
  });

  it('overfilled, spills what finds no room', () => {
    const start = plantWith();
    const after = turn(start, 900, [
      { ask: 'delivery', tank: 'emulsion', product: 'emulsion', kg: 9000, kgS: 12 },
    ]);
    expect(truthOf(after).tanksSpilledKg).toBeGreaterThan(1000);
    expect(errorKg(start, after, 'emulsionTank')).toBeCloseTo(0, 6);
  });

  it('gives both binders in the share they are mixed in, and the plant balances with them', () => {
    let plant = plantWith({ tanks: { emulsion: { otherBinderKg: 1900 } } });
    const start = plant;
    for (let i = 0; i < 100; i += 1) plant = stepPlant(plant, { ...AT_REST, emulsionFeed: 'full' }, []);
    const gaveKg = start.emulsionTank.massKg - plant.emulsionTank.massKg;
    const { bucket } = plant;
    const solventKg = bucket.cutbackKg + bucket.fallingCutbackKg;
    expect(gaveKg).toBeGreaterThan(10);
    expect(solventKg / gaveKg).toBeCloseTo(1900 / (9500 + 1900), 6);
    expect(Math.abs(truthOf(plant).errorKg)).toBeLessThan(1e-6);
  });

  it('emulsion pumped into hot cutback breaks: its water sinks, and what is drawn is binder alone', () => {
    const start = plantWith();
    const after = turn(start, 60, [
      { ask: 'delivery', tank: 'cutback', product: 'emulsion', kg: 500, kgS: 10 },
    ]);
    const { waterKg, otherKg } = after.cutbackTank;
    expect(waterKg).toBeCloseTo(500 * start.emulsion.waterShare, 3);
    expect(waterKg + otherKg).toBeCloseTo(500, 3);
    expect(after.readings.cutbackWaterMm).toBeGreaterThan(20);
  });

  it('water boils off above 95 °C, cools the contents by its latent heat, and what foams over is spilled', () => {
    const start = plantWith({ tanks: { cutback: { waterKg: 60 } } }, 108);
    const after = turn(start, 240);
    const { boiledKg, massKg, tempC, seen } = after.cutbackTank;
    expect(boiledKg).toBeGreaterThan(20);
    expect(errorKg(start, after, 'cutbackTank')).toBeCloseTo(0, 6);
    // 2257 kJ/kg at 100 °C: latent heat of water, handbook value.
    const cooledC = (boiledKg * 2257) / (massKg * seen.cpKjKgK);
    const lostC = (45 * (108 - 10) * 240) / 1000 / massKg / seen.cpKjKgK;
    expect(108 - tempC).toBeCloseTo(cooledC + lostC, 0);
    const over = turn(plantWith({ tanks: { cutback: { waterKg: 900 } } }, 125), 240);
    expect(truthOf(over).tanksSpilledKg).toBeGreaterThan(0);
  });

  it('foam lifts the dip as long as it boils, and sinks again once the water is drawn off', () => {
    const hot = turn(plantWith({ tanks: { cutback: { waterKg: 200 } } }, 112), 60);
    expect(hot.readings.cutbackDipMm - hot.cutbackTank.seen.dipM * 1000).toBeGreaterThan(50);
    const dry = turn(hot, 120, [{ ask: 'drawWater', tank: 'cutback' }]);
    expect(dry.cutbackTank.foamM).toBe(0);
    expect(dry.cutbackTank.drawnOffKg).toBeGreaterThan(0);
  });

  it('vents little at rest and much while it is filled, in proportion to the vapour over its contents', () => {
    const start = plantWith();
    const still = turn(start, 5).cutbackTank.ventLelPct;
    const filling = turn(start, 5, [
      { ask: 'delivery', tank: 'cutback', product: 'cutback', kg: 5000, kgS: 12 },
    ]).cutbackTank.ventLelPct;
    const solventKg = 8000 * start.cutback.solventShare;
    const gas = saturatedLelPct(82, solventMoleShare(8000 - solventKg, solventKg));
    expect(still).toBeCloseTo((gas * 0.0003) / 0.0503, 1);
    expect(filling).toBeGreaterThan(8 * still);
    expect(turn(start, 5).emulsionTank.ventLelPct).toBe(0);
  });

  it('without supply all stops and all shuts, the hood fan too, and the switch says so', () => {
    const start = turn(plantWith(), 20);
    expect(start.readings.hoodFlowM3S).toBeGreaterThan(1);
    let plant = stepPlant(start, AT_REST, [{ ask: 'equipmentFault', equipment: 'powerDip', on: true }]);
    for (let i = 0; i < 200; i += 1)
      plant = stepPlant(plant, { ...AT_REST, pugMill: true, bucketValve: true, burnerPilot: true }, []);
    expect(plant.readings.powerOk).toBe(0);
    expect(plant.readings.hoodFlowM3S).toBeLessThan(0.1);
    expect([plant.bucket.valveShare, plant.mill.speed, plant.dryer.burner.pilotS]).toEqual([0, 0, 0]);
  });
});
