/** The live socket: same origin, whole state on connect, then changes; nothing is sent while it is down. */
import { io, type Socket } from 'socket.io-client';
import type { Answer, ConsoleEvents, ServerEvents } from '../../machines/live/protocol.ts';
import type { OpenDriver } from './driver.ts';
import { LINE_NAMESPACE } from './session.ts';

const ANSWER_WITHIN_MS = 5000;
/** A drill that is being brought back after a restart is not there at once. */
const ASK_AGAIN_MS = 1500;

const NOT_SENT: Answer = {
  ok: false,
  because: ['No connection to the line, so nothing was sent. Try again when it is back.'],
};
const NO_ANSWER: Answer = {
  ok: false,
  because: [
    'The line did not answer. It may or may not have heard this: look at the Records page before repeating it.',
  ],
};

export const openDriver: OpenDriver = (consoleId, sink) => {
  const socket: Socket<ServerEvents, ConsoleEvents> = io(LINE_NAMESPACE, {
    auth: { console: consoleId },
    reconnectionDelay: 500,
    reconnectionDelayMax: 3000,
  });
  socket.on('connect', sink.up);
  socket.on('disconnect', sink.down);
  socket.on('hello', sink.hello);
  socket.on('state', sink.state);
  socket.on('change', sink.change);
  socket.on('drill', sink.drill);
  socket.on('connect_error', () => {
    // Where there is no such line the library gives up; where there is no server it goes on trying by itself.
    if (!socket.active) setTimeout(() => socket.connect(), ASK_AGAIN_MS);
  });

  // The library would keep what is emitted while it is down and send it later: a command must never come late.
  const ask = async (emit: (s: ReturnType<typeof socket.timeout>) => Promise<Answer>): Promise<Answer> => {
    if (!socket.connected) return NOT_SENT;
    try {
      return await emit(socket.timeout(ANSWER_WITHIN_MS));
    } catch {
      return NO_ANSWER;
    }
  };

  return {
    iAm: (person) => ask((s) => s.emitWithAck('iAm', { person, console: consoleId })),
    command: async (envelope) => {
      const send = () => ask((s) => s.emitWithAck('command', envelope));
      const first = await send();
      // The same id is carried out once, so a lost answer may be asked for again without harm.
      return first === NO_ANSWER ? send() : first;
    },
    run: (run) => ask((s) => s.emitWithAck('run', run)),
    again: () => {
      if (socket.connected) socket.emit('again');
    },
  };
};
