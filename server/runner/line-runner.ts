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
import { askLedger } from '../ledger/ask.ts';
import { messageOf, PlainError } from '../plain-error.ts';
import { type Sealing, sealEnded, sealWhatIsLeft } from '../seal/in-runner.ts';
import type { Store } from '../store/store.ts';
import { Checkpoints } from './checkpoints.ts';
import { ClockWatch } from './clock-watch.ts';
import { CommandQueue, QUEUE_LIMIT, type RunWaiting, refused, type Waiting } from './command-queue.ts';
import type { Journal } from './journal.ts';
import { type AnyWorld, type Clock, type LineEngine, SYSTEM_CLOCK } from './line-engine.ts';
import { keepScenarios, NO_OTHERS, nextShiftOf, type ShiftsOffered } from './next-shift.ts';
import { Pace } from './pace.ts';
import { plannedShift } from './planned-shift.ts';
import type { Restored } from './restore.ts';
import { roomOf } from './room-watch.ts';
import { whyRoleMayNot } from './run-roles.ts';
import type { PlantRunner, RunnerOptions, Shown } from './runner.types.ts';
import { freshSecret } from './secret.ts';
import { faultTrouble, type Held, recordTrouble, troubleOver, whyNotNow, whyNotWritten } from './trouble.ts';

