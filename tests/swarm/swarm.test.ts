/**
 * Random histories of the whole yard, each checked five ways. The seed stands in the test's name;
 * `SEED=n npx vitest run -c tests/vitest.config.ts tests/swarm` repeats one, `SEEDS=40` runs so many from there.
 */
import { describe, expect, it } from 'vitest';
import { scenarioOf } from '../line/yard.ts';
import { interlockChecker } from './checkers/interlock.ts';
import { whyNotAlive } from './checkers/liveness.ts';
import { massChecker } from './checkers/mass.ts';
import { refusalChecker } from './checkers/refusals.ts';
import { replayChecker } from './checkers/replay.ts';
import { runHistory } from './history.ts';

const MINUTES = 75;
const first = Number(process.env.SEED ?? 20_260_413);
const count = Number(process.env.SEEDS ?? (process.env.SEED === undefined ? 6 : 1));
const seeds = Array.from({ length: count }, (_, at) => first + at);

const yardOf = (seed: number) =>
  scenarioOf('cutback-day', {
    orders: [
      { mix: 'emulsion-patch', tonnes: 20, bay: 1 },
      { mix: 'cutback-patch', tonnes: 20, bay: 2 },
    ],
    mixes: ['mixes/emulsion-patch.yaml', 'mixes/cutback-patch.yaml'],
    seed,
  });

const swarmOf = (seed: number) => {
  const scenario = yardOf(seed);
  const checkers = [interlockChecker(), massChecker(), refusalChecker(), replayChecker(scenario)];
  return runHistory(scenario, seed, MINUTES, checkers);
};

describe('a swarm of whims and faults', { timeout: 180_000 }, () => {
  it.each(seeds)('seed %i: interlock, mass, refusals, replay and liveness hold', (seed) => {
    const history = swarmOf(seed);
    const told = `reproduce: SEED=${seed} npx vitest run -c tests/vitest.config.ts tests/swarm\n${JSON.stringify(history.options)}`;
    expect(history.findings, told).toEqual([]);
    // A history in which nobody managed anything would prove nothing.
    expect(history.commandsDone, told).toBeGreaterThan(8);
    expect(whyNotAlive(history.world), told).toBeNull();
  });

  it('the same seed gives the same history', () => {
    const one = runHistory(yardOf(first), first, 10, []);
    const two = runHistory(yardOf(first), first, 10, []);
    expect(JSON.stringify(two.world.line)).toBe(JSON.stringify(one.world.line));
    expect(two.faults).toBe(one.faults);
  });
});
