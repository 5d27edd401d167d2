/** A line with no plant behind it: counts, answers commands, and keeps every promise the server relies on. */
import { AT_REST } from '../../../machines/field/outputs.ts';
import { type ReadingChanges, type Readings, TAG_NAMES } from '../../../machines/field/tags.ts';
import type { CommandEnvelope } from '../../../machines/line/commands.ts';
import type { Fact } from '../../../machines/line/facts.ts';
import type { LineView, RibbonBlock, RibbonMark } from '../../../machines/line/view.types.ts';
import type { Answer } from '../../../machines/live/protocol.ts';
import type { Scenario } from '../../../machines/scenario/shift.schema.ts';
import type { LineEngine } from '../../../server/runner/line-engine.ts';

export type FakeWorld = {
  readonly tick: number;
  readonly atMs: number;
  readonly batch: number;
  readonly holder: { readonly person: string; readonly console: string } | null;
  readonly askedBy: { readonly person: string; readonly console: string } | null;
  readonly ended: boolean;
  readonly blocks: readonly RibbonBlock[];
  readonly marks: readonly RibbonMark[];
  readonly scenario: Scenario;
};

/** Refused without the controls, except for taking them. A batch starts on `start` and on every 50th tick. */
const answerTo = (world: FakeWorld, { by, command }: CommandEnvelope): Answer => {
  if (command.do === 'emergencyStop' || command.do === 'askForControls') return { ok: true };
  if (command.do === 'takeControls') return { ok: true };
  if (world.holder === null) return { ok: false, because: ['Nobody has the controls. Take them first.'] };
  if (world.holder.console !== by.console)
    return { ok: false, because: ['Another console has the controls.'] };
  if (command.do === 'abort') return { ok: false, because: ['There is no batch to abort.'] };
  if (command.do === 'resetHeater') throw new Error('a fault planted in the fake line');
  return { ok: true };
};

const apply = (world: FakeWorld, { by, command }: CommandEnvelope): FakeWorld => {
  if (command.do === 'takeControls') return { ...world, holder: { person: by.person, console: by.console } };
  if (command.do === 'askForControls')
    return { ...world, askedBy: { person: by.person, console: by.console } };
  if (command.do === 'handOver') return { ...world, holder: world.askedBy, askedBy: null };
  if (command.do === 'endShift') return { ...world, ended: true };
  return command.do === 'start' ? startBatch(world) : world;
};

const startBatch = (world: FakeWorld): FakeWorld => {
  const batch = world.batch + 1;
  const closed = world.blocks.map((block) => (block.toMs === null ? { ...block, toMs: world.atMs } : block));
  const blocks = [...closed, { fromMs: world.atMs, toMs: null, step: 'charge', batch }];
  return { ...world, batch, blocks };
};

const readingsAt = (tick: number): Readings => {
  const still = Object.fromEntries(TAG_NAMES.map((tag) => [tag, 0])) as Readings;
  return { ...still, hopperKg: Math.floor(tick / 3) % 1000 };
};

const changesAt = (tick: number): ReadingChanges | null =>
  tick === 1 ? readingsAt(1) : tick % 3 === 0 ? { hopperKg: readingsAt(tick).hopperKg } : null;

export const fakeLine: LineEngine<FakeWorld> = {
  createWorld: (scenario) => ({
    tick: 0,
    atMs: 0,
    batch: 0,
    holder: null,
    askedBy: null,
    ended: false,
    blocks: [],
    marks: [],
    scenario,
  }),
  saveWorld: ({ scenario: _left, ...rest }) => rest,
  loadWorld: (scenario, json) => ({ ...(json as Omit<FakeWorld, 'scenario'>), scenario }),
  advance: (before, commands) => {
    const tick = before.tick + 1;
    let world: FakeWorld = { ...before, tick, atMs: tick * 100 };
    const facts: Fact[] = [];
    const answers: { id: string; answer: Answer }[] = [];
    for (const envelope of commands) {
      const answer = answerTo(world, envelope);
      const { person, role } = envelope.by;
      const common = { id: envelope.id, command: envelope.command.do, by: { person, role } };
      facts.push(
        answer.ok
          ? { is: 'commandDone', ...common }
          : { is: 'commandRefused', ...common, because: answer.because },
      );
      if (answer.ok) world = apply(world, envelope);
      answers.push({ id: envelope.id, answer });
    }
    if (tick % 50 === 0) {
      world = startBatch(world);
      facts.push({ is: 'stepEntered', batch: world.batch, step: 'charge' });
    }
    if (world.ended && !before.ended) facts.push({ is: 'shiftEnded', by: { person: 'kim', role: 'line' } });
    return { world, changes: changesAt(tick), commands, facts, answers };
  },
  viewOf: (world) => viewOf(world),
};

const viewOf = (world: FakeWorld): LineView => {
  const { shift, people, plant } = world.scenario;
  const holder = people.find((p) => p.id === world.holder?.person);
  return {
    shift: {
      id: shift.id,
      name: shift.name,
      plantName: plant.name,
      date: shift.date,
      startsAt: shift.startsAt,
      hours: shift.hours,
      atMs: world.atMs,
      ended: world.ended,
      batchesDone: world.batch,
      madeKg: 0,
    },
    now: {
      over: `Batch ${world.batch}`,
      title: 'The fake line counts.',
      instruction: '',
      countdown: null,
      waitingFor: [],
      actions: [],
      steps: [],
      procedure: 'idle',
      cautions: null,
    },
    campaign: null,
    weights: [],
    temps: [],
    plant: {
      readings: readingsAt(world.tick),
      outputs: AT_REST,
      faults: [],
      bins: [],
      tanks: [],
      bays: [],
      wasteKg: 0,
      mixerText: 'empty',
      burnerText: 'off',
      purgeVolumes: 0,
      purgeVolumesNeeded: 4,
      limits: {
        vapourWarnLelPct: 10,
        vapourTripLelPct: 20,
        aggregateMaxC: 65,
        holdingBinKg: 13_000,
        drawC: null,
      },
    },
    interlock: { tripped: false, tripCauses: [], resetBecause: [], held: [], binder: [], flame: [] },
    causes: { holding: [], latched: [] },
    maintenance: { proofs: [], overdue: 0, banner: [] },
    permits: [],
    tanks: [],
    alarms: [],
    batches: [],
    lots: [],
    orders: [],
    seat: {
      holder:
        world.holder === null || holder === undefined
          ? null
          : { person: holder.id, name: holder.name, role: holder.role, console: world.holder.console },
      askedBy:
        world.askedBy === null
          ? null
          : { ...world.askedBy, name: people.find((p) => p.id === world.askedBy?.person)?.name ?? '' },
      standIn: null,
    },
    ribbon: { blocks: world.blocks, marks: world.marks },
    charts: [],
    refusals: [],
  };
};
