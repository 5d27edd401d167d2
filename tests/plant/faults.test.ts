/** The burner's needs, the faults of equipment, the emergency stop, weather and refills. */
import { describe, expect, it } from 'vitest';
import type { EquipmentFault, FieldAsk } from '../../machines/field/outputs.ts';
import { airC } from '../../machines/plant/ambient.ts';
import { truthOf } from '../../machines/plant/truth.ts';
import { demoPlant, run, steady18 } from './demo.ts';
import { lightBurner, weighEmulsion } from './sequences.ts';

const AIR = { drumFan: true, drumTurn: true } as const;
const fault = (equipment: EquipmentFault): FieldAsk[] => [{ ask: 'equipmentFault', equipment, on: true }];

describe('dryer burner', () => {
  it('lights main fuel from the pilot and keeps burning without it', () => {
    const plant = lightBurner(demoPlant());
    expect(plant.readings.flameSeen).toBe(1);
    expect(plant.readings.fuelValveShut).toBe(0);
  });

  it('never lights main fuel without a pilot: fuel stays in the drum as vapour', () => {
    const plant = run(demoPlant(), 30, { drumTurn: true, burnerMain: 'high' });
    expect(plant.readings.flameSeen).toBe(0);
    expect(truthOf(plant).drumFuelLelPct).toBeGreaterThan(100);
    expect(run(plant, 60, { ...AIR, burnerMain: 'high' }).readings.flameSeen).toBe(0);
  });

  it('puffs when a pilot meets fuel that was not purged, and does not after a purge', () => {
    const wet = run(demoPlant(), 60, { drumTurn: true, burnerMain: 'high' });
    expect(truthOf(run(wet, 3, { ...AIR, burnerPilot: true })).puffs).toBe(1);
    const purged = run(wet, 40, AIR);
    expect(truthOf(run(purged, 3, { ...AIR, burnerPilot: true })).puffs).toBe(0);
  });

  it('does not light without air, and goes out when the fan is lost', () => {
    expect(run(demoPlant(), 5, { drumTurn: true, burnerPilot: true }).readings.flameSeen).toBe(0);
    const lit = lightBurner(demoPlant());
    const starved = run(lit, 15, { ...AIR, burnerMain: 'low' }, fault('drumFanStopped'));
    expect(starved.readings.flameSeen).toBe(0);
  });

  it('does not light when it will not light', () => {
    const plant = run(
      run(demoPlant(), 20, AIR),
      5,
      { ...AIR, burnerPilot: true },
      fault('flameWillNotLight'),
    );
    expect(plant.readings.flameSeen).toBe(0);
  });

  it('proves the fuel valve shut only at its seat, about a second after the order', () => {
    const lit = run(lightBurner(demoPlant()), 2, { ...AIR, burnerMain: 'high' });
    expect(run(lit, 0.5, AIR).readings.fuelValveShut).toBe(0);
    expect(run(lit, 1.2, AIR).readings.fuelValveShut).toBe(1);
    expect(run(lit, 3, AIR).readings.flameSeen).toBe(0);
  });

  it('a leaking fuel valve is not proved shut and keeps a small flame', () => {
    const plant = run(lightBurner(demoPlant()), 20, AIR, fault('fuelValveLeaking'));
    expect(plant.readings.fuelValveShut).toBe(0);
    expect(plant.readings.flameSeen).toBe(1);
  });
});

describe('binder valve', () => {
  it('takes half a second and proves its seat', () => {
    const full = run(weighEmulsion(demoPlant(), {}), 3, {});
    expect(full.readings.bucketValveShut).toBe(1);
    const open = run(full, 0.3, { bucketValve: true });
    expect(open.readings.bucketValveShut).toBe(0);
    expect(run(open, 0.6, {}).readings.bucketValveShut).toBe(1);
  });

  it('leaking: binder reaches the mixer through a valve ordered shut, and the switch says so', () => {
    const full = run(weighEmulsion(demoPlant(), {}), 3, {});
    const leaking = run(full, 60, {}, fault('binderValveLeaking'));
    expect(leaking.readings.bucketValveShut).toBe(0);
    expect(leaking.readings.bucketKg).toBeLessThan(full.readings.bucketKg - 3);
    expect(truthOf(leaking).mixKg).toBeGreaterThan(3);
  });

  it('keeps emulsion and cutback apart by mass in a mixed-up bucket', () => {
    let plant = run(demoPlant(), 5, { emulsionFeed: 'full' });
    plant = run(run(plant, 5, { cutbackFeed: 'full' }), 3, {});
    expect(plant.bucket.emulsionKg).toBeGreaterThan(10);
    expect(plant.bucket.cutbackKg).toBeGreaterThan(10);
    const share = plant.bucket.cutbackKg / (plant.bucket.cutbackKg + plant.bucket.emulsionKg);
    const drained = run(plant, 4, { bucketValve: true });
    expect(drained.bucket.cutbackKg / (drained.bucket.cutbackKg + drained.bucket.emulsionKg)).toBeCloseTo(
      share,
      9,
    );
  });
});

