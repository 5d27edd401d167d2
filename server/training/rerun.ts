/** Turns a drill again from its opening over what its log says was put in: the same run, tick for tick. */
import { setImmediate as breathe } from 'node:timers/promises';
import type { DrillEngine, Opening } from './engine.ts';
import type { Heard, LogStory } from './log.ts';

/** Plant time between two moments kept by themselves, ticks: one minute. */
export const MOMENT_TICKS = 600;
/** Ticks turned before the rest of the server has its turn; about 10 ms. */
const SLICE_TICKS = 150;

export type Rerun<R> = {
  readonly run: R;
  /** By tick, one a minute. Runs share all that did not change, so keeping them is cheap. */
  readonly minutes: ReadonlyMap<number, R>;
};

/** The trainee's console in a session: one a person and session, so that the controls are theirs wherever they sit. */
export const consoleIn = (session: string, person: string): string =>
  `drill-${session}-${person}`.slice(0, 64);

export const openingOf = ({ session, seed, hints, trainee }: LogStory['opened']): Opening => ({
  seed,
  hints,
  trainee: { person: trainee.id, role: trainee.role, console: consoleIn(session, trainee.id) },
});

/** The run at tick `upTo`, or where the trainee took over when that is later. Lets other work go on in between. */
export const rerun = async <R>(
  engine: DrillEngine<R>,
  opened: LogStory['opened'],
  heard: readonly Heard[],
  upTo: number,
): Promise<Rerun<R>> => {
  const at = new Map(heard.map((one) => [one.tick, one]));
  const minutes = new Map<number, R>();
  let run = engine.open(opened.drill, openingOf(opened));
  const from = engine.tickOf(run);
  for (let tick = from; ; tick++) {
    if ((tick - from) % MOMENT_TICKS === 0) minutes.set(tick, run);
    if (tick >= upTo) break;
    if (tick % SLICE_TICKS === SLICE_TICKS - 1) await breathe();
    const put = at.get(tick);
    run = engine.advance(run, put?.commands ?? [], put?.acts ?? []).run;
  }
  return { run, minutes };
};
