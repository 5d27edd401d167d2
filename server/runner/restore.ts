/** Brings a line back to where its record ends, or begins a new shift. Writes nothing itself. */
import type { CommandEnvelope } from '../../machines/line/commands.ts';
import type { Fact } from '../../machines/line/facts.ts';
import type { Entry, OpeningBody } from '../../machines/record/entry.ts';
import { type RecordedTick, replay } from '../../machines/record/replay.ts';
import { PROGRAM } from '../../machines/record/version.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { messageOf, PlainError } from '../plain-error.ts';
import type { Store } from '../store/store.ts';
import type { AnyWorld, LineEngine } from './line-engine.ts';
import { nextShiftOf } from './next-shift.ts';
import { digestOf } from './opening.ts';
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

/** Ticks from..to with the commands and facts the record holds for them; readings are made again. */
function* ticksBetween(entries: readonly Entry[], from: number, to: number): Generator<RecordedTick> {
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
  for (let tick = from; tick <= to; tick++)
    yield { tick, changes: null, commands: commands.get(tick) ?? [], facts: facts.get(tick) ?? [] };
}

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

/** The newest world that can be loaded and the entry it stands at, or the beginning of the shift. */
const loadNewest = async <W extends AnyWorld>(
  engine: LineEngine<W>,
  store: Store,
  scenario: Scenario,
  shift: number,
): Promise<{ world: W; seq: number; trouble: string | null }> => {
  const checkpoint = await store.loadCheckpoint(shift);
  let trouble: string | null = null;
  if (checkpoint !== null) {
    try {
      const world = engine.loadWorld(scenario, checkpoint.world);
      if (world.tick === checkpoint.tick) return { world, seq: checkpoint.seq, trouble };
      trouble = `checkpoint at tick ${checkpoint.tick} held a world at tick ${world.tick}`;
    } catch (error) {
      trouble = `checkpoint at tick ${checkpoint.tick} could not be used (${messageOf(error)})`;
    }
  }
  return { world: engine.createWorld(scenario), seq: shift, trouble };
};

/** Throws PlainError when the folder holds another unfinished shift and `newShift` is false. */
export const restore = async <W extends AnyWorld>(
  engine: LineEngine<W>,
  store: Store,
  given: Scenario,
  newShift: boolean,
): Promise<Restored<W>> => {
  const cut = store.cut === null ? [] : [{ what: 'tail cut', detail: store.cut }];
  const begin = async (): Promise<Restored<W>> => {
    const { scenario, opening } = await nextShiftOf(store, given);
    return { scenario, files: given, world: engine.createWorld(scenario), opening, notes: cut };
  };
  const { shift } = await store.tail();
  const [first] = shift === 0 ? [] : await store.read({ after: shift - 1, limit: 1 });
  if (newShift || first?.kind !== 'opening') return begin();
  const [over] = await store.read({ after: shift, limit: 1, fact: 'shiftEnded' });
  if (over !== undefined) return begin();

  const { scenario, files, note } = await scenarioOfShift(store, first.body, given);
  const from = await loadNewest(engine, store, scenario, shift);
  const { entries, lastTick } = await store.inputsAfter(from.seq);
  const again = replay(
    ticksBetween(entries, from.world.tick + 1, lastTick),
    from.world,
    (state, recorded) => {
      const handed = recorded.commands.filter((envelope) => !isOfStandIn(envelope));
      const { world, facts } = engine.advance(state, handed);
      return { state: world, facts };
    },
  );
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
