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

/** Entries of one shift, in order → its ticks in order, the unchanged ones too. */
export function* ticksOf(entries: Iterable<Entry>): Generator<RecordedTick> {
  let open: { from: number; to: number; rows: Map<number, ReadingChanges> } | null = null;
  let commands: CommandEnvelope[] = [];
  let facts: Fact[] = [];
  const tickAt = (tick: number, last: boolean): RecordedTick => ({
    tick,
    changes: open?.rows.get(tick) ?? null,
    commands: last ? commands : [],
    facts: last ? facts : [],
  });
  for (const entry of entries) {
    if (entry.kind === 'readings') {
      if (open !== null) for (let t = open.from; t <= open.to; t++) yield tickAt(t, t === open.to);
      if (open !== null && entry.body.from !== open.to + 1)
        throw new Error(`entry ${entry.seq}: readings from tick ${entry.body.from} after tick ${open.to}`);
      open = { from: entry.body.from, to: entry.body.to, rows: new Map(entry.body.rows) };
      commands = [];
      facts = [];
    } else if (entry.kind === 'command' || entry.kind === 'fact') {
      if (open === null || entry.body.tick !== open.to)
        throw new Error(`entry ${entry.seq}: tick ${entry.body.tick} has no readings before it`);
      if (entry.kind === 'command') commands.push(entry.body.envelope);
      else facts.push(entry.body.fact);
    }
  }
  if (open !== null) for (let t = open.from; t <= open.to; t++) yield tickAt(t, t === open.to);
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
