/**
 * The whole circle as one value: line, simulated plant and stand-in. The server, a headless run and a test
 * all turn it with `advance`, one tick of 100 ms of plant time at a time.
 */
import type { FieldAsk } from '../field/outputs.ts';
import type { ReadingChanges, Readings, Tag } from '../field/tags.ts';
import { TAG_NAMES } from '../field/tags.ts';
import type { CommandEnvelope } from '../line/commands.ts';
import { createLine, loadLine, saveLine } from '../line/create.ts';
import type { Fact } from '../line/facts.ts';
import { type Line, TICK_MS } from '../line/line.types.ts';
import { step } from '../line/step.ts';
import { viewLine } from '../line/view.ts';
import type { LineView } from '../line/view.types.ts';
import type { Answer } from '../live/protocol.ts';
import { createPlant, type Plant, stepPlant } from '../plant/plant.ts';
import type { Scenario, Shift } from '../scenario/shift.schema.ts';
import { type StandIn, standInWorks, startStandIn } from '../standin/stand-in.ts';
import { type BenchTruths, NO_TRUTHS, rememberTruths } from './bench-truth.ts';
import { partedByPlan, type Sampler, samplerWorks, secretOfSeed } from './sampler.ts';

export type World = {
  readonly scenario: Scenario;
  readonly line: Line;
  readonly plant: Plant;
  readonly standIn: StandIn;
  /** Gives the commands of the sealed sampling plans. */
  readonly sampler: Sampler;
  /** Lots as the sampler last saw them; null: it looks again. Not saved. */
  readonly lotsSeen: Line['lots'] | null;
  /** What is really so in the samples taken, for the simulated bench. */
  readonly truths: BenchTruths;
  /** One-off requests waiting for the plant's next step. */
  readonly asks: readonly FieldAsk[];
  readonly tick: number;
  readonly atMs: number;
};

export type Advanced = {
  readonly world: World;
  /** Readings that differ from the tick before; null when none does. */
  readonly changes: ReadingChanges | null;
  /** Commands in the order they were put to the line in this tick: those handed in, the stand-in's, the sampling plan's. */
  readonly commands: readonly CommandEnvelope[];
  readonly facts: readonly Fact[];
  readonly answers: readonly { readonly id: string; readonly answer: Answer }[];
};

const minutesOf = (clock: string): number => {
  const [hours, minutes] = clock.split(':');
  return Number(hours) * 60 + Number(minutes);
};

/** What a world is begun with beside its scenario. */
export type WorldStart = {
  /** Secret of the shift's sampling plans, hex; left out: derived from the seed, for runs nobody plays against. */
  readonly secret?: string;
  /** Of samples taken in shifts before, which the bench may still be asked about. */
  readonly truths?: BenchTruths;
};

/** A world at the start of its shift. The first tick brings all readings as changes, and the facts of the opening. */
export const createWorld = (scenario: Scenario, start: WorldStart = {}): World => {
  const { shift } = scenario;
  const plant = createPlant({
    spec: scenario.plant,
    mixes: scenario.mixes,
    weather: shift.weather,
    startsAtMin: minutesOf(shift.startsAt),
    seed: shift.seed,
    tanks: shift.tanks,
  });
  const line = createLine(scenario, shift.seed);
  return {
    scenario,
    line,
    plant,
    standIn: startStandIn(shift.seed),
    sampler: { secret: start.secret ?? secretOfSeed(scenario) },
    lotsSeen: line.lots,
    truths: start.truths === undefined ? NO_TRUTHS : { ...start.truths, batches: [] },
    asks: [],
    tick: 0,
    atMs: 0,
  };
};

const EMPTY_ASKS: readonly FieldAsk[] = [];

/** What the shift file lets go wrong in this tick. */
const incidentsAt = (shift: Shift, tick: number): readonly FieldAsk[] => {
  if (shift.incidents.length === 0) return EMPTY_ASKS;
  const asks: FieldAsk[] = [];
  for (const incident of shift.incidents) {
    const begins = Math.round(incident.atMin * 600) === tick;
    const ends = incident.untilMin !== undefined && Math.round(incident.untilMin * 600) === tick;
    if (!begins && !ends) continue;
    if (incident.what === 'equipment')
      asks.push({ ask: 'equipmentFault', equipment: incident.equipment, on: begins });
    else {
      const fault =
        incident.fault === 'drift'
          ? ({ fault: 'drift', perHour: incident.perHour ?? 0 } as const)
          : incident.fault === 'span'
            ? ({ fault: 'span', offPct: incident.offPct ?? 0 } as const)
            : { fault: incident.fault };
      asks.push({ ask: 'instrumentFault', tag: incident.tag as Tag, fault: begins ? fault : null });
    }
  }
  return asks;
};

/** Readings that differ between two moments; null when they are the same object or equal. */
export const changesBetween = (before: Readings, after: Readings): ReadingChanges | null => {
  if (before === after) return null;
  const changes: { [K in Tag]?: number } = {};
  let any = false;
  for (const tag of TAG_NAMES)
    if (before[tag] !== after[tag]) {
      changes[tag] = after[tag];
      any = true;
    }
  return any ? changes : null;
};

