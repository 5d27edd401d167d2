/** A drill under way as JSON, and back: a trainer can save it and return to any moment. */
import type { Scenario } from '../scenario/shift.schema.ts';
import { loadWorld, saveWorld } from '../world/world.ts';
import type { Drill } from './drill.schema.ts';
import { drillScenario } from './open.ts';
import type { DrillRun } from './run.types.ts';

/** Raised whenever a saved run has another shape than before. */
const DRILL_VERSION = 1;

/** The run as JSON; drill and scenario are left out, as they are kept as files. */
export const saveDrill = (run: DrillRun): unknown => {
  const { drill, world, ...rest } = run;
  return JSON.parse(
    JSON.stringify({ version: DRILL_VERSION, drill: drill.id, world: saveWorld(world), ...rest }),
  );
};

/** The run a save describes. Throws when it was saved by another program or from another drill. */
export const loadDrill = (drill: Drill, scenario: Scenario, saved: unknown): DrillRun => {
  const {
    version,
    drill: id,
    world,
    ...rest
  } = saved as Omit<DrillRun, 'drill' | 'world'> & {
    version?: number;
    drill: string;
    world: unknown;
  };
  if (version !== DRILL_VERSION)
    throw new Error(`it was saved as drill ${version ?? 0}, this program reads ${DRILL_VERSION}`);
  if (id !== drill.id) throw new Error(`it was saved from drill ${id}, not from ${drill.id}`);
  return { ...rest, drill, world: loadWorld(drillScenario(drill, scenario, rest.options.seed), world) };
};
