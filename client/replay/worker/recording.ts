/** The entries of one shift laid out for going to any moment: inputs by tick, readings by instrument, the rest as lines. */
import { TAG_NAMES } from '../../../machines/field/tags.ts';
import type { CommandEnvelope } from '../../../machines/line/commands.ts';
import type { Fact } from '../../../machines/line/facts.ts';
import type { Entry, OpeningBody } from '../../../machines/record/entry.ts';
import { countUpTo, float64s, type Growing, int32s, uint16s } from './columns.ts';
import { whyDeclined } from './decline.ts';
import { type ReplayLine, replayLineOf } from './lines.ts';

export const TICK_MS = 100;

/** One instrument over the shift, by exception: its value from each tick on until the next. */
export type TagSeries = { readonly ticks: Growing<Int32Array>; readonly values: Growing<Float64Array> };

export type Recording = {
  readonly opening: OpeningBody | null;
  /** The last tick the record holds readings of; 0 when it holds none. */
  readonly lastTick: number;
  readonly readingGroups: number;
  readonly lines: readonly ReplayLine[];
  readonly commandsAt: ReadonlyMap<number, readonly CommandEnvelope[]>;
  readonly factsAt: ReadonlyMap<number, readonly Fact[]>;
  /** Names of the instruments in the order they were first read. */
  readonly tags: readonly string[];
  readonly series: readonly TagSeries[];
  /** Rows of changes: tick of each, and where its changes begin in `changeTag` and `changeValue`. */
  readonly rowTick: Growing<Int32Array>;
  readonly rowFrom: Growing<Int32Array>;
  readonly changeTag: Growing<Uint16Array>;
  readonly changeValue: Growing<Float64Array>;
  /** What keeps it from being run again in order, in words; null when nothing does. */
  readonly brokenAt: string | null;
};

const push = <T>(map: Map<number, T[]>, key: number, value: T): void => {
  const there = map.get(key);
  if (there === undefined) map.set(key, [value]);
  else there.push(value);
};

/** Takes entries one by one, in the order of the record. Never throws on an entry of a known kind. */
export class RecordingBuilder {
  #opening: OpeningBody | null = null;
  #lastTick = 0;
  #groups = 0;
  #lines: ReplayLine[] = [];
  #commandsAt = new Map<number, CommandEnvelope[]>();
  #factsAt = new Map<number, Fact[]>();
  #tags: string[] = [];
  #tagIndex = new Map<string, number>();
  #series: TagSeries[] = [];
  #rowTick = int32s(4096);
  #rowFrom = int32s(4096);
  #changeTag = uint16s(4096);
  #changeValue = float64s(4096);
  #brokenAt: string | null = null;

  add(entry: Entry): void {
    if (entry.kind === 'readings') {
      this.#addReadings(entry.seq, entry.body);
      return;
    }
    if (entry.kind === 'opening') this.#open(entry.body);
    else if (entry.kind === 'command') push(this.#commandsAt, entry.body.tick, entry.body.envelope);
    else if (entry.kind === 'fact') push(this.#factsAt, entry.body.tick, entry.body.fact);
    this.#lines.push(replayLineOf(entry));
  }

  /**
   * An instrument is recorded when its reading changes, and the line counts it as 0 until then: one that stays there
   * has no entry at all. Only this program's own instruments are known to have been there.
   */
  #open(opening: OpeningBody): void {
    if (this.#opening !== null) return;
    this.#opening = opening;
    if (whyDeclined(opening, null) !== null) return;
    for (const tag of TAG_NAMES) {
      const series = this.#series[this.#indexOf(tag)];
      series?.ticks.push(0);
      series?.values.push(0);
    }
  }

  #addReadings(seq: number, body: Extract<Entry, { kind: 'readings' }>['body']): void {
    this.#groups += 1;
    if (body.from !== this.#lastTick + 1)
      this.#brokenAt ??= `entry ${seq} holds readings from tick ${body.from}, but those before it end at tick ${this.#lastTick}`;
    for (const [tick, changes] of body.rows) {
      this.#rowTick.push(tick);
      this.#rowFrom.push(this.#changeTag.length);
      for (const tag in changes) {
        const value = (changes as { readonly [name: string]: number })[tag];
        if (value === undefined) continue;
        const index = this.#indexOf(tag);
        this.#changeTag.push(index);
        this.#changeValue.push(value);
        const series = this.#series[index];
        series?.ticks.push(tick);
        series?.values.push(value);
      }
    }
    this.#lastTick = body.to;
  }

  #indexOf(tag: string): number {
    const known = this.#tagIndex.get(tag);
    if (known !== undefined) return known;
    const index = this.#tags.length;
    this.#tags.push(tag);
    this.#tagIndex.set(tag, index);
    this.#series.push({ ticks: int32s(), values: float64s() });
    return index;
  }

  done(): Recording {
    return {
      opening: this.#opening,
      lastTick: this.#lastTick,
      readingGroups: this.#groups,
      lines: this.#lines,
      commandsAt: this.#commandsAt,
      factsAt: this.#factsAt,
      tags: this.#tags,
      series: this.#series,
      rowTick: this.#rowTick,
      rowFrom: this.#rowFrom,
      changeTag: this.#changeTag,
      changeValue: this.#changeValue,
      brokenAt: this.#brokenAt,
    };
  }
}

/** Rows of changes up to and including a tick. */
export const rowsUpTo = (recording: Recording, tick: number): number => countUpTo(recording.rowTick, tick);

/** Readings with the changes of one row laid over them. */
export const withRow = <R extends { readonly [tag: string]: number }>(
  recording: Recording,
  readings: R,
  row: number,
): R => {
  const next: { [tag: string]: number } = { ...readings };
  const from = recording.rowFrom.at(row);
  const to = row + 1 < recording.rowFrom.length ? recording.rowFrom.at(row + 1) : recording.changeTag.length;
  for (let i = from; i < to; i++) {
    const tag = recording.tags[recording.changeTag.at(i)];
    if (tag !== undefined) next[tag] = recording.changeValue.at(i);
  }
  return next as R;
};
