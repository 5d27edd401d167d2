/** Plant seconds per second of an 8 h shift run headless: on disk, chain only, unrecorded, and the bare physics loop. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { AT_REST, type Outputs } from '../../machines/field/outputs.ts';
import { createPlant, stepPlant } from '../../machines/plant/plant.ts';
import { prepare } from '../../server/bin/support/prepare.mjs';
import { scenarioOrError } from '../../server/scenarios/load.ts';
import { benchFolder, bestSeconds, type Figure } from './measure.ts';

const SHIFTS = ['emulsion-day', 'cutback-day'] as const;
const RUNS = 3;

/** A plant with plenty moving: what a step costs when the line is busy, without any line. */
const BUSY: Outputs = {
  ...AT_REST,
  bin1Gate: 'dribble',
  drumTurn: true,
  drumFan: true,
  pugMill: true,
  oilPump: true,
  emulsionCoil: true,
  emulsionStir: true,
  coolingFan: true,
};

type Report = {
  readonly plantSeconds: number;
  readonly wallSeconds: number;
  /** Processor time of the whole process, its start included: what a busy machine blurs less than wall time. */
  readonly cpuSeconds: number;
};

const TELL_CPU = `data:text/javascript,${encodeURIComponent(
  "process.on('exit', () => { const { user, system } = process.cpuUsage(); process.stderr.write('cpu ' + (user + system)); })",
)}`;

function runShift(entry: string, file: string, args: readonly string[]): Report {
  const all = ['--import', TELL_CPU, entry, 'run', file, '--json', ...args];
  const { status, stdout, stderr } = spawnSync(process.execPath, all, { encoding: 'utf8' });
  const cpuUs = /cpu (\d+)$/.exec(stderr)?.[1];
  if (status !== 0 || cpuUs === undefined) throw new Error(`run ${file} ended with ${status}: ${stderr}`);
  return { ...(JSON.parse(stdout) as Report), cpuSeconds: Number(cpuUs) / 1e6 };
}

/** The fastest of some runs, each in a process of its own, each on a folder of its own when on disk. */
function fastest(entry: string, file: string, mode: 'disk' | 'chain' | 'none'): Report {
  const reports = Array.from({ length: RUNS }, () => {
    if (mode !== 'disk') return runShift(entry, file, ['--record', mode]);
    const folder = mkdtempSync(join(benchFolder(), 'shift-'));
    try {
      return runShift(entry, file, ['--data', folder]);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
  return reports.reduce((best, report) => (report.wallSeconds < best.wallSeconds ? report : best));
}

async function bareLoop(file: string): Promise<Figure> {
  const { shift, plant, mixes } = scenarioOrError(file);
  const [hours = 0, minutes = 0] = shift.startsAt.split(':').map(Number);
  const start = createPlant({
    spec: plant,
    mixes,
    weather: shift.weather,
    startsAtMin: hours * 60 + minutes,
    seed: shift.seed,
  });
  const steps = shift.hours * 36_000;
  const seconds = await bestSeconds(RUNS, () => {
    let at = start;
    for (let i = 0; i < steps; i++) at = stepPlant(at, (i >> 9) % 2 === 0 ? BUSY : AT_REST, []);
  });
  return {
    id: `headless.physics.${shift.id}`,
    what: `${shift.id}: bare physics loop`,
    value: steps / 10 / seconds,
    unit: 'plant s/s',
  };
}

const MODES = {
  disk: 'with its record on disk',
  chain: 'chain only, nothing kept',
  none: 'no record',
} as const;

export async function benchHeadless(): Promise<Figure[]> {
  const entry = await prepare({ client: false });
  const figures: Figure[] = [];
  for (const shift of SHIFTS) {
    const file = `scenarios/shifts/${shift}.yaml`;
    for (const mode of ['disk', 'chain', 'none'] as const) {
      const { plantSeconds, wallSeconds, cpuSeconds } = fastest(entry, file, mode);
      figures.push(
        {
          id: `headless.${mode}.${shift}.wall`,
          what: `${shift}: ${(plantSeconds / 3600).toFixed(1)} h, ${MODES[mode]}`,
          value: wallSeconds,
          unit: 's',
        },
        {
          id: `headless.${mode}.${shift}.cpu`,
          what: `${shift}: ${MODES[mode]}, processor time`,
          value: cpuSeconds,
          unit: 's',
        },
        {
          id: `headless.${mode}.${shift}`,
          what: `${shift}: ${MODES[mode]}`,
          value: plantSeconds / wallSeconds,
          unit: 'plant s/s',
        },
      );
    }
    figures.push(await bareLoop(file));
  }
  return figures;
}
