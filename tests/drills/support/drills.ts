/** Shipped drills for tests, each worked once by each trainee; the seed is 1 unless SEED says otherwise. */
import { basename } from 'node:path';
import type { Drill } from '../../../machines/drills/drill.schema.ts';
import { openForStandIn, workDrill } from '../../../machines/drills/headless.ts';
import { type DrillRun, debriefOf } from '../../../machines/drills/run.ts';
import { TRAINEE_SKILLS, type TraineeSkill } from '../../../machines/drills/trainee.ts';
import type { Scenario } from '../../../machines/scenario/shift.schema.ts';
import { DRILLS_FOLDER, drillFilesIn, drillOrError } from '../../../server/scenarios/drill-file.ts';

export const SEED = Number(process.env.SEED ?? 1);

export type Shipped = { readonly name: string; readonly drill: Drill; readonly scenario: Scenario };

export const SHIPPED: readonly Shipped[] = drillFilesIn(DRILLS_FOLDER).map((file) => ({
  name: basename(file, '.yaml'),
  ...drillOrError(file),
}));

export const shipped = (id: string): Shipped => {
  const found = SHIPPED.find((one) => one.drill.id === id);
  if (found === undefined) throw new Error(`no drill ${id} is shipped`);
  return found;
};

const starts = new Map<string, DrillRun>();

/** A drill at its start, opened once in a test file: runs are values, so every test may go on from it. */
export const openedOf = ({ drill, scenario }: Pick<Shipped, 'drill' | 'scenario'>, seed = SEED): DrillRun => {
  const key = `${drill.id} ${seed}`;
  const run = starts.get(key) ?? openForStandIn(drill, scenario, seed);
  starts.set(key, run);
  return run;
};

const worked = new Map<string, DrillRun>();

/** The ended run of a drill with one trainee; worked once in a test file. */
export const runOf = ({ drill, scenario }: Shipped, skill: TraineeSkill, seed = SEED): DrillRun => {
  const key = `${drill.id} ${skill} ${seed}`;
  let run = worked.get(key);
  if (run === undefined) {
    run = workDrill(openedOf({ drill, scenario }, seed), skill);
    worked.set(key, run);
  }
  return run;
};

export const debriefsOf = (one: Shipped) =>
  Object.fromEntries(TRAINEE_SKILLS.map((skill) => [skill, debriefOf(runOf(one, skill))])) as {
    readonly [S in TraineeSkill]: ReturnType<typeof debriefOf>;
  };
