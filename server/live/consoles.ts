/** Consoles of one line on one namespace of the live socket: the whole state on connect, then what changed, and commands back. */
import type { DefaultEventsMap, Namespace, Socket } from 'socket.io';
import type { Answer, ConsoleEvents, RunView, ServerEvents } from '../../machines/live/protocol.ts';
import { PROGRAM } from '../../machines/record/version.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import type { Runner, Shown } from '../runner/runner.ts';
import type { Presence } from './absence.ts';
import { changesBetween } from './changes.ts';
import type { Desk } from './desk.ts';

/** Messages that may wait for a slow console before it is dropped; it comes back and gets the whole state. */
const BACKLOG_LIMIT = 300;
/** Consoles that may see the line; all of them, unless the line says who may. */
const SEES = 'sees';

export type ConsoleSocket = Socket<ConsoleEvents, ServerEvents>;
export type ConsoleNamespace = Namespace<ConsoleEvents, ServerEvents, DefaultEventsMap>;

const consoleOf = (socket: ConsoleSocket): string => {
  const given = (socket.handshake.auth as { console?: unknown } | undefined)?.console;
  return typeof given === 'string' && given.length >= 4 && given.length <= 64 ? given : socket.id;
};

/** Wraps whatever came in place of an acknowledgement: garbage there must not throw. */
export const answerer = (given: unknown): ((answer: Answer) => void) =>
  typeof given === 'function' ? (answer) => given(answer) : () => undefined;

const runKey = (run: RunView): string => JSON.stringify(run);

export type ConsoleOptions = {
  /** Why that person may not see this line, or null. Left out: everyone may, even unnamed. */
  readonly whyNotSee?: (person: Person) => string | null;
  /** How many consoles see the line now. */
  readonly onWatching?: (consoles: number) => void;
  /** More to tell a console that has just been told the whole state. */
  readonly onGreeted?: (socket: ConsoleSocket) => void;
};

/** Serves that line's consoles there; returns how to stop telling them. */
export const serveConsoles = (
  namespace: ConsoleNamespace,
  runner: Runner,
  desk: Desk,
  presence: Presence,
  { whyNotSee, onWatching, onGreeted }: ConsoleOptions = {},
): (() => void) => {
  let n = 0;
  let last: Shown = runner.shown();
  /** Tells every console who may sit there now, and the whole state. */
  const greetAgain = new Set<() => void>();
  const stopListening = runner.onShown((shown) => {
    if (shown.shiftNo !== last.shiftNo) {
      last = shown;
      n += 1;
      for (const greet of greetAgain) greet();
      return;
    }
    const { sections, ribbon } = changesBetween(last.view, shown.view);
    const run = runKey(shown.run) === runKey(last.run) ? null : shown.run;
    last = shown;
    if (run === null && ribbon === null && Object.keys(sections).length === 0) return;
    n += 1;
    namespace.to(SEES).emit('change', { n, sections, ribbon, run });
    for (const socket of namespace.sockets.values()) {
      const backlog = (socket.conn as unknown as { writeBuffer?: unknown[] }).writeBuffer?.length ?? 0;
      if (backlog > BACKLOG_LIMIT) socket.conn.close();
    }
  });
  const countWatching = () => onWatching?.(namespace.adapter.rooms.get(SEES)?.size ?? 0);

  namespace.on('connection', (socket: ConsoleSocket) => {
    let console = consoleOf(socket);
    let me: Person | null = desk.rememberedAt(console);
    presence.opened(console);
    socket.on('disconnect', () => {
      presence.closed(console);
      countWatching();
    });
    const maySee = () => whyNotSee === undefined || (me !== null && whyNotSee(me) === null);
    const hello = () =>
      socket.emit('hello', { program: PROGRAM, people: desk.people(), me, shifts: runner.shifts });
    const state = () => {
      if (!maySee()) return;
      void socket.join(SEES);
      countWatching();
      socket.emit('state', { n, view: last.view, run: last.run });
      onGreeted?.(socket);
    };
    const greet = () => {
      // Another shift may have other people.
      if (me !== null) me = desk.personOf(me.id);
      hello();
      state();
    };
    greetAgain.add(greet);
    socket.on('disconnect', () => greetAgain.delete(greet));
    greet();

    socket.on('iAm', (who: unknown, reply: unknown) => {
      const found = desk.mayAsk(console) ? desk.identify(who) : null;
      const no = found?.person ? (whyNotSee?.(found.person) ?? null) : null;
      if (no !== null) {
        answerer(reply)({ ok: false, because: [no] });
        return;
      }
      if (found !== null && found.person !== null) {
        const sawIt = maySee();
        me = found.person;
        presence.opened(found.console);
        presence.closed(console);
        console = found.console;
        hello();
        if (!sawIt) state();
      }
      answerer(reply)(found?.answer ?? { ok: false, because: ['Too many requests: wait a moment.'] });
    });
    socket.on('again', () => {
      if (desk.mayAsk(console)) state();
    });
    socket.on('command', (envelope: unknown, reply: unknown) => {
      void desk.command(me, console, envelope).then(answerer(reply));
    });
    socket.on('run', (command: unknown, reply: unknown) => {
      void desk.run(me, console, command).then(answerer(reply));
    });
    socket.on('error', () => socket.conn.close());
  });
  return stopListening;
};
