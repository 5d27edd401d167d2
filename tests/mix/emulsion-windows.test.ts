/** A mix file may not ask for emulsion that is too hot or frozen. */
import { expect, it } from 'vitest';
import { EMULSION_MAX_C } from '../../machines/mix/published.ts';
import { mixSchema } from '../../machines/scenario/mix.schema.ts';
import { cutbackMix, emulsionMix } from '../plant/demo.ts';

type Windows = typeof emulsionMix.windows;

/** Paths and words of what is wrong with a mix whose windows are changed. */
const findings = (mix: typeof emulsionMix, change: Partial<Windows>): string[] => {
  const result = mixSchema.safeParse({ ...mix, windows: { ...mix.windows, ...change } });
  return result.success ? [] : result.error.issues.map((one) => `${one.path.join('.')}: ${one.message}`);
};

it('the hottest an emulsion may be is 85 °C (AEMA storage advice)', () => {
  expect(EMULSION_MAX_C).toBe(85);
});

it('an emulsion mix may go up to 85 °C in both windows, and down to just above freezing', () => {
  expect(findings(emulsionMix, { aggregateC: { fromC: 50, toC: 85 } })).toEqual([]);
  expect(findings(emulsionMix, { binderC: { fromC: 0.5, toC: 85 } })).toEqual([]);
});

it('an emulsion mix above 85 °C or at 0 °C is refused, each fault at its own place', () => {
  expect(findings(emulsionMix, { binderC: { fromC: 10, toC: 85.5 } })).toEqual([
    'windows.binderC.toC: emulsion is never heated above 85 °C',
  ]);
  expect(findings(emulsionMix, { aggregateC: { fromC: 50, toC: 86 } })).toEqual([
    'windows.aggregateC.toC: emulsion never meets stone above 85 °C',
  ]);
  expect(findings(emulsionMix, { binderC: { fromC: 0, toC: 60 } })).toEqual([
    'windows.binderC.fromC: emulsion never freezes: give a temperature above 0 °C',
  ]);
  expect(
    findings(emulsionMix, { aggregateC: { fromC: 5, toC: 100 }, binderC: { fromC: -3, toC: 90 } }),
  ).toHaveLength(3);
});

it('a cutback mix has its own windows: its binder is hotter than any emulsion', () => {
  expect(findings(cutbackMix, { binderC: { fromC: 75, toC: 95 } })).toEqual([]);
});
