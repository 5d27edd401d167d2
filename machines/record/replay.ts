/** Turns entries back into ticks and runs them again: a difference from what was recorded is a finding. */
import type { ReadingChanges } from '../field/tags.ts';
import type { CommandEnvelope } from '../line/commands.ts';
import type { Fact } from '../line/facts.ts';
import { canonical } from './canonical.ts';
import type { Entry } from './entry.ts';

/** Everything the record holds about one tick. */
export type RecordedTick = {
  readonly tick: number;
  readonly changes: ReadingChanges | null;
  readonly commands: readonly CommandEnvelope[];
  readonly facts: readonly Fact[];
};

/** Gathers entries into ticks as they come; `take` and `finish` give the ticks that are complete by then, in order. */
export type TickGatherer = {
  readonly take: (entry: Entry) => Iterable<RecordedTick>;
  readonly finish: () => Iterable<RecordedTick>;
};

const NO_TICKS: readonly RecordedTick[] = [];

/** Throws Error, naming the entry, when readings are not gapless or a decision has no readings before it. */
export const tickGatherer = (): TickGatherer => {
  let open: { from: number; to: number; rows: Map<number, ReadingChanges> } | null = null;
  let commands: CommandEnvelope[] = [];
  let facts: Fact[] = [];
  const close = (): Iterable<RecordedTick> => {
    if (open === null) return NO_TICKS;
    const ticks: RecordedTick[] = [];
    for (let tick = open.from; tick <= open.to; tick++) {
      const last = tick === open.to;
      const changes = open.rows.get(tick) ?? null;
      ticks.push({ tick, changes, commands: last ? commands : [], facts: last ? facts : [] });
    }
    open = null;
    commands = [];
    facts = [];
    return ticks;
  };
  let lastTick = 0;
  return {
    take: (entry) => {
      if (entry.kind === 'readings') {
        const ticks = close();
        const { from, to, rows } = entry.body;
        if (lastTick > 0 && from !== lastTick + 1)
          throw new Error(`entry ${entry.seq}: readings from tick ${from} after tick ${lastTick}`);
        open = { from, to, rows: new Map(rows) };
        lastTick = to;
        return ticks;
      }
      if (entry.kind !== 'command' && entry.kind !== 'fact') return NO_TICKS;
      if (open === null || entry.body.tick !== open.to)
        throw new Error(`entry ${entry.seq}: tick ${entry.body.tick} has no readings before it`);
      if (entry.kind === 'command') commands.push(entry.body.envelope);
      else facts.push(entry.body.fact);
      return NO_TICKS;
    },
    finish: close,
  };
};

/** Entries of one shift, in order → its ticks in order, the unchanged ones too. */
export function* ticksOf(entries: Iterable<Entry>): Generator<RecordedTick> {
  const gatherer = tickGatherer();
  for (const entry of entries) yield* gatherer.take(entry);
  yield* gatherer.finish();
}

/** One tick of whatever is being run again: the whole world, or a line fed recorded readings. */
export type Again<S> = (
  state: S,
  recorded: RecordedTick,
) => { readonly state: S; readonly changes?: ReadingChanges | null; readonly facts: readonly Fact[] };

export type Difference = {
  readonly tick: number;
  readonly difference: string;
  readonly recorded: string;
  readonly replayed: string;
};

export type Replayed<S> = {
  readonly state: S;
  readonly ticks: number;
  readonly differences: readonly Difference[];
};

const compare = (tick: number, what: string, recorded: unknown, replayed: unknown): Difference[] => {
  const [was, is] = [canonical(recorded), canonical(replayed)];
  return was === is ? [] : [{ tick, difference: what, recorded: was, replayed: is }];
};

/**
 * Runs recorded ticks again from `state` and compares. Facts are always compared; readings only when
 * `again` says what it read (a line fed recorded readings has none of its own). Stops collecting at
 * `limit` differences: one cause makes thousands.
 */
export const replay = <S>(
  ticks: Iterable<RecordedTick>,
  state: S,
  again: Again<S>,
  limit = 20,
): Replayed<S> => {
  const differences: Difference[] = [];
  let count = 0;
  for (const recorded of ticks) {
    const next = again(state, recorded);
    state = next.state;
    count += 1;
    if (differences.length >= limit) continue;
    if (recorded.facts.length > 0 || next.facts.length > 0)
      differences.push(...compare(recorded.tick, 'facts', recorded.facts, next.facts));
    if (next.changes !== undefined && (recorded.changes !== null || next.changes !== null))
      differences.push(...compare(recorded.tick, 'readings', recorded.changes, next.changes));
  }
  return { state, ticks: count, differences };
};
