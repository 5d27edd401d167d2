/** Turns what happened in each tick into entries: readings grouped by the second, commands and facts as they come. */
import type { ReadingChanges } from '../field/tags.ts';
import type { CommandEnvelope } from '../line/commands.ts';
import type { Fact } from '../line/facts.ts';
import type { EntryContent } from './entry.ts';

/** Ticks in one group of readings: one second of plant time. */
export const TICKS_PER_GROUP = 10;
export const TICK_MS = 100;

/** Content with the plant time it belongs to, ready to be sealed. */
export type Draft = { readonly content: EntryContent; readonly atMs: number };

type Row = readonly [tick: number, changes: ReadingChanges];

/** Readings not written yet: ticks `from`..`to`; nothing waits when `to < from`. */
export type Recorder = { from: number; to: number; rows: Row[] };

/** A recorder that has written everything up to and including `tick`. */
export const recorderAfter = (tick: number): Recorder => ({ from: tick + 1, to: tick, rows: [] });

/** Writes out the readings that wait, if any. */
export const flush = (recorder: Recorder, out: Draft[]): void => {
  if (recorder.to < recorder.from) return;
  const { from, to, rows } = recorder;
  out.push({ content: { kind: 'readings', body: { from, to, rows } }, atMs: to * TICK_MS });
  recorder.from = to + 1;
  recorder.rows = [];
};

/**
 * Takes in one tick and pushes to `out` the entries that are complete. The readings of a tick go
 * before its commands and facts, so nothing a decision rested on is missing when the decision is kept.
 * Mutates `recorder`: it is a buffer, owned by whoever drives the line.
 */
export const recordTick = (
  recorder: Recorder,
  tick: number,
  changes: ReadingChanges | null,
  commands: readonly CommandEnvelope[],
  facts: readonly Fact[],
  out: Draft[],
): void => {
  if (tick !== recorder.to + 1) throw new Error(`tick ${tick} recorded after tick ${recorder.to}`);
  recorder.to = tick;
  if (changes !== null) recorder.rows.push([tick, changes]);
  const decided = commands.length > 0 || facts.length > 0;
  if (decided || tick % TICKS_PER_GROUP === 0) flush(recorder, out);
  const atMs = tick * TICK_MS;
  for (const envelope of commands) out.push({ content: { kind: 'command', body: { tick, envelope } }, atMs });
  for (const fact of facts) out.push({ content: { kind: 'fact', body: { tick, fact } }, atMs });
};
