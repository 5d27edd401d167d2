/** `serve`: runs a shift and its console on this machine until it is stopped. */
import { constants } from 'node:os';
import { join } from 'node:path';
import { SPEEDS } from '../../machines/live/protocol.ts';
import { line } from '../line.ts';
import { serve } from '../main.ts';
import { PACKAGE_ROOT, SCENARIOS_FOLDER } from '../package-root.ts';
import { loadPlantOrShift } from '../scenarios/choose.ts';
import { shippedShifts } from '../scenarios/shipped.ts';
import { numberOption, readOptions, textOption, UsageError } from './options.ts';

export const SERVE_HELP = `patchyard serve [shift.yaml] [options]

Runs a shift of the simulated plant and serves its console on this machine.
Goes on with the shift in the data folder when it has not ended. When a shift has ended, the next one,
of the same or of another shipped file, is opened at the console: a day later, with another seed.

  --host ADDRESS   address to listen on; only this machine for now (127.0.0.1)
  --port PORT      port to listen on (4410); 0 picks a free one
  --data FOLDER    where the record is kept (.data)
  --plant FILE     a plant file to use in place of the one the shift names, or a shift file
  --speed N        ${SPEEDS.join(', ')} times real time to begin with (1)
  --new-shift      leave the shift in the data folder as it stands and begin a new one
  -h, --help       this text

A simulator for training and record keeping; not a safety-rated controller.`;

const DEFAULT_SHIFT = join(SCENARIOS_FOLDER, 'shifts', 'demo-day.yaml');

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/**
 * Hears the signals that ask the process to stop. Until `up` is called it ends at once: nothing is under way
 * yet that needs an orderly end, and what was written is whole. Then `asked` resolves at the first signal,
 * and a second one ends the process at once.
 */
const hearSignals = () => {
  let isUp = false;
  let stop: (() => void) | null = null;
  const asked = new Promise<void>((resolve) => {
    stop = resolve;
  });
  const heard = (signal: NodeJS.Signals): void => {
    if (!isUp || stop === null) process.exit(128 + constants.signals[signal]);
    stop();
    stop = null;
  };
  for (const signal of SIGNALS) process.on(signal, heard);
  const up = (): void => {
    isUp = true;
  };
  const leave = (): void => {
    for (const signal of SIGNALS) process.off(signal, heard);
  };
  return { asked, up, leave };
};

export const serveCommand = async (args: readonly string[]): Promise<number> => {
  const { values, files } = readOptions(args, {
    host: { type: 'string' },
    port: { type: 'string' },
    data: { type: 'string' },
    plant: { type: 'string' },
    speed: { type: 'string' },
    'new-shift': { type: 'boolean' },
  });
  if (values.help === true) {
    console.log(SERVE_HELP);
    return 0;
  }
  if (files.length > 1) throw new UsageError('serve takes one shift file.');
  const speed = numberOption(values, 'speed', 1, 60) ?? 1;
  if (!SPEEDS.some((known) => known === speed))
    throw new UsageError(`--speed ${speed} is not one of ${SPEEDS.join(', ')}.`);
  const scenario = loadPlantOrShift(files[0], textOption(values, 'plant'), DEFAULT_SHIFT);
  const signals = hearSignals();
  const serving = await serve({
    engine: line,
    scenario,
    host: textOption(values, 'host') ?? '127.0.0.1',
    port: numberOption(values, 'port', 0, 65535) ?? 4410,
    dataFolder: textOption(values, 'data') ?? join(PACKAGE_ROOT, '.data'),
    speed,
    newShift: values['new-shift'] === true,
    shifts: shippedShifts(),
    log: (text) => console.error(text),
  }).catch((error) => {
    signals.leave();
    throw error;
  });
  signals.up();
  console.log(`Patchyard runs "${serving.shift}" at ${serving.url}  (stop with Ctrl+C)`);
  await signals.asked;
  await serving.close();
  return 0;
};
