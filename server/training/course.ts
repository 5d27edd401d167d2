/** The course a drill has taken so far: where it is, what was put into it, and the way back to any of its moments. */
import type { Intervention } from '../../machines/drills/run.types.ts';
import type { CommandEnvelope } from '../../machines/line/commands.ts';
import type { Moment } from '../../machines/live/training.ts';
import { TICK_MS } from '../../machines/record/recorder.ts';
import type { DrillEngine } from './engine.ts';
import type { Heard, LogStory } from './log.ts';
import { MOMENT_TICKS } from './rerun.ts';

export class Course<R> {
  #engine: DrillEngine<R>;
  #run: R;
  /** Tick at which the trainee took over. */
  readonly from: number;
  #heard: Heard[];
  /** One a minute: runs share all that did not change, so keeping them is cheap. */
  #minutes: Map<number, R>;
  #kept: { readonly tick: number; readonly name: string }[];
  #returns: number;

  constructor(engine: DrillEngine<R>, story: LogStory, run: R, minutes: ReadonlyMap<number, R>) {
    this.#engine = engine;
    this.#run = run;
    this.from = Math.min(...minutes.keys());
    this.#heard = [...story.heard];
    this.#minutes = new Map(minutes);
    this.#kept = [...story.kept];
    this.#returns = story.returns;
  }

  get run(): R {
    return this.#run;
  }
  get tick(): number {
    return this.#engine.tickOf(this.#run);
  }
  /** Plant time since the trainee took over, s. */
  get elapsedS(): number {
    return ((this.tick - this.from) * TICK_MS) / 1000;
  }
  get heard(): readonly Heard[] {
    return this.#heard;
  }
  get returns(): number {
    return this.#returns;
  }
  get keptCount(): number {
    return this.#kept.length;
  }

  /** What the next tick would bring; nothing changes until it is adopted. */
  next(
    commands: readonly CommandEnvelope[],
    acts: readonly Intervention[],
  ): ReturnType<DrillEngine<R>['advance']> {
    return this.#engine.advance(this.#run, commands, acts);
  }

  adopt(run: R, heard: Heard | null): void {
    const { tick } = this;
    if ((tick - this.from) % MOMENT_TICKS === 0) this.#minutes.set(tick, this.#run);
    if (heard !== null) this.#heard.push(heard);
    this.#run = run;
  }

  keep(name: string): void {
    this.#kept.push({ tick: this.tick, name });
  }

  /** The run as it was at a tick it has passed. */
  runAt(tick: number): R {
    if (tick === this.tick) return this.#run;
    let at = tick - ((tick - this.from) % MOMENT_TICKS);
    let run = this.#minutes.get(at);
    if (run === undefined) throw new Error(`no run is kept for tick ${at}`);
    const put = new Map(this.#heard.map((one) => [one.tick, one]));
    for (; at < tick; at++)
      run = this.#engine.advance(run, put.get(at)?.commands ?? [], put.get(at)?.acts ?? []).run;
    return run;
  }

  /** Goes back to a run of its own at that tick: what came after is forgotten. */
  turnBack(run: R, tick: number): void {
    this.#run = run;
    this.#heard = this.#heard.filter((one) => one.tick < tick);
    this.#kept = this.#kept.filter((one) => one.tick <= tick);
    for (const minute of this.#minutes.keys()) if (minute > tick) this.#minutes.delete(minute);
    this.#returns += 1;
  }

  moments(): readonly Moment[] {
    const byMinute = [...this.#minutes.keys()].map((tick) => ({ tick, atMs: tick * TICK_MS, name: null }));
    const named = this.#kept.map(({ tick, name }) => ({ tick, atMs: tick * TICK_MS, name }));
    return [...byMinute, ...named].sort((a, b) => a.tick - b.tick);
  }
}
