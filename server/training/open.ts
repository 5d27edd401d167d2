/** Training over a data folder, with the shipped drills. */
import type { Person } from '../../machines/scenario/people.schema.ts';
import { drillEngine } from './drills.ts';
import type { DrillEngine } from './engine.ts';
import { openTrainingFiles } from './files.ts';
import { TrainingHouse } from './house.ts';

export const openTraining = (
  dataFolder: string,
  people: () => readonly Person[],
  log: (line: string) => void,
): TrainingHouse<unknown> =>
  new TrainingHouse({
    // The house never looks into a run: it only hands back what the engine gave it.
    engine: drillEngine(people) as DrillEngine<unknown>,
    files: openTrainingFiles(dataFolder),
    people,
    log,
  });
