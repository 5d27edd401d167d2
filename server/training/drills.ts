/** The shipped drills, and the real drill engine over them, as training sessions drive it. */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Debrief } from '../../machines/drills/debrief.types.ts';
import { type Drill, drillSchema } from '../../machines/drills/drill.schema.ts';
import {
  advanceDrill,
  type DrillRun,
  debriefOf,
  drillScenario,
  openDrill,
  seatOf,
} from '../../machines/drills/run.ts';
import { expectedViews, scoreOf, unsafeViews } from '../../machines/drills/score.ts';
import { incidentInWords } from '../../machines/drills/words.ts';
import { TAG_NAMES } from '../../machines/field/tags.ts';
import type { DrillCard } from '../../machines/live/training.ts';
import { canonical } from '../../machines/record/canonical.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { viewOf } from '../../machines/world/world.ts';
import { sha256 } from '../digest.ts';
import { SCENARIOS_FOLDER } from '../package-root.ts';
import { PlainError } from '../plain-error.ts';
import { scenarioOrError } from '../scenarios/load.ts';
import { validate } from '../scenarios/validate.ts';
import { readYaml } from '../scenarios/yaml-file.ts';
import type { DrillEngine, Outcome, Standings } from './engine.ts';

type Loaded = { readonly drill: Drill; readonly scenario: Scenario; readonly card: DrillCard };

const hasCutback = ({ shift, mixes }: Scenario): boolean =>
  shift.orders.some(({ mix }) => mixes.find(({ id }) => id === mix)?.family === 'cutback');

const loadDrillFile = (file: string): Loaded | null => {
  const drill = validate(readYaml(file), drillSchema).value;
  if (drill === null) return null;
  const scenario = scenarioOrError(join(SCENARIOS_FOLDER, drill.start.shift));
  const { id, name, teaches, level, minutes } = drill;
  const cutback = hasCutback(drillScenario(drill, scenario, 1));
  return { drill, scenario, card: { id, name, teaches, level, minutes, cutback } };
};

/** Sound drill files of a folder, the easiest first; one that is not sound is left out (`check` says why). */
const drillsIn = (folder: string): ReadonlyMap<string, Loaded> => {
  const names = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.yaml')) : [];
  const loaded = names
    .map((name) => loadDrillFile(join(folder, name)))
    .filter((one) => one !== null)
    .sort((a, b) => a.card.level - b.card.level || a.card.name.localeCompare(b.card.name, 'en'));
  return new Map(loaded.map((one) => [one.drill.id, one]));
};

/** People of the plant, and of the shift where the plant has none by that name: a stand-in leads in under its own. */
const withPeople = (scenario: Scenario, people: readonly Person[]): Scenario => ({
  ...scenario,
  people: [...people, ...scenario.people.filter(({ id }) => !people.some((person) => person.id === id))],
});

/** Points of what is decided by now: done, or so late that it is lost. */
const standingsOf = (run: DrillRun): Standings => {
  const now = run.world.atMs;
  const unsafe = unsafeViews(run);
  const decided = expectedViews(run).filter(
    ({ metMs, fromMs, dueMs }) =>
      metMs !== null || (dueMs !== null && fromMs !== null && now > 2 * dueMs - fromMs),
  );
  const score = decided.length === 0 ? null : scoreOf(run, decided, unsafe).score;
  return { score, unsafe: unsafe.length };
};

const outcomeOf = ({ score, passed, unsafe, competencies }: Debrief): Outcome => ({
  score,
  passed,
  unsafe: unsafe.reduce((sum, { times }) => sum + times, 0),
  competencies: competencies.map(({ name, ...rest }) => ({
    name,
    score: rest.score,
    points: rest.points,
    of: rest.of,
  })),
});

export const drillEngine = (
  people: () => readonly Person[],
  folder = join(SCENARIOS_FOLDER, 'drills'),
): DrillEngine<DrillRun> => {
  // Read when first asked for: a server without drills under way starts without them.
  let read: ReadonlyMap<string, Loaded> | null = null;
  const drills = () => {
    read ??= drillsIn(folder);
    return read;
  };
  const foundOr = (id: string): Loaded => {
    const found = drills().get(id);
    if (found === undefined)
      throw new PlainError(`there is no drill ${id}: there are ${[...drills().keys()].join(', ') || 'none'}`);
    return found;
  };
  return {
    cards: () => [...drills().values()].map(({ card }) => card),
    digestOf: (id) => {
      const { drill, scenario } = foundOr(id);
      return sha256(canonical({ drill, scenario }));
    },
    open: (id, opening) => {
      const found = foundOr(id);
      return openDrill(found.drill, withPeople(found.scenario, people()), opening);
    },
    scenarioOf: (run) => run.world.scenario,
    tickOf: (run) => run.world.tick,
    advance: (run, commands, interventions) => {
      const { run: next, advanced, because } = advanceDrill(run, commands, interventions);
      return { run: next, answers: advanced.answers, because };
    },
    viewOf: (run) => viewOf(run.world),
    seatOf,
    plannedOf: (run) =>
      run.incidents.map((state, i) => ({
        text: run.drill.incidents[i]?.text ?? state.id,
        what: incidentInWords(state),
        fromMs: state.fromTick === null ? null : state.fromTick * 100,
        toMs: state.toTick === null ? null : state.toTick * 100,
      })),
    faultsOf: ({ world: { plant } }) => [
      ...Object.entries(plant.faults).flatMap(([target, on]) => (on ? [{ target, fault: 'on' }] : [])),
      ...plant.instruments.faults.flatMap(({ place, fault }) => {
        const target = TAG_NAMES[place];
        return target === undefined ? [] : [{ target, fault }];
      }),
    ],
    standingsOf,
    debriefOf: (run) => {
      const debrief = debriefOf(run);
      return { outcome: outcomeOf(debrief), debrief };
    },
  };
};
