/** Live consoles over socket.io: the whole state on connect, then what changed, and commands back. */
import type { Server as HttpServer } from 'node:http';
import { Server, type Socket } from 'socket.io';
import type { Answer, ConsoleEvents, RunView, ServerEvents } from '../../machines/live/protocol.ts';
import { PROGRAM } from '../../machines/record/version.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { isOwnOrigin } from '../routes/own-origin.ts';
import type { Runner, Shown } from '../runner/runner.ts';
import type { Presence } from './absence.ts';
import { changesBetween } from './changes.ts';
import type { Desk } from './desk.ts';

/** Largest message a console may send, bytes. */
const MESSAGE_LIMIT = 16_384;
/** Messages that may wait for a slow console before it is dropped; it comes back and gets the whole state. */
const BACKLOG_LIMIT = 300;
const CONSOLES_LIMIT = 500;

type ConsoleSocket = Socket<ConsoleEvents, ServerEvents>;

const consoleOf = (socket: ConsoleSocket): string => {
  const given = (socket.handshake.auth as { console?: unknown } | undefined)?.console;
  return typeof given === 'string' && given.length >= 4 && given.length <= 64 ? given : socket.id;
};

/** Wraps whatever came in place of an acknowledgement: garbage there must not throw. */
const answerer = (given: unknown): ((answer: Answer) => void) =>
  typeof given === 'function' ? (answer) => given(answer) : () => undefined;

const runKey = (run: RunView): string => JSON.stringify(run);

/** Serves consoles on that HTTP server; returns how to send them all away. */
export const attachSockets = (
  http: HttpServer,
  runner: Runner,
  desk: Desk,
  presence: Presence,
): (() => Promise<void>) => {
  const io = new Server<ConsoleEvents, ServerEvents>(http, {
    serveClient: false,
    perMessageDeflate: false,
    maxHttpBufferSize: MESSAGE_LIMIT,
    allowRequest: (request, decide) => {
      const own = isOwnOrigin(request.headers.host, request.headers.origin);
      if (!own) decide('this address is not served here', false);
      else if (io.engine.clientsCount >= CONSOLES_LIMIT) decide('too many consoles', false);
      else decide(null, true);
    },
  });

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
    io.emit('change', { n, sections, ribbon, run });
    for (const socket of io.sockets.sockets.values()) {
      const backlog = (socket.conn as unknown as { writeBuffer?: unknown[] }).writeBuffer?.length ?? 0;
      if (backlog > BACKLOG_LIMIT) socket.conn.close();
    }
  });

  io.on('connection', (socket: ConsoleSocket) => {
    let console = consoleOf(socket);
    let me: Person | null = desk.rememberedAt(console);
    presence.opened(console);
    socket.on('disconnect', () => presence.closed(console));
    const hello = () =>
      socket.emit('hello', { program: PROGRAM, people: desk.people(), me, shifts: runner.shifts });
    const state = () => socket.emit('state', { n, view: last.view, run: last.run });
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
      if (found !== null && found.person !== null) {
        me = found.person;
        presence.opened(found.console);
        presence.closed(console);
        console = found.console;
        hello();
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
  return async () => {
    stopListening();
    // Only the connections are closed: a console told to go would not come back by itself.
    io.engine.close();
  };
};
