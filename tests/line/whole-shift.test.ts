/** Whole shifts by the stand-in: same seed same facts, saved and restored mid-shift, replayed from what was recorded. */
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type { ReadingChanges } from '../../machines/field/tags.ts';
import type { CommandEnvelope } from '../../machines/line/commands.ts';
import { createLine } from '../../machines/line/create.ts';
import type { Fact } from '../../machines/line/facts.ts';
import { step } from '../../machines/line/step.ts';
import { truthOf } from '../../machines/plant/truth.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { advance, createWorld, loadWorld, saveWorld, type World } from '../../machines/world/world.ts';
import { scenarioOf } from './yard.ts';

type Tick = { changes: ReadingChanges | null; commands: readonly CommandEnvelope[]; facts: readonly Fact[] };

const standIn = (scenario: Scenario): CommandEnvelope => ({
  id: 'stand-in-begins',
  by: { person: 'wrenna', role: 'operator', console: 'console-1' },
  command: { do: 'standIn', skill: scenario.shift.standIn?.skill ?? 'good' },
});

const runShift = (scenario: Scenario, minutes: number, from?: World): { world: World; ticks: Tick[] } => {
  let world = from ?? createWorld(scenario);
  const ticks: Tick[] = [];
  for (let i = 0; i < minutes * 600; i += 1) {
    const advanced = advance(world, world.tick === 20 ? [standIn(scenario)] : []);
    world = advanced.world;
    ticks.push(advanced);
  }
  return { world, ticks };
};

const factsOf = (ticks: readonly Tick[]): Fact[] => ticks.flatMap((tick) => tick.facts);

describe('a shift', () => {
  it('is the same twice from the same seed, and another from another seed', () => {
    const scenario = scenarioOf('emulsion-day');
    const first = factsOf(runShift(scenario, 25).ticks);
    expect(factsOf(runShift(scenario, 25).ticks)).toEqual(first);
    const other = factsOf(runShift(scenarioOf('emulsion-day', { seed: 7 }), 25).ticks);
    expect(other).not.toEqual(first);
  });

  it('goes on from a save as if it had never been stopped', () => {
    const scenario = scenarioOf('cutback-day');
    const half = runShift(scenario, 9.37);
    const straight = runShift(scenario, 6, half.world);
    const saved = JSON.parse(JSON.stringify(saveWorld(half.world)));
    const restored = runShift(scenario, 6, loadWorld(scenario, saved));
    expect(factsOf(restored.ticks)).toEqual(factsOf(straight.ticks));
    expect(saveWorld(restored.world)).toEqual(saveWorld(straight.world));
  });

  it('is decided again, fact for fact, by a line fed nothing but recorded readings and commands', () => {
    const scenario = scenarioOf('cutback-day');
    const { ticks } = runShift(scenario, 70);
    let line = createLine(scenario, scenario.shift.seed);
    for (const recorded of ticks) {
      const again: Fact[] = [];
      for (const envelope of recorded.commands) {
        const stepped = step(line, { input: 'command', envelope });
        line = stepped.line;
        again.push(...stepped.facts);
      }
      const readings = recorded.changes === null ? line.readings : { ...line.readings, ...recorded.changes };
      const stepped = step(line, { input: 'tick', readings });
      line = stepped.line;
      again.push(...stepped.facts);
      if (again.length > 0 || recorded.facts.length > 0) expect(again).toEqual(recorded.facts);
    }
  });

  it('books what the plant really moved, to the weighing error of its scales', () => {
    const scenario = scenarioOf('emulsion-day');
    let world = runShift(scenario, 60).world;
    // Up to a moment at which mill and belt are empty: just after a batch was booked.
    const done = world.line.batchesDone;
    while (world.line.batchesDone === done) world = advance(world, []).world;
    const truth = truthOf(world.plant);
    const laidKg = truth.laidKg.reduce((sum, kg) => sum + kg, 0);
    const bookedKg = world.line.lots.reduce((sum, lot) => sum + lot.grams, 0) / 1000;
    expect(world.line.batchesDone).toBeGreaterThan(10);
    expect(Math.abs(truth.errorKg)).toBeLessThan(1e-6);
    // Scales of 1 kg and 0.1 kg, a dozen batches: within 0.3 %, far less than one batch.
    expect(Math.abs(laidKg - bookedKg)).toBeLessThan(0.003 * bookedKg);
  });
});

describe('a save', () => {
  /** Every key of a save by its path; lists by their first row, so that the shape and not the day is seen. */
  const shapeOf = (value: unknown, path = ''): string[] => {
    if (Array.isArray(value)) return value.length === 0 ? [] : shapeOf(value[0], `${path}[]`);
    if (typeof value !== 'object' || value === null) return [path];
    return Object.entries(value).flatMap(([key, inner]) => shapeOf(inner, `${path}.${key}`));
  };

  it('has the shape its version says: when this fails, raise STATE_VERSION and record the new digest', () => {
    const saved = saveWorld(runShift(scenarioOf('emulsion-day'), 6).world) as Record<string, unknown>;
    // Values that come and go with the moment are left out: what charts wait for, marks, alarms, what the bench knows.
    const shape = shapeOf(saved).filter(
      (path) => !/^\.line\.(charts|timers|alarms|marks|blocks|held)|^\.truths\./.test(path),
    );
    const digest = createHash('sha256').update(shape.sort().join('\n')).digest('hex').slice(0, 16);
    expect([saved.version, digest]).toEqual([6, 'b8049ba8d14b4383']);
  });

  it('of another version is refused in words', () => {
    const scenario = scenarioOf('emulsion-day');
    const saved = saveWorld(createWorld(scenario)) as object;
    expect(() => loadWorld(scenario, { ...saved, version: 1 })).toThrow('saved as state 1');
  });
});

describe('a reckless shift', () => {
  it('is refused every flame over cutback, with reasons, and never trips', () => {
    const { world, ticks } = runShift(scenarioOf('reckless-day'), 130);
    const refused = factsOf(ticks).filter((fact) => fact.is === 'commandRefused');
    expect(refused.length).toBeGreaterThan(0);
    for (const fact of refused) {
      expect(fact.command).toBe('lightBurner');
      expect(fact.because.join(' ')).toMatch(/FI-1\d/);
    }
    expect(world.line.trips).toBe(0);
  });
});
