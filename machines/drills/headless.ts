/** A whole drill with a stand-in trainee, as fast as the machine can. */
import type { Scenario } from '../scenario/shift.schema.ts';
import type { Drill } from './drill.schema.ts';
import { openDrill } from './open.ts';
import { advanceDrill } from './run.ts';
import type { DrillRun, Trainee } from './run.types.ts';
import { startTrainee, type TraineeSkill, traineeWorks } from './trainee.ts';

/** Who works a drill headless: the first trainee of the people file, or else anybody. */
export const traineeOf = (scenario: Scenario): Trainee => {
  const person = scenario.people.find((one) => one.role === 'trainee') ?? scenario.people[0];
  return { person: person?.id ?? 'trainee', role: person?.role ?? 'trainee', console: 'headless' };
};

/** The ended run of a drill that was just opened. Deterministic in the run and the skill. */
export const workDrill = (opened: DrillRun, skill: TraineeSkill): DrillRun => {
  let run = opened;
  let trainee = startTrainee(skill, run.options.seed);
  while (run.ended === null) {
    const worked = traineeWorks(trainee, run);
    trainee = worked.trainee;
    run = advanceDrill(run, worked.commands, worked.interventions).run;
  }
  return run;
};

/** A drill at its start for a stand-in trainee, who gets no hints. The same start serves every skill. */
export const openForStandIn = (drill: Drill, scenario: Scenario, seed: number): DrillRun =>
  openDrill(drill, scenario, { seed, trainee: traineeOf(scenario), hints: false });
