/**
 * A random history of the whole yard: first anything from anyone with faults coming and going, then every fault is
 * healed and a sensible operator must make a batch again. Checkers look after every tick.
 */
import { EQUIPMENT_FAULTS } from '../../machines/field/outputs.ts';
import { TAG_NAMES } from '../../machines/field/tags.ts';
import type { Command, CommandEnvelope } from '../../machines/line/commands.ts';
import type { Role } from '../../machines/scenario/people.schema.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { advance, createWorld, type World } from '../../machines/world/world.ts';
import type { Checker } from './checkers/checker.ts';
import { type Draws, drawsOf } from './draws.ts';
import { WHIMS, WORK } from './repertoire.ts';
import { UPKEEP_ACTS, UPKEEP_NAMES } from './upkeep.ts';

const FAULT_LASTS_TICKS = 1200;
const INSTRUMENT_FAULTS = ['stuck', 'dead', 'noisy', 'drift'] as const;
const ROLES: readonly Role[] = [
  'operator',
  'operator',
  'operator',
  'supervisor',
  'trainer',
  'storekeeper',
  'auditor',
];

/** What this seed's swarm is made of; shown when it fails. */
export type Options = {
  readonly seed: number;
  readonly minutes: number;
  readonly commandEveryS: number;
  readonly whimShare: number;
  readonly upkeepShare: number;
  readonly faultEveryMin: number;
  readonly upkeep: readonly (readonly [string, number])[];
  readonly whims: readonly (readonly [Command, number])[];
  readonly tags: readonly (readonly [string, number])[];
  readonly equipment: readonly (readonly [(typeof EQUIPMENT_FAULTS)[number], number])[];
};

const optionsOf = (draws: Draws, seed: number, minutes: number): Options => ({
  seed,
  minutes,
  commandEveryS: 2 + draws.unit() * 8,
  whimShare: draws.unit() * 0.2,
  upkeepShare: draws.unit() * 0.1,
  faultEveryMin: 3 + draws.unit() * 20,
  upkeep: draws.swarm(UPKEEP_NAMES),
  whims: draws.swarm(WHIMS),
  tags: draws.swarm(TAG_NAMES as readonly string[]),
  equipment: draws.swarm(EQUIPMENT_FAULTS),
});

export type Finding = { readonly checker: string; readonly tick: number; readonly wrong: string };
export type History = {
  readonly options: Options;
  readonly world: World;
  readonly findings: readonly Finding[];
  readonly commandsDone: number;
  readonly commandsRefused: number;
  readonly faults: number;
  readonly batches: number;
};

type Standing = { readonly untilTick: number; readonly clear: Command };

/** Runs one seed; stops at the first finding. The same seed gives the same history. */
export const runHistory = (
  scenario: Scenario,
  seed: number,
  minutes: number,
  checkers: readonly Checker[],
): History => {
  const draws = drawsOf(seed);
  const options = optionsOf(draws, seed, minutes);
  let world = createWorld(scenario);
  let given = 0;
  let done = 0;
  let refused = 0;
  let faults = 0;
  const findings: Finding[] = [];
  // One lying instrument and one broken item at a time: two at once can deceive any line.
  let lying: Standing | null = null;
  let broken: Standing | null = null;

  const turn = (handed: readonly CommandEnvelope[]): void => {
    const before = world;
    const advanced = advance(world, handed);
    world = advanced.world;
    for (const { answer } of advanced.answers) {
      if (answer.ok) done += 1;
      else refused += 1;
    }
    for (const checker of checkers) {
      const wrong = checker.look({ before, handed, advanced });
      if (wrong !== null) findings.push({ checker: checker.name, tick: world.tick, wrong });
    }
  };
  const envelope = (command: Command, as: Role, console: string): CommandEnvelope => {
    given += 1;
    const person = scenario.people.find((one) => one.role === as)?.id ?? as;
    return { id: `given-${String(given).padStart(6, '0')}`, by: { person, role: as, console }, command };
  };
  const byTrainer = (command: Command): void => turn([envelope(command, 'trainer', 'console-3')]);

  const instrumentFault = (): Standing => {
    const tag = draws.pickWeighted(options.tags);
    const fault = draws.pick(INSTRUMENT_FAULTS);
    const perHour = fault === 'drift' ? (draws.unit() - 0.5) * 1000 : 0;
    byTrainer({ do: 'injectFault', target: { tag, fault, perHour } });
    return {
      untilTick: world.tick + FAULT_LASTS_TICKS,
      clear: { do: 'clearFault', target: { tag } },
    };
  };
  const equipmentFault = (): Standing => {
    const equipment = draws.pickWeighted(options.equipment);
    byTrainer({ do: 'injectFault', target: { equipment } });
    return {
      untilTick: world.tick + FAULT_LASTS_TICKS,
      clear: { do: 'clearFault', target: { equipment } },
    };
  };
  const healed = (standing: Standing | null): Standing | null => {
    if (standing === null || standing.untilTick > world.tick) return standing;
    byTrainer(standing.clear);
    return null;
  };

  const last = minutes * 600;
  while (world.tick < last && findings.length === 0) {
    lying = healed(lying);
    broken = healed(broken);
    const faultNow = draws.unit() < 1 / (options.faultEveryMin * 600);
    if (faultNow) {
      const ofInstrument = draws.unit() < 0.5;
      if (ofInstrument && lying === null) lying = instrumentFault();
      else if (!ofInstrument && broken === null) broken = equipmentFault();
      faults += 1;
    } else if (draws.unit() < 1 / (options.commandEveryS * 10)) {
      if (draws.unit() < options.upkeepShare) {
        const make = UPKEEP_ACTS[draws.pickWeighted(options.upkeep)];
        const act = make?.(world, draws);
        turn(act === undefined ? [] : [envelope(act.command, act.by, 'console-1')]);
        continue;
      }
      const whim = draws.unit() < options.whimShare;
      const command = whim ? draws.pickWeighted(options.whims) : draws.pick(WORK);
      const as = whim ? draws.pick(ROLES) : 'operator';
      turn([envelope(command, as, whim && draws.unit() < 0.3 ? 'console-2' : 'console-1')]);
    } else turn([]);
  }
  const batches = (): number => world.line.batchesDone;
  const sum = (): History => ({
    options,
    world,
    findings,
    commandsDone: done,
    commandsRefused: refused,
    faults,
    batches: batches(),
  });
  if (findings.length > 0) return sum();
  for (const checker of checkers) {
    const wrong = checker.close?.() ?? null;
    if (wrong !== null) findings.push({ checker: checker.name, tick: world.tick, wrong });
  }
  for (const standing of [lying, broken]) if (standing !== null) byTrainer(standing.clear);
  return sum();
};
