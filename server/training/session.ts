/**
 * One training session: a line of its own that runs in real time beside the plant's line, kept in a log of
 * its own. To consoles it is a runner like the plant's; to the trainer's seat it can be frozen and turned back.
 */
import type { Intervention } from '../../machines/drills/run.types.ts';
import type { CommandEnvelope } from '../../machines/line/commands.ts';
import type { Answer, RunCommand, RunView, ShiftChoice } from '../../machines/live/protocol.ts';
import type {
  DrillBand,
  DrillCard,
  SessionDetail,
  SessionState,
  SessionTile,
} from '../../machines/live/training.ts';
import { TICK_MS } from '../../machines/record/recorder.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { messageOf } from '../plain-error.ts';
import { refused } from '../runner/command-queue.ts';
import { type Clock, SYSTEM_CLOCK } from '../runner/line-engine.ts';
import { Pace } from '../runner/pace.ts';
import type { Runner, Shown } from '../runner/runner.ts';
import { whyNotWritten } from '../runner/trouble.ts';
import { Course } from './course.ts';
import type { DrillEngine } from './engine.ts';
import { Inbox } from './inbox.ts';
import type { Heard, LogLine, LogStory, SessionLog } from './log.ts';
import { isAlone, whyNotCommand, whyNotSteer } from './rights.ts';
import { bandOf, messagesOf, type Standing, tileOf } from './seat-view.ts';
import { Showing } from './showing.ts';

/** How often a session in trouble looks whether there is something to answer. */
const TROUBLED_EVERY_MS = 1000;
const NOTE_EVERY_MS = 1000;
const MOMENTS_LIMIT = 50;
/** Ticks a session turns at most before the others have their turn. */
const TURN_TICKS = 100;

const OVER = refused('The drill is over.');

export type SessionParts<R> = {
  readonly engine: DrillEngine<R>;
  readonly card: DrillCard;
  readonly story: LogStory;
  readonly log: SessionLog;
  readonly run: R;
  readonly minutes: ReadonlyMap<number, R>;
  readonly clock?: Clock;
  readonly say: (line: string) => void;
  /** The drill has come to its own end. */
  readonly onOver: () => void;
};

export class TrainingSession<R> implements Runner {
  readonly shifts: readonly ShiftChoice[] = [];
  readonly card: DrillCard;
  #engine: DrillEngine<R>;
  #story: LogStory;
  #log: SessionLog;
  #clock: Clock;
  #say: (line: string) => void;
  #onOver: () => void;
  #pace: Pace;
  readonly course: Course<R>;
  #inbox = new Inbox();
  #frozenBy: string | null = null;
  #stopped = true;
  #trouble: string | null = null;
  /** The drill has ended; its debrief is being made. */
  #concluding = false;
  #timer: NodeJS.Timeout | null = null;
  #showing: Showing;
  #notedAtMs = Number.NEGATIVE_INFINITY;
  #shiftNo = 1;
  /** Consoles that look at it now; kept by the sockets. */
  watching = 0;

  constructor(parts: SessionParts<R>) {
    const { engine, card, story, log, run, minutes, clock = SYSTEM_CLOCK, say, onOver } = parts;
    this.#engine = engine;
    this.card = card;
    this.#story = story;
    this.#log = log;
    this.#clock = clock;
    this.#say = say;
    this.#onOver = onOver;
    this.course = new Course(engine, story, run, minutes);
    this.#pace = new Pace(clock, 1);
    this.#showing = new Showing(clock, () => this.#make());
  }

