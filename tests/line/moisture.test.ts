/** A newer moisture test corrects what is weighed from then on, is on record, and outlasts a save. */
import { expect, it } from 'vitest';
import { loadLine, saveLine } from '../../machines/line/create.ts';
import { binsNow, presentMix, targetsOf } from '../../machines/line/lookup.ts';
import { seatedYard } from './yard.ts';

const wetKg = (yard: ReturnType<typeof seatedYard>): number[] =>
  targetsOf(yard.line, presentMix(yard.line)).parts.map((part) => part.wetKg);

it('weighs more of a wetter bin, from the next weigh-up on', () => {
  const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 1 });
  const under = yard.line.weighers.aggregateWeigher.tasks.map((task) => task.targetKg);
  const before = binsNow(yard.line)[2]?.testedMoisturePct as number;
  yard.does({ do: 'setMoisture', bin: 3, pct: before + 4, source: 'T-260414-1' }, 'quality officer');
  expect(yard.line.weighers.aggregateWeigher.tasks.map((task) => task.targetKg)).toEqual(under);
  expect(yard.told('moistureSet')).toMatchObject([
    { bin: 3, was: before, now: before + 4, source: 'T-260414-1', by: { role: 'quality officer' } },
  ]);
  const share = (kgs: readonly number[]): number => (kgs[2] as number) / (kgs[0] as number);
  const dry = seatedYard('emulsion-day');
  expect(share(wetKg(yard)) / share(wetKg(dry))).toBeCloseTo((100 + before + 4) / (100 + before), 6);
});

it('refuses a bin that is not there and the same figure again, and leaves the scenario as it was', () => {
  const yard = seatedYard('emulsion-day');
  const now = binsNow(yard.line)[0]?.testedMoisturePct as number;
  const asked = { do: 'setMoisture', source: 'by hand' } as const;
  expect(yard.refused({ ...asked, bin: 4, pct: 3 })).toEqual(['This plant has 3 bins.']);
  expect(yard.refused({ ...asked, bin: 1, pct: now })[0]).toContain(`for ${now} % moisture already`);
  const scenario = yard.line.scenario;
  yard.does({ ...asked, bin: 1, pct: now + 1 });
  expect(yard.line.scenario).toBe(scenario);
});

it('outlasts a save of the line', () => {
  const yard = seatedYard('emulsion-day').does({ do: 'setMoisture', bin: 2, pct: 7.7, source: 'by hand' });
  const back = loadLine(yard.line.scenario, JSON.parse(JSON.stringify(saveLine(yard.line))));
  expect(binsNow(back)[1]?.testedMoisturePct).toBe(7.7);
});

it('weighs parts in whole kilograms whose sum is that of the batch', () => {
  const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 1 });
  const exact = wetKg(yard).reduce((sum, kg) => sum + kg, 0);
  const asked = yard.line.weighers.aggregateWeigher.tasks.map((task) => task.targetKg);
  expect(asked.every(Number.isInteger)).toBe(true);
  expect(asked.reduce((sum, kg) => sum + kg, 0)).toBe(Math.round(exact));
});
