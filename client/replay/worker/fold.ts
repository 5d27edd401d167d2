/**
 * The line turned again over the recorded inputs, with keyframes on the way, so that any moment is near one.
 * The line is an immutable value: a keyframe is the value itself, and what did not change between two is shared.
 */
import type { Readings } from '../../../machines/field/tags.ts';
import { createLine } from '../../../machines/line/create.ts';
import type { Fact } from '../../../machines/line/facts.ts';
import type { Line } from '../../../machines/line/line.types.ts';
import { step } from '../../../machines/line/step.ts';
import { canonical } from '../../../machines/record/canonical.ts';
import type { Scenario } from '../../../machines/scenario/shift.schema.ts';
import { type Recording, rowsUpTo, withRow } from './recording.ts';

/** A keyframe every 20 s of plant time: at most that much is stepped to reach a moment. */
export const KEYFRAME_TICKS = 200;
/** One cause makes thousands of differences: so many are told, the rest counted. */
const DIFFERENCES_TOLD = 50;
const CLOCK_LOOK_TICKS = 100;

export type Difference = { readonly tick: number; readonly recorded: string; readonly replayed: string };

const NO_FACTS: readonly Fact[] = [];

export class Fold {
  #recording: Recording;
  #keyframes: Line[];
  #line: Line;
  #row = 0;
  #differences: Difference[] = [];
  #differing = 0;
  /** Where the last moment asked for was reached, by whoever asked: playing on starts from there. */
  #near = new Map<string, Line>();

  constructor(recording: Recording, scenario: Scenario) {
    this.#recording = recording;
    this.#line = createLine(scenario, scenario.shift.seed);
    this.#keyframes = [this.#line];
  }

  /** The furthest tick reached. */
  get tick(): number {
    return this.#line.tick;
  }

  get line(): Line {
    return this.#line;
  }

  get done(): boolean {
    return this.#line.tick >= this.#recording.lastTick;
  }

  get keyframes(): number {
    return this.#keyframes.length;
  }

  /** Differences between what was recorded and what was decided again: the first of them, and how many. */
  get differences(): { readonly told: readonly Difference[]; readonly count: number } {
    return { told: this.#differences, count: this.#differing };
  }

  /** One tick as the running line took it: commands first, then the readings of the new moment. */
  #next(line: Line, row: number, facts: Fact[] | null): Line {
    const tick = line.tick + 1;
    let now = line;
    for (const envelope of this.#recording.commandsAt.get(tick) ?? []) {
      const stepped = step(now, { input: 'command', envelope });
      now = stepped.line;
      if (facts !== null) facts.push(...stepped.facts);
    }
    const changed = row < this.#recording.rowTick.length && this.#recording.rowTick.at(row) === tick;
    const readings: Readings = changed ? withRow(this.#recording, now.readings, row) : now.readings;
    const stepped = step(now, { input: 'tick', readings });
    if (facts !== null && stepped.facts.length > 0) facts.push(...stepped.facts);
    return stepped.line;
  }

  #compare(tick: number, replayed: readonly Fact[]): void {
    const recorded = this.#recording.factsAt.get(tick) ?? NO_FACTS;
    if (recorded.length === 0 && replayed.length === 0) return;
    const [was, is] = [canonical(recorded), canonical(replayed)];
    if (was === is) return;
    this.#differing += 1;
    if (this.#differences.length < DIFFERENCES_TOLD)
      this.#differences.push({ tick, recorded: was, replayed: is });
  }

  /** Goes on for about `budgetMs` or to `untilTick`, comparing facts on the way. Throws what the line throws. */
  work(budgetMs: number, untilTick = this.#recording.lastTick): void {
    const endMs = performance.now() + budgetMs;
    const last = Math.min(untilTick, this.#recording.lastTick);
    let facts: Fact[] = [];
    while (this.#line.tick < last) {
      this.#line = this.#next(this.#line, this.#row, facts);
      const { tick } = this.#line;
      if (this.#recording.rowTick.at(this.#row) === tick) this.#row += 1;
      this.#compare(tick, facts);
      if (facts.length > 0) facts = [];
      if (tick % KEYFRAME_TICKS === 0) this.#keyframes.push(this.#line);
      if (tick % CLOCK_LOOK_TICKS === 0 && performance.now() > endMs) return;
    }
  }

  /** The line after `tick`, which must have been reached already; `who` keeps its own place for playing on. */
  lineAt(tick: number, who = ''): Line {
    const wanted = Math.max(0, Math.min(tick, this.#line.tick));
    if (wanted === this.#line.tick) return this.#line;
    const frame = this.#keyframes[Math.min(Math.floor(wanted / KEYFRAME_TICKS), this.#keyframes.length - 1)];
    const near = this.#near.get(who);
    let line = frame ?? this.#line;
    if (near !== undefined && near.tick <= wanted && near.tick > line.tick) line = near;
    let row = rowsUpTo(this.#recording, line.tick);
    while (line.tick < wanted) {
      line = this.#next(line, row, null);
      if (row < this.#recording.rowTick.length && this.#recording.rowTick.at(row) === line.tick) row += 1;
    }
    this.#near.set(who, line);
    return line;
  }
}
