/** All training sessions of a server: begun, brought back after a restart, steered, and concluded. */
import { randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import { setImmediate as breathe } from 'node:timers/promises';
import type { z } from 'zod';
import type { LineView } from '../../machines/line/view.types.ts';
import type { Answer } from '../../machines/live/protocol.ts';
import {
  type Attempt,
  type DrillCard,
  SESSIONS_LIMIT,
  type SessionAsk,
  type SessionTile,
  type startSchema,
} from '../../machines/live/training.ts';
import { PHYSICS_VERSION, PROGRAM } from '../../machines/record/version.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { messageOf, PlainError } from '../plain-error.ts';
import { refused } from '../runner/command-queue.ts';
import { type Clock, SYSTEM_CLOCK } from '../runner/line-engine.ts';
import { whyNotWritten } from '../runner/trouble.ts';
import { interventionOf } from './acts.ts';
import type { DrillEngine } from './engine.ts';
import type { TrainingFiles } from './files.ts';
import { type Heard, type LogStory, type Opened, openLog, readLog, storyOf } from './log.ts';
import { consoleIn, type Rerun, rerun } from './rerun.ts';
import { whyNotStart, whyNotSteer, whyNotWatch } from './rights.ts';
import { whyNotSame } from './same-drill.ts';
import { TrainingSession } from './session.ts';

/** Ended sessions whose consoles may still look at the last moment. */
const OVER_KEPT = 12;
/** Ended sessions kept turned, for looking at their moments one after another. */
const RERUNS_KEPT = 2;

type Start = z.output<typeof startSchema>;
export type Begun = { readonly answer: Answer; readonly session: string | null };

export type HouseParts<R> = {
  readonly engine: DrillEngine<R>;
  readonly files: TrainingFiles;
  /** People of the plant. */
  readonly people: () => readonly Person[];
  readonly clock?: Clock;
  readonly log: (line: string) => void;
};

export class TrainingHouse<R> {
  #engine: DrillEngine<R>;
  #files: TrainingFiles;
  #people: () => readonly Person[];
  #clock: Clock;
  #log: (line: string) => void;
  #live = new Map<string, TrainingSession<R>>();
  #over = new Map<string, TrainingSession<R>>();
  #beginning = 0;
  #attempts: Attempt[] = [];
  #reruns = new Map<string, Promise<Rerun<R>>>();
  #opened = new Set<(session: TrainingSession<R>) => void>();
  #closed = new Set<(session: TrainingSession<R>) => void>();

  constructor({ engine, files, people, clock = SYSTEM_CLOCK, log }: HouseParts<R>) {
    this.#engine = engine;
    this.#files = files;
    this.#people = people;
    this.#clock = clock;
    this.#log = log;
  }

  cards(): readonly DrillCard[] {
    return this.#engine.cards();
  }
  personOf(id: string): Person | null {
    return this.#people().find((person) => person.id === id) ?? null;
  }
  /** Sessions under way, and those just ended. */
  session(id: string): TrainingSession<R> | null {
    return this.#live.get(id) ?? this.#over.get(id) ?? null;
  }
  sessions(): readonly TrainingSession<R>[] {
    return [...this.#live.values()];
  }
  tiles(): readonly SessionTile[] {
    return this.sessions().map((session) => session.tile());
  }
  onOpened(listener: (session: TrainingSession<R>) => void): () => void {
    for (const session of this.#live.values()) listener(session);
    this.#opened.add(listener);
    return () => this.#opened.delete(listener);
  }
  /** Its consoles are to be let go. */
  onClosed(listener: (session: TrainingSession<R>) => void): () => void {
    this.#closed.add(listener);
    return () => this.#closed.delete(listener);
  }

  /** Brings back what was under way when the server last stopped, frozen, each turned again from its log. */
  async restore(): Promise<void> {
    this.#attempts = [...this.#files.attempts()];
    for (const id of this.#files.live()) {
      try {
        if (this.#files.isEnded(id)) {
          this.#files.moveToEnded(id);
          continue;
        }
        const { lines, soundBytes } = readLog(this.#files.liveLog(id));
        const story = storyOf(lines);
        const no = whyNotSame(this.#engine, story.opened);
        if (no !== null) throw new PlainError(`${no} Begin the drill anew.`);
        const { run, minutes } = await rerun(this.#engine, story.opened, story.heard, story.tick);
        const log = openLog(this.#files.liveLog(id), soundBytes);
        await this.#open({ story, log, run, minutes }, 1, 'the restart of the server');
      } catch (error) {
        const place = this.#files.setAside(id);
        this.#log(`The drill ${id} could not be brought back and lies in ${place}: ${messageOf(error)}`);
      }
    }
  }

  async start(ask: Start, person: Person): Promise<Begun> {
    const no = (because: string): Begun => ({ answer: refused(because), session: null });
    const trainee = this.personOf(ask.trainee);
    if (trainee === null) return no(`${ask.trainee} is not on the list of people.`);
    const may = whyNotStart(person, trainee);
    if (may !== null) return no(may);
    if (this.#live.size + this.#beginning >= SESSIONS_LIMIT)
      return no(`${SESSIONS_LIMIT} drills are under way, which is the most at once: finish one first.`);
    const busy = this.sessions().find(({ opened }) => opened.trainee.id === trainee.id);
    if (busy !== undefined)
      return no(`${trainee.name} is in “${busy.card.name}” already: finish that drill first.`);
    this.#beginning += 1;
    try {
      return await this.#begin(ask, person, trainee);
    } catch (error) {
      return no(`The drill could not be begun: ${messageOf(error)}`);
    } finally {
      this.#beginning -= 1;
    }
  }

  async #begin(ask: Start, person: Person, trainee: Person): Promise<Begun> {
    const no = (because: string): Begun => ({ answer: refused(because), session: null });
    const session = randomBytes(5).toString('hex');
    const earlier = ask.from === undefined ? null : await this.#storyOf(ask.from.session);
    if (ask.from !== undefined) {
      if (earlier === null) return no('The attempt to go on from is not there any more.');
      if (earlier.opened.trainee.id !== trainee.id)
        return no(
          `That attempt was made by ${earlier.opened.trainee.name}: only the same person goes on from it.`,
        );
      if (ask.from.tick > earlier.tick) return no('That attempt ended before that moment.');
      const other = whyNotSame(this.#engine, earlier.opened);
      if (other !== null)
        return no(`That attempt cannot be gone on from: ${other} Its debrief stays as it was.`);
    }
    const opened: Opened = {
      is: 'opened',
      format: 1,
      program: PROGRAM,
      physics: PHYSICS_VERSION,
      drillDigest: this.#engine.digestOf(earlier?.opened.drill ?? ask.drill),
      session,
      drill: earlier?.opened.drill ?? ask.drill,
      seed: earlier?.opened.seed ?? ask.seed ?? randomBytes(4).readUInt32BE(),
      hints: earlier?.opened.hints ?? ask.hints,
      trainee: { id: trainee.id, name: trainee.name, role: trainee.role },
      by: { id: person.id, name: person.name, role: person.role },
      wall: this.#wall(),
      from: ask.from ?? null,
    };
    const heard = earlier === null ? [] : movedTo(session, earlier, ask.from?.tick ?? 0);
    const { run, minutes } = await rerun(this.#engine, opened, heard, ask.from?.tick ?? 0);
    const log = openLog(this.#files.liveLog(session));
    const tick = this.#engine.tickOf(run);
    log.write([opened, ...heard, { is: 'at', tick }], true);
    const story: LogStory = { opened, heard, kept: [], tick, returns: 0, ended: null };
    await this.#open({ story, log, run, minutes }, ask.speed, ask.frozen ? person.name : null);
    return { answer: { ok: true }, session };
  }

  async #open(
    parts: { story: LogStory; log: ReturnType<typeof openLog>; run: R; minutes: ReadonlyMap<number, R> },
    speed: number,
    frozenBy: string | null,
  ): Promise<void> {
    const { opened } = parts.story;
    const card = this.cards().find(({ id }) => id === opened.drill);
    if (card === undefined) throw new Error(`there is no drill ${opened.drill} any more`);
    const session = new TrainingSession<R>({
      ...parts,
      engine: this.#engine,
      card,
      clock: this.#clock,
      say: this.#log,
      onOver: () => void this.#conclude(session),
    });
    this.#live.set(opened.session, session);
    for (const tell of this.#opened) tell(session);
    await session.begin(speed, frozenBy);
  }

  async ask(id: string, ask: SessionAsk, person: Person): Promise<Answer> {
    const session = this.session(id);
    if (session === null) return refused('There is no such drill under way.');
    const no = whyNotSteer(person, session.opened, ask.do);
    if (no !== null) return refused(no);
    switch (ask.do) {
      case 'freeze':
        return session.freeze(person);
      case 'goOn':
        return session.goOn();
      case 'speed':
        return session.setSpeed(ask.speed);
      case 'keepMoment':
        return session.keepMoment(ask.name);
      case 'returnTo':
        return session.returnTo(ask.tick, person);
      default:
        return session.act(interventionOf(ask, person));
    }
  }

  /** Attempts that person may see, the newest first; of one trainee when named. */
  history(person: Person, trainee: string | null): readonly Attempt[] {
    return this.#attempts
      .filter((one) => trainee === null || one.trainee.id === trainee)
      .filter((one) => whyNotWatch(person, one) === null)
      .sort((a, b) => (a.endedWall < b.endedWall ? 1 : -1));
  }
  attempt(session: string): Attempt | null {
    return this.#attempts.find((one) => one.session === session) ?? null;
  }
  debrief(session: string): unknown {
    return this.attempt(session) === null ? null : this.#files.debrief(session);
  }

  /** The line as it was at a moment of an attempt, under way or ended; null when there is no such moment. */
  async viewAt(id: string, tick: number): Promise<LineView | null> {
    const session = this.session(id);
    if (session !== null)
      return tick >= session.course.from && tick <= session.course.tick
        ? this.#engine.viewOf(session.course.runAt(tick))
        : null;
    const story = await this.#storyOf(id);
    if (story === null || tick > story.tick) return null;
    const other = whyNotSame(this.#engine, story.opened);
    if (other !== null)
      throw new PlainError(`Its moments cannot be shown: ${other} Its debrief stays as it was.`);
    let found = this.#reruns.get(id);
    if (found === undefined) {
      found = rerun(this.#engine, story.opened, story.heard, story.tick);
      this.#reruns.set(id, found);
      if (this.#reruns.size > RERUNS_KEPT) this.#reruns.delete(this.#reruns.keys().next().value as string);
    }
    const { minutes } = await found;
    const before = [...minutes.keys()].filter((kept) => kept <= tick).at(-1);
    let run = before === undefined ? undefined : minutes.get(before);
    if (before === undefined || run === undefined) return null;
    const at = new Map(story.heard.map((one) => [one.tick, one]));
    for (let now = before; now < tick; now++)
      run = this.#engine.advance(run, at.get(now)?.commands ?? [], at.get(now)?.acts ?? []).run;
    return this.#engine.viewOf(run);
  }

  async close(): Promise<void> {
    for (const session of this.#live.values()) {
      await session.stop();
      session.close();
    }
    this.#live.clear();
  }

  #wall(): string {
    return new Date(this.#clock.wallMs()).toISOString();
  }

  /** The drill is over: what it came to is made and kept, then its log is closed. */
  async #conclude(session: TrainingSession<R>): Promise<void> {
    // The answers of its last tick go out first: the debrief takes a moment.
    await breathe();
    const { id, opened } = session;
    try {
      const { outcome, debrief } = this.#engine.debriefOf(session.course.run);
      const attempt: Attempt = {
        session: id,
        drill: opened.drill,
        drillName: session.card.name,
        trainee: { id: opened.trainee.id, name: opened.trainee.name },
        by: { id: opened.by.id, name: opened.by.name },
        seed: opened.seed,
        hints: opened.hints,
        endedWall: this.#wall(),
        minutes: Math.round(session.course.elapsedS / 6) / 10,
        returns: session.course.returns,
        from: opened.from,
        ...outcome,
      };
      this.#files.keep(attempt, { ...(debrief as object), attempt, startTick: session.course.from });
      session.write({ is: 'ended', tick: session.course.tick, by: 'the drill', wall: attempt.endedWall });
      this.#attempts.push(attempt);
      this.#live.delete(id);
      await session.stop();
      session.close();
      this.#files.moveToEnded(id);
      this.#keepOver(session);
    } catch (error) {
      this.#log(
        `The debrief of drill ${id} could not be made: ${error instanceof Error ? error.stack : error}`,
      );
      session.fail(`The debrief could not be made: ${whyNotWritten(error)}`);
    }
  }

  #keepOver(session: TrainingSession<R>): void {
    this.#over.set(session.id, session);
    if (this.#over.size <= OVER_KEPT) return;
    const [oldest] = this.#over.values();
    if (oldest === undefined) return;
    this.#over.delete(oldest.id);
    for (const tell of this.#closed) tell(oldest);
  }

  async #storyOf(id: string): Promise<LogStory | null> {
    const file = [this.#files.endedLog(id), this.#files.liveLog(id)].find((path) => existsSync(path));
    return file === undefined ? null : storyOf(readLog(file).lines);
  }
}

/** What was put into an earlier attempt before a tick, as if done at the consoles of the drill now begun. */
const movedTo = (session: string, { opened, heard }: LogStory, tick: number): readonly Heard[] => {
  const before = consoleIn(opened.session, opened.trainee.id);
  const now = consoleIn(session, opened.trainee.id);
  return heard
    .filter((one) => one.tick < tick)
    .map((one) => ({
      ...one,
      commands: one.commands.map((sent) =>
        sent.by.console === before ? { ...sent, by: { ...sent.by, console: now } } : sent,
      ),
    }));
};