describe('pumps and fans', () => {
  it('an oil pump that stopped is seen by its flow switch', () => {
    const running = run(demoPlant(), 10, { oilPump: true });
    expect(running.readings.oilFlowing).toBe(1);
    expect(run(running, 10, { oilPump: true }, fault('oilPumpStopped')).readings.oilFlowing).toBe(0);
  });

  it('a hood fan that stopped runs down to nothing', () => {
    const running = run(demoPlant(), 20, {});
    expect(running.readings.hoodFlowM3S).toBe(1.5);
    expect(run(running, 30, {}, fault('hoodFanStopped')).readings.hoodFlowM3S).toBe(0);
  });
});

describe('emergency stop', () => {
  it('is hard-wired: fire, feeds and motors stop whatever is asked, the hood fan runs on', () => {
    const asked = { ...AIR, burnerMain: 'high', pugMill: true, emulsionFeed: 'full' } as const;
    const plant = run(run(lightBurner(demoPlant()), 2, asked), 5, asked, [
      { ask: 'emergencyStop', pressed: true },
    ]);
    expect(plant.readings.emergencyStop).toBe(1);
    expect(plant.readings.flameSeen).toBe(0);
    expect(plant.readings.fuelValveShut).toBe(1);
    expect(plant.readings.mixerMotorA).toBe(0);
    expect(plant.readings.hoodFlowM3S).toBeGreaterThan(1.4);
    const released = run(plant, 3, { pugMill: true }, [{ ask: 'emergencyStop', pressed: false }]);
    expect(released.readings.emergencyStop).toBe(0);
    expect(released.readings.mixerMotorA).toBeGreaterThan(10);
  });
});

describe('weather', () => {
  it('runs smoothly from the start value to the warmest at 15:00', () => {
    const weather = { startC: 8, warmestC: 20, rain: [] };
    expect(demoPlant(1, weather).readings.ambientC).toBe(8);
    expect(airC(weather, 420, 420)).toBeCloseTo(8, 9);
    expect(airC(weather, 420, 900)).toBe(20);
    for (let min = 421; min <= 900; min += 1) {
      const rise = airC(weather, 420, min) - airC(weather, 420, min - 1);
      expect(rise).toBeGreaterThan(0);
      expect(rise).toBeLessThan(0.05);
    }
    expect(run(demoPlant(1, weather), 3600, {}).readings.ambientC).toBeCloseTo(airC(weather, 420, 480), 0);
  });

  it('does not swing wildly when a shift starts close to 15:00', () => {
    const weather = { startC: 5, warmestC: 20, rain: [] };
    for (let min = 890; min < 1440; min += 10) expect(airC(weather, 890, min)).toBeGreaterThan(-11);
  });

  it('rain wets the bins slowly and shows on its gauge', () => {
    const weather = { ...steady18, rain: [{ fromMin: 10, toMin: 70, mmH: 12 }] };
    const wet = run(demoPlant(1, weather), 3600, {});
    expect(wet.readings.rainMmH).toBe(12);
    const after = run(wet, 3600, {});
    expect(after.readings.rainMmH).toBe(0);
    const [before = 0] = truthOf(demoPlant()).binMoisturePct;
    const [now = 0] = truthOf(after).binMoisturePct;
    expect(now - before).toBeGreaterThan(0.1);
    expect(now - before).toBeLessThan(1);
  });
});

describe('bins', () => {
  it('refill to capacity and ignore a bin that is not there', () => {
    const used = run(demoPlant(), 60, { bin2Gate: 'full', hopperTo: 'dryer', drumTurn: true });
    const full = run(used, 10, {}, [
      { ask: 'refillBin', bin: 2 },
      { ask: 'refillBin', bin: 4 },
    ]);
    expect(full.readings.bin2LevelPct).toBeGreaterThanOrEqual(99);
    expect(truthOf(full).binMoisturePct).toHaveLength(3);
    expect(full.readings.bin4LevelPct).toBe(0);
  });
});
