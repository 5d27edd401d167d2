/** Brings a line up from its store, or a new shift, with a runner that drives it. */

import { whyClockBehind } from './clock-watch.ts';
import { Journal } from './journal.ts';
import { type AnyWorld, SYSTEM_CLOCK } from './line-engine.ts';
import { LineRunner } from './line-runner.ts';
import { keepScenarios } from './next-shift.ts';
import { restore } from './restore.ts';
import type { PlantRunner, RunnerOptions } from './runner.types.ts';

export type { PlantRunner, Runner, RunnerOptions, Shown } from './runner.types.ts';

/** Restores the line from its store or sets up a new shift; nothing is written to the record before `begin`. */
export const openRunner = async <W extends AnyWorld>(options: RunnerOptions<W>): Promise<PlantRunner> => {
  const { engine, store, clock = SYSTEM_CLOCK, log: say = () => undefined } = options;
  const found = await restore(engine, store, options.scenario, options.newShift ?? false, say);
  const wallOf = () => new Date(clock.wallMs()).toISOString();
  const journal = new Journal(store, wallOf, await store.tail(), found.world.tick);
  if (found.opening !== null) {
    await keepScenarios(store, found.files, { scenario: found.scenario, opening: found.opening });
    journal.opening(found.opening);
  }
  for (const { what, detail } of found.notes) journal.note(what, detail, found.world.atMs);
  const behind = await whyClockBehind(store, clock);
  if (behind !== null) journal.note('clock behind', behind, found.world.atMs);
  return new LineRunner(options, found, journal);
};
