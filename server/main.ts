/** The server process: opens the record, runs the line, listens, and closes in good order. */
import type { AddressInfo } from 'node:net';
import type { Scenario } from '../machines/scenario/shift.schema.ts';
import { buildApp } from './app.ts';
import { startPacking } from './archive/packing.ts';
import { CLIENT_FOLDER } from './package-root.ts';
import { codeOf, messageOf, PlainError } from './plain-error.ts';
import { isLoopbackAddress } from './routes/own-origin.ts';
import type { AnyWorld, LineEngine } from './runner/line-engine.ts';
import type { ShiftsOffered } from './runner/next-shift.ts';
import { openRunner } from './runner/runner.ts';
import { whyNotWritten } from './runner/trouble.ts';
import { openKey } from './seal/key-file.ts';
import { expectedKey } from './seal/seals-of.ts';
import { openSqliteStore } from './store/sqlite.ts';
import { openTraining } from './training/open.ts';

export type ServeOptions<W extends AnyWorld> = {
  readonly engine: LineEngine<W>;
  readonly scenario: Scenario;
  readonly host: string;
  readonly port: number;
  readonly dataFolder: string;
  readonly speed: number;
  readonly newShift: boolean;
  /** Shifts that may be opened at a console after the first. */
  readonly shifts?: ShiftsOffered;
  readonly log: (line: string) => void;
  /** See AppParts. */
  readonly awayMs?: number;
};

export type Serving = {
  readonly url: string /** Name of the shift that runs. */;
  readonly shift: string;
  readonly close: () => Promise<void>;
};

const listenError = (error: unknown, host: string, port: number): Error => {
  const code = codeOf(error);
  if (code === 'EADDRINUSE')
    return new PlainError(
      `Port ${port} on ${host} is taken: stop the program that has it, or choose another with --port ${port + 1}.`,
    );
  if (code === 'EACCES')
    return new PlainError(`Port ${port} may not be opened by this user: choose one above 1023 with --port.`);
  if (code === 'EADDRNOTAVAIL')
    return new PlainError(`This machine has no address ${host}: leave --host away for 127.0.0.1.`);
  return error instanceof Error ? error : new Error(messageOf(error));
};

/** Starts everything; nothing is written to the record before the port is ours. */
export const serve = async <W extends AnyWorld>(options: ServeOptions<W>): Promise<Serving> => {
  const { engine, scenario, host, port, log } = options;
  if (!isLoopbackAddress(host))
    throw new PlainError(
      `--host ${host} is refused: there are no accounts yet, so only this machine (127.0.0.1) is served.`,
    );
  const store = openSqliteStore(options.dataFolder, {}, ({ book, seq, why }) =>
    log(`The books went on without entry ${seq}${book === null ? '' : ` (${book})`}: ${why}`),
  );
  let opened: { close(): PromiseLike<unknown> } | null = null;
  try {
    const { speed, newShift, shifts } = options;
    const offered = shifts === undefined ? {} : { shifts };
    const key = openKey(options.dataFolder, await expectedKey(store));
    const runner = await openRunner({ engine, store, scenario, speed, newShift, log, key, ...offered });
    const away = options.awayMs === undefined ? {} : { awayMs: options.awayMs };
    const training = openTraining(options.dataFolder, () => runner.scenario.people, log);
    const app = await buildApp({ runner, store, training, clientFolder: CLIENT_FOLDER, log, ...away });
    opened = app;
    if (store.cut !== null) log(`The record in ${store.where}: ${store.cut}.`);
    await app.listen({ host, port }).catch((error) => {
      throw listenError(error, host, port);
    });
    await runner.begin().catch((error) => {
      throw new PlainError(`The record in ${store.where} cannot be written: ${whyNotWritten(error)}.`);
    });
    const packing = startPacking(store, log);
    const bound = app.server.address() as AddressInfo;
    const name = bound.family === 'IPv6' ? `[${bound.address}]` : bound.address;
    // The plant's line does not wait for drills to be turned again.
    const restored = training
      .restore()
      .catch((error) => log(`Drills could not be brought back: ${messageOf(error)}`));
    const close = async () => {
      await packing.stop();
      await restored;
      await training.close();
      await runner
        .stop()
        .catch((error) => log(`The line could not be closed in good order: ${messageOf(error)}`));
      await app.close();
      await store.close();
    };
    return { url: `http://${name}:${bound.port}`, shift: runner.scenario.shift.name, close };
  } catch (error) {
    await opened?.close();
    await store.close();
    throw error;
  }
};
