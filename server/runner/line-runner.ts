/**
 * Runs one line in real time: plant ticks as they fall due, commands into the next tick, everything
 * decided durable before it is acknowledged or shown.
 */
import { localAt } from '../../machines/ledger/clock.ts';
import type { LedgerAsk } from '../../machines/ledger/put.ts';
import type { CommandEnvelope } from '../../machines/line/commands.ts';
import type { LineView } from '../../machines/line/view.types.ts';
import type { Answer, RunCommand, RunView, ShiftChoice } from '../../machines/live/protocol.ts';
import type { PlantKey } from '../../machines/record/crypto.types.ts';
import type { EntryContent } from '../../machines/record/entry.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import type { TrueValues } from '../../machines/world/bench-truth.ts';
import { askLedger, type ToAppend } from '../ledger/ask.ts';
import { messageOf } from '../plain-error.ts';
import { type Sealing, sealEnded, sealWhatIsLeft } from '../seal/in-runner.ts';
import type { Store } from '../store/store.ts';
import { Audience } from './audience.ts';
import { beginNext, type NextShift } from './begin-next.ts';
import { BookWatch } from './book-watch.ts';
import { Checkpoints } from './checkpoints.ts';
import { ClockWatch } from './clock-watch.ts';
import { CommandQueue, refused, type Waiting } from './command-queue.ts';
import type { Journal } from './journal.ts';
import { type AnyWorld, type Clock, type LineEngine, SYSTEM_CLOCK } from './line-engine.ts';
import { choicesOf, NO_OTHERS, type ShiftsOffered } from './next-shift.ts';
import { Pace } from './pace.ts';
import type { Restored } from './restore.ts';
import { roomOf } from './room-watch.ts';
import { RunQueue } from './run-queue.ts';
import { whyRoleMayNot } from './run-roles.ts';
import type { PlantRunner, RunnerOptions, Shown } from './runner.types.ts';
import { signedEntry } from './signed-entry.ts';
import { faultTrouble, type Held, recordTrouble, troubleOver, whyNotNow, whyNotWritten } from './trouble.ts';
import { turnTicks } from './turn-ticks.ts';

const RETRY_MS = 1000;
const STOPPING = 'The server is stopping: give the command again when it is back.';

export class LineRunner<W extends AnyWorld> implements PlantRunner {
  #scenario: Scenario;
  /** The scenario as its files have it. */
  #files: Scenario;
  #offered: ShiftsOffered;
  #shiftNo = 1;
  #engine: LineEngine<W>;
  #store: Store;
  #clock: Clock;
  #log: (line: string) => void;
  #journal: Journal;
  #pace: Pace;
  #clockWatch: ClockWatch;
  #checkpoints: Checkpoints<W>;
  #commands: CommandQueue;
  #runs = new RunQueue();
  #world: W;
  /** The shift is over: plant time stands still. */
  #ended = false;
  #key: PlantKey | null;
  /** A shift has begun: its secret is saved before anything rests on it. */
  #toSave = false;
  /** The shift is over and its seal is still to be made. */
  #toSeal = false;
  #stopped = true;
  #trouble: string | null = null;
  #held: Held | null = null;
  #books: BookWatch;
  /** The line itself threw: it is not run any further. */
  #broken = false;
  /** Answers that wait for a failed commit to go through. */
  #settleLater: () => void = () => undefined;
  #timer: NodeJS.Timeout | null = null;
  #turning: Promise<void> = Promise.resolve();
  #audience: Audience;

  constructor(options: RunnerOptions<W>, found: Restored<W>, journal: Journal) {
    const { engine, store, clock = SYSTEM_CLOCK, log = () => undefined, speed = 1 } = options;
    this.#scenario = found.scenario;
    this.#files = found.files;
    this.#offered = options.shifts ?? NO_OTHERS;
    this.#engine = engine;
    this.#store = store;
    this.#clock = clock;
    this.#log = log;
    this.#journal = journal;
    this.#world = found.world;
    this.#key = options.key ?? null;
    this.#pace = new Pace(clock, speed);
    this.#clockWatch = new ClockWatch(clock);
    this.#books = new BookWatch(store, clock);
    this.#checkpoints = new Checkpoints(engine, store, clock, found.world);
    this.#commands = new CommandQueue(
      store,
      (name) => this.#whyNotNow(name),
      () => {
        if (this.#standing()) this.#schedule(0);
      },
    );
    const view = engine.viewOf(found.world);
    this.#audience = new Audience({ view, run: this.#runView(), shiftNo: this.#shiftNo });
  }

  get scenario(): Scenario {
    return this.#scenario;
  }