  get id(): string {
    return this.#story.opened.session;
  }
  get opened(): LogStory['opened'] {
    return this.#story.opened;
  }
  get scenario(): Scenario {
    return this.#engine.scenarioOf(this.course.run);
  }
  get state(): SessionState {
    if (this.#stopped) return 'over';
    return this.#pace.paused ? 'frozen' : 'running';
  }

  async begin(speed = 1, frozenBy: string | null = null): Promise<void> {
    this.#stopped = false;
    this.#pace.setSpeed(speed);
    if (frozenBy !== null) this.#freeze(frozenBy);
    this.#show(true);
    this.#schedule(0);
  }

  /** Stands still for good: what waits is refused, how far it got is written. */
  async stop(): Promise<void> {
    if (this.#stopped) return;
    if (!this.#concluding) this.#note(true);
    this.#stopped = true;
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#inbox.refuseAll('The drill is over.');
    this.#show(true);
  }

  close(): void {
    this.#log.close();
  }

  write(line: LogLine): void {
    this.#log.write([line], true);
  }

  /** Stands still with words of what went wrong; a trainer may let it go on or finish it again. */
  fail(why: string): void {
    this.#trouble = why;
    this.#concluding = false;
    this.#freeze('the program');
    this.#show(true);
  }

  command(envelope: CommandEnvelope): Promise<Answer> {
    const known = this.#inbox.known(envelope);
    if (known !== null) return known;
    const { by, command } = envelope;
    const person: Person = { id: by.person, name: this.#nameOf(by.person), role: by.role as Person['role'] };
    const no = whyNotCommand(person, this.opened, command.do) ?? this.#whyNotNow(command.do, person);
    if (no !== null) return Promise.resolve(refused(no));
    const answer = this.#inbox.command(envelope);
    this.#schedule(0);
    return answer;
  }

  /** The pause and speed keys of the console. */
  async run(command: RunCommand, by: Person): Promise<Answer> {
    if (command.do === 'nextShift') return refused('A drill has no next shift: finish it and begin another.');
    const what = command.do === 'pause' ? 'freeze' : command.do === 'resume' ? 'goOn' : 'speed';
    const no = whyNotSteer(by, this.opened, what);
    if (no !== null) return refused(no);
    if (command.do === 'speed') return this.setSpeed(command.speed);
    return command.do === 'pause' ? this.freeze(by) : this.goOn();
  }

  note(what: string, detail: string): void {
    this.#say(`drill ${this.id}: ${what}, ${detail}`);
  }

  freeze(by: Person): Answer {
    if (this.#isOver()) return OVER;
    this.#freeze(by.name);
    this.#show(true);
    return { ok: true };
  }

  goOn(): Answer {
    if (this.#isOver()) return OVER;
    const still = this.#trouble === null ? null : this.#tryWrite({ is: 'at', tick: this.course.tick });
    if (still !== null) return refused(still);
    this.#trouble = null;
    this.#frozenBy = null;
    this.#pace.setPaused(false);
    this.#show(true);
    this.#schedule(0);
    return { ok: true };
  }

  setSpeed(speed: number): Answer {
    if (this.#isOver()) return OVER;
    this.#pace.setSpeed(speed);
    this.#show(true);
    this.#schedule(0);
    return { ok: true };
  }

  keepMoment(name: string): Answer {
    if (this.#isOver()) return OVER;
    if (this.course.keptCount >= MOMENTS_LIMIT)
      return refused(`${MOMENTS_LIMIT} moments are kept already: return to one of them.`);
    const no = this.#tryWrite({ is: 'kept', tick: this.course.tick, name });
    if (no !== null) return refused(no);
    this.course.keep(name);
    return { ok: true };
  }

  /** An act of the trainer or trainee goes into a coming tick; answered when it is on the disk. */
  act(act: Intervention): Promise<Answer> {
    if (this.#isOver()) return Promise.resolve(OVER);
    if (this.#trouble !== null) return Promise.resolve(refused(`Not done: ${this.#trouble}`));
    const answer = this.#inbox.act(act);
    this.#schedule(0);
    return answer;
  }

  /** Back to a moment, frozen there: what came after it is undone, and the debrief says that it happened. */
  returnTo(tick: number, by: Person): Answer {
    if (this.#isOver()) return OVER;
    const { course } = this;
    if (tick > course.tick || tick < course.from)
      return refused(
        `That moment is not in this drill: it goes from tick ${course.from} to ${course.tick} so far.`,
      );
    const run = course.runAt(tick);
    const wall = new Date(this.#clock.wallMs()).toISOString();
    const no = this.#tryWrite({ is: 'returned', fromTick: course.tick, tick, by: by.id, wall });
    if (no !== null) return refused(no);
    this.#inbox.refuseAll(`${by.name} turned the drill back before this was done.`);
    course.turnBack(run, tick);
    this.#shiftNo += 1;
    this.#freeze(by.name);
    this.#show(true);
    return { ok: true };
  }

  shown(): Shown {
    return this.#showing.shown;
  }

  onShown(listener: (shown: Shown) => void): () => void {
    return this.#showing.onShown(listener);
  }

  band(): DrillBand {
    return bandOf(this.#standing(), this.#engine.seatOf(this.course.run));
  }

  tile(): SessionTile {
    const standings = this.#engine.standingsOf(this.course.run);
    return tileOf(this.#standing(), this.shown().view, standings, this.watching);
  }

  /** Everything the trainer's seat shows of it, hidden faults too. */
  detail(): SessionDetail {
    const { run, from, returns } = this.course;
    return {
      tile: this.tile(),
      moments: this.course.moments(),
      messages: messagesOf(this.#engine.seatOf(run)),
      faults: this.#engine.faultsOf(run),
      planned: this.#engine.plannedOf(run),
      returns,
      fromTick: from,
    };
  }

  #standing(): Standing {
    const { opened, card, state } = this;
    const { tick, elapsedS } = this.course;
    const { speed } = this.#pace;
    return { opened, card, state, speed, frozenBy: this.#frozenBy, atMs: tick * TICK_MS, elapsedS };
  }

  #nameOf(person: string): string {
    return this.scenario.people.find(({ id }) => id === person)?.name ?? person;
  }

  #isOver(): boolean {
    return this.#stopped || this.#concluding;
  }

  #whyNotNow(command: string, by: Person): string | null {
    if (this.#isOver()) return 'The drill is over: look at the debrief, or begin another.';
    if (this.#trouble !== null) return `Not carried out: ${this.#trouble}`;
    if (!this.#inbox.hasRoomFor(command)) return 'Too many commands are waiting: try again in a moment.';
    if (this.#frozenBy === null || command === 'emergencyStop' || command === 'takeControls') return null;
    if (isAlone(this.opened))
      return `The drill is frozen by ${this.#frozenBy}: let it go on first, with the pause key at the top.`;
    return by.id === this.opened.trainee.id
      ? `${this.#frozenBy} has frozen the drill: wait until it goes on.`
      : 'The drill is frozen: let it go on first.';
  }

  #freeze(by: string): void {
    this.#frozenBy = by;
    this.#pace.setPaused(true);
    this.#note(true);
  }

  #schedule(inMs: number): void {
    if (this.#stopped) return;
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.#timer = null;
      try {
        this.#turn();
      } catch (error) {
        this.#breakDown(error);
      }
    }, inMs);
  }

  #turn(): void {
    if (this.#isOver()) return;
    const asked = this.#inbox.length > 0;
    // Many drills at full speed run slower rather than keep the plant's line waiting.
    let due = this.#trouble === null ? Math.min(this.#pace.take(), TURN_TICKS) : 0;
    if (due === 0 && asked && this.#pace.paused) due = 1;
    for (let i = 0; i < due && !this.#isOver() && this.#trouble === null; i++) this.#tick();
    this.#note(false);
    this.#show(asked);
    if (!this.#pace.paused || this.#inbox.length > 0)
      this.#schedule(this.#trouble === null ? this.#pace.nextTurnInMs() : TROUBLED_EVERY_MS);
  }

  #tick(): void {
    const { tick } = this.course;
    const taken = this.#inbox.take();
    const commands = taken.commands.map(({ envelope }) => envelope);
    const acts = taken.acts.map(({ act }) => act);
    const next = this.course.next(commands, acts);
    const isHeard = commands.length + acts.length > 0;
    const heard: Heard | null = isHeard
      ? { is: 'heard', tick, commands: commands as Heard['commands'], acts }
      : null;
    // On the disk before it is so: what cannot be kept has not happened.
    const no = heard === null ? null : this.#tryWrite(heard);
    if (no !== null) {
      for (const { answer } of [...taken.commands, ...taken.acts]) answer(refused(no));
      return;
    }
    this.course.adopt(next.run, heard);
    for (const { envelope, answer } of taken.commands)
      answer(
        next.answers.find(({ id }) => id === envelope.id)?.answer ?? refused('The line gave no answer.'),
      );
    for (const { answer } of taken.acts)
      answer(next.because.length === 0 ? { ok: true } : refused(...next.because));
    if (this.#engine.seatOf(next.run).ended !== null) {
      this.#concluding = true;
      this.#freeze('the end of the drill');
      this.#onOver();
    }
  }

  #tryWrite(line: LogLine): string | null {
    try {
      this.#log.write([line], true);
      return null;
    } catch (error) {
      this.#trouble = `The log of this drill cannot be written: ${whyNotWritten(error)}. Mend that, then let the drill go on.`;
      this.#say(`drill ${this.id}: ${this.#trouble}`);
      this.#frozenBy = 'the program';
      this.#pace.setPaused(true);
      return this.#trouble;
    }
  }

  #note(now: boolean): void {
    if (this.#stopped || this.#trouble !== null) return;
    const nowMs = this.#clock.monoMs();
    if (!now && nowMs - this.#notedAtMs < NOTE_EVERY_MS) return;
    this.#notedAtMs = nowMs;
    try {
      this.#log.write([{ is: 'at', tick: this.course.tick }], false);
    } catch (error) {
      this.#say(`drill ${this.id}: how far it got could not be written: ${messageOf(error)}`);
    }
  }

  #breakDown(error: unknown): void {
    this.#trouble = `The drill stopped at a fault of the program: ${messageOf(error)}`;
    this.#say(error instanceof Error ? (error.stack ?? error.message) : String(error));
    this.#frozenBy = 'the program';
    this.#pace.setPaused(true);
    this.#inbox.refuseAll(this.#trouble);
    this.#show(true);
  }

  #make(): Shown {
    return { view: this.#engine.viewOf(this.course.run), run: this.#runView(), shiftNo: this.#shiftNo };
  }

  #runView(): RunView {
    const { speed, paused } = this.#pace;
    return { simulated: true, speed, paused, seq: 0, head: '', trouble: this.#trouble };
  }

  #show(now: boolean): void {
    this.#showing.show(now, this.watching > 0);
  }
}
