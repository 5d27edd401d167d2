/** A real server in a process of its own, on a free port, with a data folder of its own that is thrown away. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

export type Served = {
  readonly url: string;
  readonly dataDir: string;
  /** What the server has printed so far. */
  readonly log: () => string;
  /** As a power cut does: SIGKILL, nothing is written any more. */
  readonly cutPower: () => Promise<void>;
  /** Starts it again on the same port and data. */
  readonly startAgain: () => Promise<void>;
  /** Ends it and removes its data. */
  readonly remove: () => Promise<void>;
};

const START_LIMIT_MS = 20_000;

async function freePort(): Promise<number> {
  const probe = createServer().listen(0, '127.0.0.1');
  await once(probe, 'listening');
  const address = probe.address();
  probe.close();
  await once(probe, 'close');
  if (address === null || typeof address === 'string') throw new Error('no free port');
  return address.port;
}

async function answers(url: string): Promise<boolean> {
  try {
    return (await fetch(url)).ok;
  } catch {
    return false;
  }
}

/** `entry` is the built command line; `args` go to its `serve`. */
export async function serve(entry: string, args: readonly string[] = []): Promise<Served> {
  const dataDir = await mkdtemp(join(tmpdir(), 'patchyard-'));
  const port = await freePort();
  const url = `http://127.0.0.1:${port}`;
  let output = '';
  let child: ChildProcess | null = null;

  const start = async (): Promise<void> => {
    const all = [entry, 'serve', '--port', String(port), '--data', dataDir, ...args];
    const started = spawn(process.execPath, all, { stdio: ['ignore', 'pipe', 'pipe'] });
    child = started;
    for (const stream of [started.stdout, started.stderr])
      stream.on('data', (bytes: Buffer) => {
        output += bytes.toString();
      });
    const deadlineMs = performance.now() + START_LIMIT_MS;
    while (!(await answers(url))) {
      if (started.exitCode !== null) throw new Error(`the server ended with ${started.exitCode}:\n${output}`);
      if (performance.now() > deadlineMs) throw new Error(`no answer at ${url} in time:\n${output}`);
      await pause(50);
    }
  };

  const end = async (signal: NodeJS.Signals): Promise<void> => {
    if (child === null || child.exitCode !== null || child.signalCode !== null) return;
    const gone = once(child, 'exit');
    child.kill(signal);
    const patience = setTimeout(() => child?.kill('SIGKILL'), 5000);
    await gone;
    clearTimeout(patience);
  };

  const remove = async (): Promise<void> => {
    await end('SIGTERM');
    await rm(dataDir, { recursive: true, force: true });
  };

  try {
    await start();
  } catch (error) {
    await remove();
    throw error;
  }
  return { url, dataDir, log: () => output, cutPower: () => end('SIGKILL'), startAgain: start, remove };
}
