/** Runs a whole shift as fast as the machine can, with the stand-in operator, into a store. */
import type { CommandEnvelope } from '../../machines/line/commands.ts';
import type { Fact } from '../../machines/line/facts.ts';
import type { LineView } from '../../machines/line/view.types.ts';
import type { PlantKey } from '../../machines/record/crypto.types.ts';
import type { EntryContent } from '../../machines/record/entry.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import type { WorldStart } from '../../machines/world/world.ts';
import { sealEnded } from '../seal/in-runner.ts';
import { sealsOf } from '../seal/seals-of.ts';
import type { Store } from '../store/store.ts';
import { Journal } from './journal.ts';
import type { AnyWorld, LineEngine } from './line-engine.ts';
import { onItsOwnDay } from './next-shift.ts';
import { digestOf, openingFor } from './opening.ts';

export type HeadlessOptions<W extends AnyWorld> = {
  readonly engine: LineEngine<W>;
  readonly scenario: Scenario;
  /** Null: nothing is recorded and no chain is made. */
  readonly store: Store | null;
  /** Seals the shift when it has ended; left out: it stays unsealed. */
  readonly key?: PlantKey;
  readonly onFact: (fact: Fact, atMs: number) => void;
  /** Called now and then with the share of the shift that is done, 0..1. */
  readonly onProgress?: (share: number) => void;
  /** Its date stands: it is one day of several that were put behind the record together. */
  readonly isDated?: boolean;
  /** What the world is begun with; left out: the sampling plans' secret comes from the seed. */
  readonly start?: WorldStart;
  /** Somebody who works beside the line, asked every few minutes of plant time and once when the shift has ended. */
  readonly beside?: Beside<W>;
};

/** Work kept in the same record as the line: `add` makes it part of it, before anything else happens. */
export type Beside<W> = (moment: {
  readonly world: W;
  readonly add: (contents: readonly EntryContent[]) => Promise<void>;
}) => Promise<void>;

export type HeadlessResult<W> = {
  readonly world: W;
  readonly view: LineView;
  readonly ended: boolean;
  /** Hash and seq of the shift's last entry, before its seal; null without a record. */
  readonly head: string | null;
  readonly entries: number;
  /** Null when nothing was sealed. */
  readonly seal: { readonly seq: number; readonly root: string; readonly key: string } | null;
};

/** Entries gathered before they are appended together. */
const BATCH = 2_000;
/** Plant time a shift may run past its planned end before it is broken off, ms. */
const OVERTIME_MS = 2 * 3600_000;
const PROGRESS_TICKS = 5_000;
/** How often who works beside the line looks up: five minutes of plant time. */
const BESIDE_TICKS = 3_000;

/** Wall time of an entry: the plant's own clock, so that the same seed gives the same record. */
const plantWall = ({ shift }: Scenario): ((atMs: number) => string) => {
  const startMs = Date.parse(`${shift.date}T${shift.startsAt}:00.000Z`);
  return (atMs) => new Date(startMs + atMs).toISOString();
};

/** The command that hands the controls to the shift's stand-in, if it names one. */
const standInCommand = ({ shift, people }: Scenario): CommandEnvelope[] => {
  const person = people.find((p) => p.id === shift.standIn?.person);
  if (shift.standIn === undefined || person === undefined) return [];
  const by = { person: person.id, role: person.role, console: 'headless' };
  const { skill } = shift.standIn;
  return [{ id: 'headless-stand-in', by, command: { do: 'standIn', skill } }];
};

export const runHeadless = async <W extends AnyWorld>(
  options: HeadlessOptions<W>,
): Promise<HeadlessResult<W>> => {
  const { engine, store } = options;
  const scenario =
    store === null || options.isDated === true
      ? options.scenario
      : await onItsOwnDay(store, options.scenario);
  let world = engine.createWorld(scenario, options.start);
  const journal =
    store === null ? null : new Journal(store, plantWall(scenario), await store.tail(), world.tick);
  await store?.saveScenario(digestOf(scenario), scenario);
  journal?.opening(openingFor(scenario));
  const plannedMs = scenario.shift.hours * 3600_000;
  const besideWorks = async (): Promise<void> => {
    if (options.beside === undefined || journal === null) return;
    await journal.commit();
    await options.beside({
      world,
      add: async (contents) => {
        for (const content of contents) journal.add(content, world.atMs);
        await journal.commit();
      },
    });
  };
  // With the second tick: before the first one nothing of the plant has been read.
  let commands: readonly CommandEnvelope[] = [];
  let handOver = engine.viewOf(world).seat.standIn === null ? standInCommand(scenario) : [];
  let ended = false;
  while (!ended && world.atMs < plannedMs + OVERTIME_MS) {
    const next = engine.advance(world, commands);
    world = next.world;
    journal?.tick(world.tick, next.changes, next.commands, next.facts);
    commands = handOver;
    handOver = [];
    for (const fact of next.facts) {
      options.onFact(fact, world.atMs);
      if (fact.is === 'shiftEnded') ended = true;
    }
    if (ended || world.tick % BESIDE_TICKS === 0) await besideWorks();
    if (journal !== null && journal.waiting >= BATCH) await journal.commit();
    if (world.tick % PROGRESS_TICKS === 0) {
      options.onProgress?.(Math.min(1, world.atMs / plannedMs));
    }
  }
  journal?.flushReadings();
  await journal?.commit();
  const end = journal?.end ?? null;
  const result = {
    world,
    view: engine.viewOf(world),
    ended,
    head: end?.hash ?? null,
    entries: end?.seq ?? 0,
  };
  if (store === null || journal === null || options.key === undefined || !ended)
    return { ...result, seal: null };
  const log = () => undefined;
  await sealEnded({ store, key: options.key, journal, atMs: world.atMs, log });
  const made = (await sealsOf(store)).at(-1);
  const seal =
    made === undefined || made.seq <= result.entries
      ? null
      : { seq: made.seq, root: made.body.root, key: made.body.key };
  return { ...result, seal };
};
