/** The start of a drill: its shift changed as the file says, worked by the stand-in to the moment the trainee takes over. */
import type { CommandEnvelope } from '../line/commands.ts';
import { plantThisMorning, type Scenario } from '../scenario/shift.schema.ts';
import { advance, createWorld, type World } from '../world/world.ts';
import type { Drill } from './drill.schema.ts';
import { allHold, type Standing } from './holds.ts';
import { planOf } from './plan.ts';
import type { DrillRun, OpenOptions, Trainee } from './run.types.ts';

const LOOK_EVERY_TICKS = 5;

/**
 * The scenario a drill is worked in: that of its shift, with what the drill changes and its own seed, and without
 * the shift's incidents and stand-in. Apply it once, to the scenario as it was read.
 */
export const drillScenario = (drill: Drill, scenario: Scenario, seed: number): Scenario => {
  const given = Object.fromEntries(
    Object.entries(drill.start.change).filter(([, value]) => value !== undefined),
  );
  const shift = { ...scenario.shift, ...given, seed, incidents: [] };
  return { ...scenario, shift, plant: plantThisMorning(scenario.plant, shift) };
};

const seated = (trainee: Trainee): CommandEnvelope => ({
  id: 'drill-takes-over',
  by: trainee,
  command: { do: 'takeControls' },
});

/** Turns the world, led by a good stand-in, until the drill may begin. Throws when it never may. */
const prepared = (drill: Drill, scenario: Scenario, trainee: Trainee): World => {
  let { world } = advance(createWorld(scenario), []);
  const begins = (): boolean => {
    const standing: Standing = { world, startTick: 0, incidents: [], expected: [], told: {} };
    return allHold(drill.start.until, standing);
  };
  if (drill.start.until.length > 0) {
    const lead: CommandEnvelope = {
      id: 'drill-prepares',
      by: trainee,
      command: { do: 'standIn', skill: 'good' },
    };
    world = advance(world, [lead]).world;
    const lastTick = drill.start.withinMin * 600;
    while (!begins()) {
      if (world.tick >= lastTick)
        throw new Error(
          `drill ${drill.id}: its start was not reached within ${drill.start.withinMin} min of the shift; look at start.until`,
        );
      for (let i = 0; i < LOOK_EVERY_TICKS; i += 1) world = advance(world, []).world;
    }
  }
  return advance(world, [seated(trainee)]).world;
};

/**
 * A drill at its start, the trainee in the seat. Deterministic in drill, scenario, seed and trainee.
 * `scenario` is that of the shift the drill names, as read. Throws when the start is never reached.
 */
export const openDrill = (drill: Drill, scenario: Scenario, options: OpenOptions): DrillRun => {
  const world = prepared(drill, drillScenario(drill, scenario, options.seed), options.trainee);
  return {
    drill,
    options,
    world,
    startTick: world.tick,
    ended: null,
    incidents: planOf(drill, options.seed),
    expected: drill.expect.map(({ id }) => ({ id, openTick: null, metTick: null, early: false })),
    never: drill.never.map(({ id }) => ({ id, times: 0, firstTick: null, tried: 0, heldTicks: 0 })),
    messages: [],
    hints: [],
    visits: [],
    calls: [],
    interventions: [],
    did: [],
    told: {},
    samples: [],
    physical: [],
    asks: [],
    twin: null,
    asked: [],
  };
};