const NOTHING_HANDED = { people: [], plan: [] } as const;

type Answers = { id: string; answer: Answer }[];

/** Commands put to the line one after the other; what follows from them is added to `facts` and `answers`. */
const putAll = (
  before: Line,
  asksBefore: readonly FieldAsk[],
  commands: readonly CommandEnvelope[],
  facts: Fact[],
  answers: Answers,
): { readonly line: Line; readonly asks: readonly FieldAsk[] } => {
  let line = before;
  let asks = asksBefore;
  for (const envelope of commands) {
    const stepped = step(line, { input: 'command', envelope });
    line = stepped.line;
    facts.push(...stepped.facts);
    if (stepped.asks.length > 0) asks = [...asks, ...stepped.asks];
    answers.push({
      id: envelope.id,
      answer: stepped.because.length === 0 ? { ok: true } : { ok: false, because: stepped.because },
    });
  }
  return { line, asks };
};

/** One tick. Commands are put to the line first, in order, then the plant moves and its readings are heard. */
export const advance = (world: World, handed: readonly CommandEnvelope[]): Advanced => {
  let { line } = world;
  let asks: readonly FieldAsk[] = world.asks;
  const facts: Fact[] = [];
  const answers: Answers = [];
  const { people, plan } = handed.length === 0 ? NOTHING_HANDED : partedByPlan(handed);
  let commands = people;
  let standIn = world.standIn;
  if (line.seat.standIn !== null) {
    const worked = standInWorks(standIn, line);
    standIn = worked.standIn;
    if (worked.commands.length > 0) commands = [...people, ...worked.commands];
  }
  if (commands.length > 0) ({ line, asks } = putAll(line, asks, commands, facts, answers));
  // After people's commands: a lot that one of them closes has its plan opened in the same moment.
  const planned = samplerWorks(world.sampler, line, world.lotsSeen, plan);
  if (planned.length > 0) {
    ({ line, asks } = putAll(line, asks, planned, facts, answers));
    commands = [...commands, ...planned];
  }
  const lotsSeen = line.lots;
  const incidents = incidentsAt(world.scenario.shift, world.tick);
  if (incidents.length > 0) asks = [...asks, ...incidents];
  const plant = stepPlant(world.plant, line.outputs, asks);
  const changes = changesBetween(line.readings, plant.readings);
  const stepped = step(line, { input: 'tick', readings: changes === null ? line.readings : plant.readings });
  if (stepped.facts.length > 0) facts.push(...stepped.facts);
  const truths =
    facts.length === 0
      ? world.truths
      : rememberTruths(world.truths, facts, plant, stepped.line.batch?.lot ?? null);
  const tick = world.tick + 1;
  return {
    world: {
      scenario: world.scenario,
      line: stepped.line,
      plant,
      standIn,
      sampler: world.sampler,
      lotsSeen,
      truths,
      asks: stepped.asks.length === 0 ? EMPTY_ASKS : stepped.asks,
      tick,
      atMs: tick * TICK_MS,
    },
    changes,
    commands,
    facts,
    answers,
  };
};

/**
 * What a save of any version still tells: the secret of the shift, without which plans committed earlier could not be
 * opened, and what the bench may be asked about.
 */
export const startOfSave = (saved: unknown): WorldStart => {
  const { sampler, truths } = (saved ?? {}) as { sampler?: Partial<Sampler>; truths?: BenchTruths };
  return {
    ...(typeof sampler?.secret === 'string' ? { secret: sampler.secret } : {}),
    ...(truths === undefined ? {} : { truths }),
  };
};

export const viewOf = (world: World): LineView => viewLine(world.line);

/**
 * Raised whenever a save has another shape than before. A save is only a shortcut: one of another version is
 * refused, and the world is turned again from the beginning of the shift instead.
 */
export const STATE_VERSION = 6;

export const saveWorld = (world: World): unknown =>
  JSON.parse(
    JSON.stringify({
      version: STATE_VERSION,
      line: saveLine(world.line),
      plant: world.plant,
      standIn: world.standIn,
      sampler: world.sampler,
      truths: world.truths,
      asks: world.asks,
      tick: world.tick,
    }),
  );

/** The world a save describes, in the scenario it was saved from. Throws when it does not fit this program. */
export const loadWorld = (scenario: Scenario, saved: unknown): World => {
  const json = saved as {
    version?: number;
    line: unknown;
    plant: Plant;
    standIn: StandIn;
    sampler: Sampler;
    truths: BenchTruths;
    asks: FieldAsk[];
    tick: number;
  };
  if (json.version !== STATE_VERSION)
    throw new Error(`it was saved as state ${json.version ?? 1}, this program reads ${STATE_VERSION}`);
  return {
    scenario,
    line: loadLine(scenario, json.line),
    plant: json.plant,
    standIn: json.standIn,
    sampler: json.sampler,
    lotsSeen: null,
    truths: json.truths,
    asks: json.asks,
    tick: json.tick,
    atMs: json.tick * TICK_MS,
  };
};
