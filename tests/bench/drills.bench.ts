/** Drills headless: how fast one is worked, and what the whole set and a debrief with its twin cost. */
import { openForStandIn, workDrill } from '../../machines/drills/headless.ts';
import { type DrillRun, debriefOf } from '../../machines/drills/run.ts';
import { TRAINEE_SKILLS } from '../../machines/drills/trainee.ts';
import { DRILLS_FOLDER, drillFilesIn, drillOrError } from '../../server/scenarios/drill-file.ts';
import { bestSeconds, type Figure } from './measure.ts';

const SEED = 1;

export async function benchDrills(): Promise<Figure[]> {
  const files = drillFilesIn(DRILLS_FOLDER).map((file) => drillOrError(file));
  let ticks = 0;
  let runs: DrillRun[] = [];
  const wholeS = await bestSeconds(2, () => {
    ticks = 0;
    runs = files.flatMap(({ drill, scenario }) => {
      const opened = openForStandIn(drill, scenario, SEED);
      ticks += opened.world.tick;
      return TRAINEE_SKILLS.map((skill) => {
        const run = workDrill(opened, skill);
        ticks += run.world.tick - opened.world.tick;
        return run;
      });
    });
  });
  const debriefsS = await bestSeconds(2, () => {
    for (const run of runs) debriefOf(run);
  });
  const figures: Figure[] = [
    {
      id: 'drills.all',
      what: `all ${files.length} drills, each by ${TRAINEE_SKILLS.length} trainees`,
      value: wholeS,
      unit: 's',
    },
    {
      id: 'drills.speed',
      what: 'plant time worked, preparation and trainee with it',
      value: ticks / 10 / wholeS,
      unit: 'plant s/s',
    },
    {
      id: 'drills.debrief',
      what: 'one debrief, its twin with it',
      value: (1000 * debriefsS) / runs.length,
      unit: 'ms',
    },
  ];
  return figures;
}
