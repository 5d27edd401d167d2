/**
 * From a command leaving a console to its effect arriving at every console: decided, durable on disk, sent out.
 * Drawing comes on top of it (a frame or so); the server sends at most ten changes a second, which is most of it.
 */
import { randomUUID } from 'node:crypto';
import { once } from 'node:events';
import { setTimeout as pause } from 'node:timers/promises';
import { io, type Socket } from 'socket.io-client';
import type { Command } from '../../machines/line/commands.ts';
import type { ConsoleEvents, Hello, ServerEvents } from '../../machines/live/protocol.ts';
import { prepare } from '../../server/bin/support/prepare.mjs';
import { serve } from '../support/served.ts';
import { type Figure, percentile } from './measure.ts';

const SAMPLES = 60;

type Console = {
  readonly socket: Socket<ServerEvents, ConsoleEvents>;
  readonly hello: Hello;
  /** Resolves with the time at which the seat is next heard to be taken (or left). */
  readonly heard: (taken: boolean) => Promise<number>;
};

async function connect(url: string): Promise<Console> {
  const socket: Console['socket'] = io(url, { auth: { console: randomUUID() }, transports: ['websocket'] });
  const [hello] = (await once(socket as never, 'hello')) as [Hello];
  const heard = (taken: boolean): Promise<number> =>
    new Promise((resolve) => {
      socket.on('change', function look({ sections }) {
        if (sections.seat === undefined || (sections.seat.holder !== null) !== taken) return;
        socket.off('change', look);
        resolve(performance.now());
      });
    });
  return { socket, hello, heard };
}

async function give({ socket }: Console, command: Command): Promise<void> {
  const answer = await socket.timeout(5000).emitWithAck('command', { id: randomUUID(), command });
  if (!answer.ok) throw new Error(`${command.do} was refused: ${answer.because.join(' ')}`);
}

async function latencies(url: string, count: number): Promise<number[]> {
  const consoles = await Promise.all(Array.from({ length: count }, () => connect(url)));
  const [first] = consoles;
  const operator = first?.hello.people.find((person) => person.role === 'operator');
  if (first === undefined || operator === undefined) throw new Error('the demo has no operator');
  await first.socket.emitWithAck('iAm', { person: operator.id, console: randomUUID() });
  const samples: number[] = [];
  for (let i = 0; i < SAMPLES; i++) {
    const taken = i % 2 === 0;
    // Commands come at no special moment of the server's rhythm.
    await pause(100 + ((i * 37) % 100));
    const all = consoles.map((each) => each.heard(taken));
    const sentMs = performance.now();
    await give(first, { do: taken ? 'takeControls' : 'releaseControls' });
    samples.push(...(await Promise.all(all)).map((atMs) => atMs - sentMs));
  }
  for (const { socket } of consoles) socket.disconnect();
  return samples;
}

export async function benchLatency(): Promise<Figure[]> {
  const served = await serve(await prepare({ client: true }));
  try {
    const figures: Figure[] = [];
    for (const count of [1, 20]) {
      const samples = await latencies(served.url, count);
      for (const p of [50, 99])
        figures.push({
          id: `latency.${count}.p${p}`,
          what: `command to console, ${count} console${count === 1 ? '' : 's'}, p${p} of ${samples.length}`,
          value: percentile(samples, p),
          unit: 'ms',
        });
    }
    return figures;
  } finally {
    await served.remove();
  }
}
