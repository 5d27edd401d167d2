/** Brings a line back to where its record ends, or begins a new shift. Writes nothing itself. */
import { setImmediate as letOthersIn } from 'node:timers/promises';
import type { CommandEnvelope } from '../../machines/line/commands.ts';
import type { Fact } from '../../machines/line/facts.ts';
import type { Entry, OpeningBody } from '../../machines/record/entry.ts';
import { TICK_MS } from '../../machines/record/recorder.ts';
import { type Again, type RecordedTick, type Replayed, replay } from '../../machines/record/replay.ts';
import { PROGRAM } from '../../machines/record/version.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import type { WorldStart } from '../../machines/world/world.ts';
import { messageOf, PlainError } from '../plain-error.ts';
import type { Store } from '../store/store.ts';
import type { AnyWorld, LineEngine } from './line-engine.ts';
import { nextShiftOf } from './next-shift.ts';
import { digestOf } from './opening.ts';
import { freshSecret } from './secret.ts';
import { isOfStandIn } from './stand-in-console.ts';

export type Restored<W> = {
  readonly scenario: Scenario;
  /** The same as its files have it: its date and seed may have been moved on from there. */
  readonly files: Scenario;
  readonly world: W;
  /** Set when a new shift begins: the entry to open it with. */
  readonly opening: OpeningBody | null;
  /** Notes to write: what was found and done. */
  readonly notes: readonly { readonly what: string; readonly detail: string }[];
};

/** Ticks run again at a stretch before signals are listened to. */
const SLICE_TICKS = 500;
/** More than this to run again is told: it takes a second or more. */
const LONG_TICKS = 10_000;
/** Differences noted at a restart: one cause makes thousands. */
const DIFFERENCES = 20;

/** The commands and facts the record holds, by tick; readings are made again. */
const ticksOf = (entries: readonly Entry[]): ((tick: number) => RecordedTick) => {
  const commands = new Map<number, CommandEnvelope[]>();
  const facts = new Map<number, Fact[]>();
  for (const entry of entries) {
    if (entry.kind === 'command') {
      const { tick, envelope } = entry.body;
      commands.set(tick, [...(commands.get(tick) ?? []), envelope]);
    } else if (entry.kind === 'fact') {
      const { tick, fact } = entry.body;
      facts.set(tick, [...(facts.get(tick) ?? []), fact]);
    }
  }
  return (tick) => ({
    tick,
    changes: null,
    commands: commands.get(tick) ?? [],
    facts: facts.get(tick) ?? [],
  });
};

/** Runs what is on record after a world's tick again, up to `lastTick`. */
const runAgain = async <W extends AnyWorld>(
  engine: LineEngine<W>,
  from: W,
  entries: readonly Entry[],
  lastTick: number,
): Promise<Replayed<W>> => {
  const recorded = ticksOf(entries);
  const again: Again<W> = (state, { commands }) => {
    const { world, facts } = engine.advance(
      state,
      commands.filter((envelope) => !isOfStandIn(envelope)),
    );
    return { state: world, facts };
  };
  let done: Replayed<W> = { state: from, ticks: 0, differences: [] };
  for (let next = from.tick + 1; next <= lastTick; next += SLICE_TICKS) {
    const slice = Array.from({ length: Math.min(SLICE_TICKS, lastTick + 1 - next) }, (_, i) =>
      recorded(next + i),
    );
    const { state, ticks, differences } = replay(
      slice,
      done.state,
      again,
      DIFFERENCES - done.differences.length,
    );
    done = { state, ticks: done.ticks + ticks, differences: [...done.differences, ...differences] };
    await letOthersIn();
  }
  return done;
};

/** The scenario the unfinished shift was begun with, and a note when its files have changed since. */
const scenarioOfShift = async (
  store: Store,
  opening: OpeningBody,
  given: Scenario,
): Promise<{ scenario: Scenario; files: Scenario; note: string | null }> => {
  const { filesDigest = opening.scenarioDigest } = opening;
  const unchanged = filesDigest === digestOf(given);
  if (unchanged && opening.filesDigest === undefined) return { scenario: given, files: given, note: null };
  const kept = (await store.loadScenario(opening.scenarioDigest)) as Scenario | null;
  if (kept === null)
    throw new PlainError(
      `Data folder ${store.where} holds shift ${opening.scenario} but not the files it began with: begin anew with --new-shift, or name another folder with --data.`,
    );
  if (unchanged) return { scenario: kept, files: given, note: null };
  const files = ((await store.loadScenario(filesDigest)) as Scenario | null) ?? kept;
  if (opening.scenario !== given.shift.id && opening.openedBy !== undefined)
    return {
      scenario: kept,
      files,
      note: `shift ${opening.scenario}, which ${opening.openedBy} opened at a console, goes on, not ${given.shift.id}`,
    };
  if (opening.scenario !== given.shift.id)
    throw new PlainError(
      `Data folder ${store.where} holds an unfinished shift ${opening.scenario}, not ${given.shift.id}: serve that one, or leave it with --new-shift, or name another folder with --data.`,
    );
  return {
    scenario: kept,
    files,
    note: 'the shift goes on with the files it began with; they have changed since',
  };
};

