/** The live socket: the plant's consoles on its main namespace, and others on namespaces of their own. */
import type { Server as HttpServer } from 'node:http';
import { Server } from 'socket.io';
import type { ConsoleEvents, ServerEvents } from '../../machines/live/protocol.ts';
import { isOwnOrigin } from '../routes/own-origin.ts';
import type { Runner } from '../runner/runner.ts';
import type { Presence } from './absence.ts';
import { serveConsoles } from './consoles.ts';
import type { Desk } from './desk.ts';

/** Largest message a console may send, bytes. */
const MESSAGE_LIMIT = 16_384;
const CONSOLES_LIMIT = 500;

export type LiveServer = Server<ConsoleEvents, ServerEvents>;

/** Serves consoles on that HTTP server; returns how to send them all away. `also` opens further namespaces, and says how to leave them. */
export const attachSockets = (
  http: HttpServer,
  runner: Runner,
  desk: Desk,
  presence: Presence,
  also: (io: LiveServer) => () => void = () => () => undefined,
): (() => Promise<void>) => {
  const io: LiveServer = new Server(http, {
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
  const stopServing = serveConsoles(io.sockets, runner, desk, presence);
  const leave = also(io);
  return async () => {
    stopServing();
    leave();
    // Only the connections are closed: a console told to go would not come back by itself.
    io.engine.close();
  };
};
