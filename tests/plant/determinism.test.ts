/** Same seed, same plant; and a plant that went through JSON goes on as if it had not. */
import { expect, it } from 'vitest';
import { AT_REST, type Outputs } from '../../machines/field/outputs.ts';
import { type Plant, stepPlant } from '../../machines/plant/plant.ts';
import { demoPlant } from './demo.ts';

const at = (i: number): Outputs => ({
  ...AT_REST,
  bin1Gate: i % 900 < 200 ? 'full' : 'shut',
  bin3Gate: i % 900 > 250 && i % 900 < 300 ? 'dribble' : 'shut',
  hopperTo: i % 900 > 400 && i % 900 < 600 ? (i > 3000 ? 'dryer' : 'mixer') : 'shut',
  drumFan: i > 2500,
  drumTurn: i > 2500,
  burnerPilot: i > 2900 && i < 3000,
  burnerMain: i > 2950 ? 'high' : 'shut',
  cutbackFeed: i % 700 < 100 ? 'full' : 'shut',
  bucketValve: i % 700 > 300,
  pugMill: i % 2000 > 300,
  mixerGate: i % 2000 > 1700,
  belt: true,
  beltToBay: 2,
});

const on = (plant: Plant, from: number, to: number): Plant => {
  let next = plant;
  for (let i = from; i < to; i += 1) next = stepPlant(next, at(i), []);
  return next;
};

it('gives the same plant twice from one seed, another from another', () => {
  const one = JSON.stringify(on(demoPlant(7), 0, 6000));
  expect(JSON.stringify(on(demoPlant(7), 0, 6000))).toBe(one);
  expect(JSON.stringify(on(demoPlant(8), 0, 6000))).not.toBe(one);
});

it('continues identically after JSON at any moment', () => {
  let straight = demoPlant(7);
  for (let from = 0; from < 6000; from += 600) {
    const copy: Plant = JSON.parse(JSON.stringify(straight));
    straight = on(straight, from, from + 600);
    expect(JSON.stringify(on(copy, from, from + 600))).toBe(JSON.stringify(straight));
  }
});

it('never changes the plant it was given', () => {
  let plant = on(demoPlant(7), 0, 3500);
  for (let i = 3500; i < 3600; i += 1) {
    const before = JSON.stringify(plant);
    const next = stepPlant(plant, at(i), [{ ask: 'refillBin', bin: 1 }]);
    expect(JSON.stringify(plant)).toBe(before);
    plant = next;
  }
});