/** What the shift before left for the simulated bench. */
const truthsBefore = async <W extends AnyWorld>(engine: LineEngine<W>, store: Store): Promise<WorldStart> => {
  const { shift } = await store.tail();
  const last = shift === 0 ? null : await store.loadCheckpoint(shift);
  const { truths } = last === null ? {} : (engine.startOfSave?.(last.world) ?? {});
  return truths === undefined ? {} : { truths };
};

/** The newest world that can be loaded and the entry it stands at, or the beginning of the shift. */
const loadNewest = async <W extends AnyWorld>(
  engine: LineEngine<W>,
  store: Store,
  scenario: Scenario,
  shift: number,
): Promise<{ world: W; seq: number; trouble: string | null }> => {
  const checkpoint = await store.loadCheckpoint(shift);
  let trouble: string | null = null;
  // A save that cannot be used still has the secret its plans were drawn from.
  const start = checkpoint === null ? {} : (engine.startOfSave?.(checkpoint.world) ?? {});
  if (checkpoint !== null) {
    try {
      const world = engine.loadWorld(scenario, checkpoint.world);
      if (world.tick === checkpoint.tick) return { world, seq: checkpoint.seq, trouble };
      trouble = `checkpoint at tick ${checkpoint.tick} held a world at tick ${world.tick}`;
    } catch (error) {
      trouble = `checkpoint at tick ${checkpoint.tick} could not be used (${messageOf(error)})`;
    }
  }
  return { world: engine.createWorld(scenario, { secret: freshSecret(), ...start }), seq: shift, trouble };
};

/**
 * Throws PlainError when the folder holds another unfinished shift and `newShift` is false. What takes long is
 * told to `say`.
 */
export const restore = async <W extends AnyWorld>(
  engine: LineEngine<W>,
  store: Store,
  given: Scenario,
  newShift: boolean,
  say: (line: string) => void,
): Promise<Restored<W>> => {
  const cut = store.cut === null ? [] : [{ what: 'tail cut', detail: store.cut }];
  const begin = async (): Promise<Restored<W>> => {
    const { scenario, opening } = await nextShiftOf(store, given);
    const world = engine.createWorld(scenario, {
      ...(await truthsBefore(engine, store)),
      secret: freshSecret(),
    });
    return { scenario, files: given, world, opening, notes: cut };
  };
  const { shift } = await store.tail();
  const [first] = shift === 0 ? [] : await store.read({ after: shift - 1, limit: 1 });
  if (newShift || first?.kind !== 'opening') return begin();
  const [over] = await store.read({ after: shift, limit: 1, fact: 'shiftEnded' });
  if (over !== undefined) return begin();

  const { scenario, files, note } = await scenarioOfShift(store, first.body, given);
  const from = await loadNewest(engine, store, scenario, shift);
  const { entries, lastTick } = await store.inputsAfter(from.seq);
  const toRunAgain = lastTick - from.world.tick;
  if (toRunAgain > LONG_TICKS)
    say(
      `${((toRunAgain * TICK_MS) / 3600_000).toFixed(1)} h of plant time are run again from the record in ${store.where}; stopping meanwhile does no harm.`,
    );
  const again = await runAgain(engine, from.world, entries, lastTick);
  const details = [
    `${PROGRAM} on node ${process.version} went on from tick ${again.state.tick}; ${again.ticks} ticks run again since the last checkpoint`,
    ...(from.trouble === null ? [] : [from.trouble]),
    ...(note === null ? [] : [note]),
  ];
  const differences = again.differences.map((d) => ({
    what: 'restored differently',
    detail: `tick ${d.tick}, ${d.difference}: recorded ${d.recorded}, now ${d.replayed}`.slice(0, 2000),
  }));
  return {
    scenario,
    files,
    world: again.state,
    opening: null,
    notes: [...cut, { what: 'restored', detail: details.join('; ') }, ...differences],
  };
};