const SHOW_EVERY_MS = 100;
const RETRY_MS = 1000;
/** How often consoles are told that the books heard something of the line. */
const LEDGER_EVERY_MS = 1000;
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
  #runs: RunWaiting[] = [];
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
  /** Newest entry the books heard, as the consoles are told. */
  #ledger = 0;
  #ledgerAtMs = Number.NEGATIVE_INFINITY;
  /** The line itself threw: it is not run any further. */
  #broken = false;
  /** Answers that wait for a failed commit to go through. */
  #settleLater: () => void = () => undefined;
  #timer: NodeJS.Timeout | null = null;
  #turning: Promise<void> = Promise.resolve();
  #shown: Shown;
  #shownAtMs = Number.NEGATIVE_INFINITY;
  #listeners = new Set<(shown: Shown) => void>();

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
    this.#checkpoints = new Checkpoints(engine, store, clock, found.world);
    this.#commands = new CommandQueue(
      store,
      (name) => this.#whyNotNow(name),
      () => {
        if (this.#standing()) this.#schedule(0);
      },
    );
    this.#shown = { view: engine.viewOf(found.world), run: this.#runView(), shiftNo: this.#shiftNo };
  }

  get scenario(): Scenario {
    return this.#scenario;
  }

  get shifts(): readonly ShiftChoice[] {
    const { id, name } = this.#files.shift;
    const { list } = this.#offered;
    return list.some((offered) => offered.id === id) ? list : [{ id, name }, ...list];
  }

  async begin(): Promise<void> {
    await this.#journal.commit();
    if (this.#world.tick === 0) await this.#checkpoints.save(this.#world, this.#journal.end);
    await sealWhatIsLeft(this.#sealing());
    await this.#lookAtLedger(true);
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
    for (const { answer } of this.#runs.splice(0)) answer(refused(STOPPING));
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
    const roleMayNot = whyRoleMayNot(by.role, command);
    if (roleMayNot !== null) return refused(roleMayNot);
    const no = this.#whyNotNow(command.do);
    if (no !== null) return refused(no);
    if (this.#runs.length >= QUEUE_LIMIT)
      return refused('Too many requests are waiting: try again in a moment.');
    return new Promise((answer) => {
      this.#runs.push({ command, by, answer });
      this.#schedule(0);
    });
  }

  note(what: string, detail: string): void {
    if (!this.#stopped) this.#journal.note(what, detail, this.#world.atMs);
  }

  append(make: (key: PlantKey) => Promise<EntryContent>): Promise<Answer> {
    const key = this.#key;
    if (key === null)
      return Promise.resolve(
        refused('This server has no key to sign with: see what it said when it was started.'),
      );
    const work = async (): Promise<Answer> => {
      const no = this.#whyNotNow('append');
      if (no !== null) return refused(no);
      try {
        this.#journal.add(await make(key), this.#world.atMs);
      } catch (error) {
        if (error instanceof PlainError) return refused(error.message);
        throw error;
      }
      try {
        await this.#journal.commit();
      } catch (error) {
        this.#holdForRecord(error);
        return refused(`It is kept until the record can be written again: ${whyNotWritten(error)}`);
      }
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

  askBook(ask: LedgerAsk): Promise<Answer> {
    const work = async (): Promise<Answer> => {
      const no = this.#whyNotNow(ask.book);
      if (no !== null) return refused(no);
      const { atMs } = this.#world;
      const made = await askLedger(this.#store, ask, this.plantClock(), this.#log);
      if (!('contents' in made)) return made;
      for (const content of made.contents) this.#journal.add(content, atMs);
      try {
        await this.#journal.commit();
      } catch (error) {
        this.#holdForRecord(error);
        return refused(`It is kept until the record can be written again: ${whyNotWritten(error)}`);
      }
      await this.#lookAtLedger(true);
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

  /** Line facts come many a second: consoles are told of them now and then, of what a person wrote at once. */
  async #lookAtLedger(now: boolean): Promise<void> {
    const nowMs = this.#clock.monoMs();
    if (!now && nowMs - this.#ledgerAtMs < LEDGER_EVERY_MS) return;
    this.#ledgerAtMs = nowMs;
    this.#ledger = (await this.#store.books()).seq;
  }

  /** What sealing asks of the runner. */
  #sealing(): Sealing {
    const { atMs } = this.#world;
    return { store: this.#store, key: this.#key, journal: this.#journal, atMs, log: this.#log };
  }

  shown(): Shown {
    return this.#shown;
  }

  onShown(listener: (shown: Shown) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  #runView(): RunView {
    const { speed, paused } = this.#pace;
    const { seq, hash: head } = this.#journal.end;
    const [trouble, ledger] = [this.#trouble, this.#ledger];
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
    for (const { command, by, answer } of this.#runs.splice(0)) {
      const given = await this.#applyRun(command, by);
      ran.push(() => answer(given));
    }
    const answers = [...ran, ...this.#advance(this.#ended ? 0 : this.#pace.take())];
    const settle = () => {
      for (const answer of answers) answer();
    };
    try {
      if (this.#journal.waiting > 0) await this.#journal.commit();
      await this.#lookAtLedger(false);
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

  /**
   * Runs `due` ticks, the queued commands in the first; returns what to answer once it is durable. A shift's
   * very first tick takes none: before it nothing of the plant has been read.
   */
  #advance(due: number): (() => void)[] {
    const unread = this.#world.tick === 0 ? 1 : 0;
    const ticks = due === 0 && this.#commands.length > 0 && this.#standing() ? 1 + unread : due;
    const answers: (() => void)[] = [];
    for (let i = 0; i < ticks && !(this.#ended && i > 0); i++) {
      const waiting = i === unread ? this.#commands.takeAll() : [];
      try {
        answers.push(...this.#tick(waiting));
      } catch (error) {
        this.#breakDown(error, waiting);
        break;
      }
    }
    return answers;
  }

  #tick(waiting: readonly Waiting[]): (() => void)[] {
    const next = this.#engine.advance(
      this.#world,
      waiting.map((w) => w.envelope),
    );
    this.#world = next.world;
    this.#journal.tick(next.world.tick, next.changes, next.commands, next.facts);
    if (next.facts.some((fact) => fact.is === 'shiftEnded')) {
      this.#ended = true;
      this.#toSeal = true;
    }
    return waiting.map(({ envelope, answer }) => {
      const given = next.answers.find((a) => a.id === envelope.id)?.answer;
      return () => answer(given ?? refused('The line gave no answer to this command.'));
    });
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
    this.#publish(this.#shown.view, this.#shown.shiftNo);
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
  async #nextShift(
    { shift: id, planned, afterDays }: Extract<RunCommand, { do: 'nextShift' }>,
    by: Person,
  ): Promise<Answer> {
    if (!this.#ended) return refused('This shift has not ended: end it first, then open the next one.');
    if (id !== undefined && !this.shifts.some((offered) => offered.id === id))
      return refused(`There is no shift ${id}: there are ${this.shifts.map((s) => s.id).join(', ')}.`);
    try {
      const own = id === undefined || id === this.#files.shift.id ? this.#files : this.#offered.load(id);
      const plan = planned === true ? plannedShift((await this.#store.books()).ledger, own) : null;
      if (plan?.ok === false) return plan;
      const files = plan?.files ?? own;
      const when = { afterDays, notBefore: plan?.date };
      const begun = await nextShiftOf(this.#store, files, `${by.name} (${by.role})`, when);
      const world = this.#engine.createWorld(begun.scenario, {
        ...this.#engine.startAfter?.(this.#world),
        secret: freshSecret(),
      });
      await keepScenarios(this.#store, files, begun);
      this.#journal.opening(begun.opening);
      this.#scenario = begun.scenario;
      this.#files = files;
      this.#world = world;
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
    this.#publish(this.#shown.view, this.#shown.shiftNo);
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
    // A turn may come a little early; waiting for the next one would make it eight a second.
    if (!now && this.#clock.monoMs() - this.#shownAtMs < SHOW_EVERY_MS - 5) return;
    if (!this.#broken) this.#publish(this.#engine.viewOf(this.#world));
  }

  #publish(view: LineView, shiftNo = this.#shiftNo): void {
    const shown = { view, run: this.#runView(), shiftNo };
    this.#shownAtMs = this.#clock.monoMs();
    this.#shown = shown;
    for (const listener of this.#listeners) listener(shown);
  }
}