  get shifts(): readonly ShiftChoice[] {
    return choicesOf(this.#files, this.#offered);
  }

  async begin(): Promise<void> {
    await this.#journal.commit();
    if (this.#world.tick === 0) await this.#checkpoints.save(this.#world, this.#journal.end);
    await sealWhatIsLeft(this.#sealing());
    await this.#books.look(true);
    this.#stopped = false;
    this.#pace.restart();
    this.#show(true);
    this.#schedule(0);
  }

  async stop(): Promise<void> {
    if (this.#stopped) return;
    this.#stopped = true;
    if (this.#timer !== null) clearTimeout(this.#timer);
    await this.#turning;
    this.#commands.refuseAll(STOPPING);
    this.#runs.refuseAll(STOPPING);
    if (this.#trouble !== null) {
      // What is not durable was never acknowledged: one last try, then let it go and say so.
      await this.#journal
        .commit()
        .catch((error) => this.#log(`The last entries could not be recorded: ${messageOf(error)}`));
      return;
    }
    this.#journal.flushReadings();
    this.#journal.note('stopped', `stopped in good order at tick ${this.#world.tick}`, this.#world.atMs);
    await this.#journal.commit();
    await this.#checkpoints.save(this.#world, this.#journal.end);
  }

  command(envelope: CommandEnvelope): Promise<Answer> {
    return this.#commands.give(envelope);
  }

  async run(command: RunCommand, by: Person): Promise<Answer> {
    const no = whyRoleMayNot(by.role, command) ?? this.#whyNotNow(command.do);
    if (no !== null) return refused(no);
    return this.#runs.give(command, by, () => this.#schedule(0));
  }

  note(what: string, detail: string): void {
    if (!this.#stopped) this.#journal.note(what, detail, this.#world.atMs);
  }

  append(make: (key: PlantKey) => Promise<EntryContent>): Promise<Answer> {
    return this.#betweenTurns('append', () => signedEntry(this.#key, make));
  }

  askBook(ask: LedgerAsk): Promise<Answer> {
    return this.#betweenTurns(ask.book, () => askLedger(this.#store, ask, this.plantClock(), this.#log));
  }

  /** Makes entries while no turn runs; they are durable when it is answered. */
  #betweenTurns(what: string, make: () => Promise<ToAppend>): Promise<Answer> {
    const work = async (): Promise<Answer> => {
      const no = this.#whyNotNow(what);
      if (no !== null) return refused(no);
      const { atMs } = this.#world;
      const made = await make();
      if (!('contents' in made)) return made;
      for (const content of made.contents) this.#journal.add(content, atMs);
      try {
        await this.#journal.commit();
      } catch (error) {
        this.#holdForRecord(error);
        return refused(`It is kept until the record can be written again: ${whyNotWritten(error)}`);
      }
      await this.#books.look(true);
      this.#show(true);
      return { ok: true };
    };
    const done = this.#turning.then(work);
    this.#turning = done.then(
      () => undefined,
      () => undefined,
    );
    return done;
  }

  benchTruth(lot: string, sample: number): TrueValues | null {
    return this.#engine.benchTruth?.(this.#world, lot, sample) ?? null;
  }

  plantClock(): string {
    const { date, startsAt } = this.#scenario.shift;
    return localAt(date, startsAt, this.#world.atMs);
  }

  /** What sealing asks of the runner. */
  #sealing(): Sealing {
    const { atMs } = this.#world;
    return { store: this.#store, key: this.#key, journal: this.#journal, atMs, log: this.#log };
  }

  shown(): Shown {
    return this.#audience.shown;
  }

  onShown(listener: (shown: Shown) => void): () => void {
    return this.#audience.join(listener);
  }

  #runView(): RunView {
    const { speed, paused } = this.#pace;
    const { seq, hash: head } = this.#journal.end;
    const [trouble, ledger] = [this.#trouble, this.#books.seq];
    return { simulated: true, speed, paused, seq, head, trouble, ledger, ...roomOf(this.#store) };
  }

  #whyNotNow(command: string): string | null {
    if (this.#stopped) return 'The line is not running: wait until the server is up.';
    return this.#trouble === null ? null : whyNotNow(command, this.#trouble);
  }

  /** Plant time stands still; a command then moves it by the one tick it needs. */
  #standing(): boolean {
    return this.#pace.paused || this.#ended;
  }

  #schedule(inMs: number): void {
    if (this.#stopped || this.#broken) return;
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.#timer = null;
      this.#turning = this.#turning.then(() => this.#turn()).catch((error) => this.#breakDown(error, []));
    }, inMs);
  }

  async #turn(): Promise<void> {
    if (this.#stopped || this.#broken) return;
    if (this.#trouble !== null) return this.#retry();
    const jump = this.#clockWatch.jump();
    if (jump !== null) this.#journal.note('clock jumped', jump, this.#world.atMs);
    const ran: (() => void)[] = [];
    for (const { command, by, answer } of this.#runs.takeAll()) {
      const given = await this.#applyRun(command, by);
      ran.push(() => answer(given));
    }
    const answers = [...ran, ...this.#advance(this.#ended ? 0 : this.#pace.take())];
    const settle = () => {
      for (const answer of answers) answer();
    };
    try {
      if (this.#journal.waiting > 0) await this.#journal.commit();
      await this.#books.look(false);
    } catch (error) {
      this.#settleLater = settle;
      return this.#holdForRecord(error);
    }
    this.#show(answers.length > 0);
    settle();
    if (this.#toSeal) await this.#seal();
    if (this.#toSave || this.#checkpoints.isDue(this.#world)) await this.#checkpoint();
    if (this.#trouble === null) this.#schedule(this.#pace.nextTurnInMs());
  }

  #advance(due: number): readonly (() => void)[] {
    const how = { due, isStanding: this.#standing(), isOver: this.#ended };
    const ticked = turnTicks(this.#engine, this.#journal, this.#world, this.#commands, how);
    this.#world = ticked.world;
    if (ticked.ended) {
      this.#ended = true;
      this.#toSeal = true;
    }
    if (ticked.fault !== null) this.#breakDown(ticked.fault.error, ticked.fault.waiting);
    return ticked.answers;
  }

  /** Once a closed shift is durable its seal follows, before anything else is recorded. */
  async #seal(): Promise<void> {
    this.#toSeal = false;
    this.#journal.flushReadings();
    try {
      await sealEnded(this.#sealing());
    } catch (error) {
      this.#toSeal = true;
      this.#holdForRecord(error);
      return;
    }
    this.#show(true);
  }

  /** A fault of the program: the line stands still with its record whole, and says so. */
  #breakDown(error: unknown, waiting: readonly Waiting[]): void {
    this.#broken = true;
    this.#trouble = faultTrouble(error);
    this.#log(error instanceof Error ? (error.stack ?? error.message) : String(error));
    this.#journal.note('fault', messageOf(error).slice(0, 500), this.#world.atMs);
    const why = `Not carried out: ${this.#trouble}`;
    for (const { answer } of waiting) answer(refused(why));
    this.#commands.refuseAll(why);
    this.#showAgain();
  }

  async #applyRun(command: RunCommand, by: Person): Promise<Answer> {
    if (command.do === 'nextShift') return this.#nextShift(command, by);
    if (command.do === 'speed') this.#pace.setSpeed(command.speed);
    else this.#pace.setPaused(command.do === 'pause');
    const what = command.do === 'speed' ? `speed ${command.speed}×` : `plant time ${command.do}d`;
    this.#journal.note('run', `${what}, by ${by.name} (${by.role})`, this.#world.atMs);
    return { ok: true };
  }

  /** A new world behind the opening entry of its shift, in the same chain. */
  async #nextShift(asked: NextShift, by: Person): Promise<Answer> {
    if (!this.#ended) return refused('This shift has not ended: end it first, then open the next one.');
    const after = {
      engine: this.#engine,
      store: this.#store,
      world: this.#world,
      files: this.#files,
      offered: this.#offered,
      journal: this.#journal,
    };
    try {
      const next = await beginNext(after, asked, `${by.name} (${by.role})`);
      if (!next.ok) return next;
      this.#scenario = next.scenario;
      this.#files = next.files;
      this.#world = next.world;
    } catch (error) {
      return refused(`The shift could not be opened: ${whyNotWritten(error)}`);
    }
    this.#ended = false;
    this.#toSave = true;
    this.#shiftNo += 1;
    this.#checkpoints.restart(this.#world);
    this.#pace.restart();
    return { ok: true };
  }

  #holdForRecord(error: unknown): void {
    const why = whyNotWritten(error);
    this.#trouble = recordTrouble(why);
    this.#held ??= { why, sinceMs: this.#clock.monoMs() };
    this.#log(`The record in ${this.#store.where} cannot be written: ${why}`);
    this.#commands.refuseAll(`Not carried out: ${this.#trouble}`);
    // The view stays the last durable one: what was not recorded is not shown.
    this.#showAgain();
    this.#schedule(RETRY_MS);
  }

  async #retry(): Promise<void> {
    try {
      await this.#journal.commit();
    } catch {
      this.#schedule(RETRY_MS);
      return;
    }
    this.#trouble = null;
    this.#log('The record can be written again: the line goes on.');
    const over = troubleOver(this.#held, this.#clock.monoMs());
    this.#held = null;
    this.#journal.note('record trouble over', over, this.#world.atMs);
    this.#pace.restart();
    this.#show(true);
    this.#settleLater();
    this.#settleLater = () => undefined;
    this.#schedule(0);
  }

  async #checkpoint(): Promise<void> {
    this.#toSave = false;
    this.#journal.flushReadings();
    try {
      await this.#journal.commit();
      await this.#checkpoints.save(this.#world, this.#journal.end);
    } catch (error) {
      this.#holdForRecord(error);
    }
  }

  #show(now: boolean): void {
    if (this.#broken || !(now || this.#audience.isDue(this.#clock.monoMs()))) return;
    this.#publish(this.#engine.viewOf(this.#world), this.#shiftNo);
  }

  /** The view as it was last shown, with what has become of the run. */
  #showAgain(): void {
    const { view, shiftNo } = this.#audience.shown;
    this.#publish(view, shiftNo);
  }

  #publish(view: LineView, shiftNo: number): void {
    this.#audience.show({ view, run: this.#runView(), shiftNo }, this.#clock.monoMs());
  }
}
