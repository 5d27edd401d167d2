/** A whole server around the fake line, on a free port, and consoles to talk to it. */
import { createServer } from 'node:net';
import { io, type Socket } from 'socket.io-client';
import { onTestFinished } from 'vitest';
import type { Command } from '../../../machines/line/commands.ts';
import type {
  Answer,
  Change,
  ConsoleEvents,
  Hello,
  ServerEvents,
  State,
} from '../../../machines/live/protocol.ts';
import { type ServeOptions, serve } from '../../../server/main.ts';
import { type FakeWorld, fakeLine } from './fake-line.ts';
import { fakeScenario } from './fake-scenario.ts';
import { commandOf, scratchFolder } from './tools.ts';

export type Served = {
  readonly url: string;
  readonly folder: string;
  readonly close: () => Promise<void>;
  readonly log: string[];
};

export const serveFake = async (more: Partial<ServeOptions<FakeWorld>> = {}): Promise<Served> => {
  const log: string[] = [];
  const folder = more.dataFolder ?? scratchFolder();
  const serving = await serve({
    engine: fakeLine,
    scenario: fakeScenario(),
    host: '127.0.0.1',
    port: 0,
    dataFolder: folder,
    speed: 1,
    newShift: false,
    log: (line) => log.push(line),
    ...more,
  });
  let open = true;
  const close = async () => {
    if (!open) return;
    open = false;
    await serving.close();
  };
  onTestFinished(close);
  return { url: serving.url, folder, close, log };
};

export type TestConsole = {
  readonly socket: Socket<ServerEvents, ConsoleEvents>;
  readonly hellos: Hello[];
  readonly states: State[];
  readonly changes: Change[];
  readonly iAm: (person: string) => Promise<Answer>;
  readonly give: (command: Command, id?: string) => Promise<Answer>;
};

/** A console that has its first state. */
export const openConsole = async (url: string, console: string): Promise<TestConsole> => {
  const socket: Socket<ServerEvents, ConsoleEvents> = io(url, {
    auth: { console },
    reconnectionDelay: 50,
    reconnectionDelayMax: 100,
    forceNew: true,
  });
  onTestFinished(() => {
    socket.close();
  });
  const hellos: Hello[] = [];
  const states: State[] = [];
  const changes: Change[] = [];
  socket.on('hello', (hello) => hellos.push(hello));
  socket.on('state', (state) => states.push(state));
  socket.on('change', (change) => changes.push(change));
  await new Promise<void>((ready, failed) => {
    socket.once('state', () => ready());
    socket.once('connect_error', failed);
  });
  return {
    socket,
    hellos,
    states,
    changes,
    iAm: (person) => socket.timeout(5000).emitWithAck('iAm', { person, console }),
    give: (command, id) =>
      socket.timeout(5000).emitWithAck('command', { id: id ?? commandOf(command).id, command }),
  };
};

export const freePort = (): Promise<number> =>
  new Promise((found) => {
    const probe = createServer().listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => found(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });
