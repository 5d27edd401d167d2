/** Every plant and mix file shipped passes its schema, and every mix can be made at every plant. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { batchTargets, dryTargets } from '../../machines/mix/batch-targets.ts';
import { mixSchema } from '../../machines/scenario/mix.schema.ts';
import { plantSchema } from '../../machines/scenario/plant.schema.ts';

const folder = (name: string): [string, unknown][] => {
  const url = new URL(`../../scenarios/${name}/`, import.meta.url);
  return readdirSync(url).map((file) => [file, parse(readFileSync(new URL(file, url), 'utf8'))]);
};

const plants = folder('plants').map(([file, content]) => ({ file, plant: plantSchema.parse(content) }));
const mixes = folder('mixes').map(([file, content]) => ({ file, mix: mixSchema.parse(content) }));

it('plant and mix files are named by their id', () => {
  for (const { file, plant } of plants) expect(file).toBe(`${plant.id}.yaml`);
  for (const { file, mix } of mixes) expect(file).toBe(`${mix.id}.yaml`);
  expect(plants.length).toBeGreaterThanOrEqual(1);
  expect(mixes.length).toBeGreaterThanOrEqual(3);
});

it('every mix fits every plant: bins, hopper, bucket, mixer', () => {
  for (const { plant } of plants)
    for (const { mix } of mixes) {
      const targets = mix.family === 'cutback' ? dryTargets(mix) : batchTargets(mix, plant.bins);
      const wetKg = targets.parts.reduce((sum, part) => sum + part.wetKg, 0);
      expect(wetKg).toBeLessThanOrEqual(plant.hopper.capacityKg);
      expect(targets.binderKg).toBeLessThanOrEqual(plant.bucket.capacityKg);
      expect(mix.batchKg).toBeLessThanOrEqual(plant.mixer.capacityKg);
    }
});

it('the solvent of a cutback mix is that of the tank it comes from', () => {
  for (const { plant } of plants)
    for (const { mix } of mixes)
      if (mix.family === 'cutback')
        expect(plant.tanks.cutback.solventMassPct).toBe(mix.binder.solventMassPct);
});

it('an emulsion mix calls for pre-wet water when the stone is dry, and for none when it is damp', () => {
  const { plant } = plants.find((one) => one.plant.id === 'demo-yard') ?? {};
  const { mix } = mixes.find((one) => one.mix.id === 'emulsion-patch') ?? {};
  if (plant === undefined || mix === undefined)
    throw new Error('the demo yard and its emulsion mix are shipped');
  expect(batchTargets(mix, plant.bins).waterKg).toBe(0);
  const dry = plant.bins.map((bin) => ({ ...bin, testedMoisturePct: 0.5 }));
  expect(batchTargets(mix, dry).waterKg).toBeGreaterThan(5);
});
