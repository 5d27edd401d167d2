/** Planning figures: minutes a batch takes against simulated days, heating by a balance worked by hand, what the plan is made from. */
import { describe, expect, it } from 'vitest';
import {
  batchMin,
  binderKgOfBatch,
  heatingMin,
  kindOf,
  type RunKind,
} from '../../machines/yard/patches/schedule/rates.ts';
import { scenarioOrError } from '../../server/scenarios/load.ts';

const demo = scenarioOrError('scenarios/shifts/plain-mixes.yaml');
const cold = scenarioOrError('scenarios/shifts/cold-day.yaml');
const mixOf = (scenario: typeof demo, id: string) => {
  const mix = scenario.mixes.find((one) => one.id === id);
  if (mix === undefined) throw new Error(id);
  return mix;
};
const emulsion = mixOf(demo, 'emulsion-patch');
const cutback = mixOf(demo, 'cutback-patch');
const warm = mixOf(cold, 'emulsion-cold-weather');

describe('a batch', () => {
  // A stand-in's whole simulated day of 8 h (`patchyard run`): 102 cold, 42 cutback, 41 warm batches.
  it.each([
    [emulsion, 'cold emulsion', 102, 0],
    [cutback, 'cutback', 42, 20],
    [warm, 'warm emulsion', 41, 20],
  ] as const)('takes what a simulated day shows (%#)', (mix, kind, batches, startMin) => {
    expect(kindOf(mix) satisfies RunKind).toBe(kind);
    const byPlan = (480 - startMin) / batchMin(mix);
    expect(Math.abs(byPlan - batches) / batches).toBeLessThan(0.05);
  });

  it('holds so much binder', () => {
    // 750 kg of stone and emulsion, 7.5 % on stone: 750 × 7.5 / 107.5 = 52.33 kg.
    expect(binderKgOfBatch(emulsion)).toBeCloseTo(52.326, 3);
  });
});

describe('heating', () => {
  const { plant } = demo;
  const heats = (startC: number, fromC: number, massKg: number) =>
    heatingMin(
      { ...plant, tanks: { ...plant.tanks, cutback: { ...plant.tanks.cutback, startC } } },
      { family: 'cutback', windows: { ...cutback.windows, binderC: { fromC, toC: fromC + 20 } } },
      massKg,
    );

  it('takes no time when the tank is warm enough', () => {
    expect(heatingMin(plant, cutback)).toBe(0);
  });

  it('takes what the heat balance says', () => {
    // 8000 kg × 2.0 kJ/(kg·K) × 20 K = 320 000 kJ; 70 kW less 45 W/K × (75 − 10) K = 2.925 kW leave 67.075 kW: 4771 s = 79.5 min.
    expect(heats(55, 75, 8000)).toBe(80);
    // Half as much takes half as long, to the minute.
    expect(heats(55, 75, 4000)).toBe(40);
  });

  it('is endless when the heater only keeps up with the losses', () => {
    expect(
      heatingMin(
        { ...plant, oilHeater: { ...plant.oilHeater, powerKw: 1 } },
        { family: 'emulsion', windows: warm.windows },
      ),
    ).toBe(Number.POSITIVE_INFINITY);
  });
});
