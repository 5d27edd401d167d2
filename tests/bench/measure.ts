/** How a bench measures: warm up, repeat, keep the best, and say what the figure means. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { BUILD } from '../../server/bin/support/places.mjs';

/** On the disk the project lies on: a folder for temporary files may be memory, where durability costs nothing. */
export function benchFolder(): string {
  const folder = join(BUILD, 'bench');
  mkdirSync(folder, { recursive: true });
  return folder;
}

export type Figure = {
  /** Short name, as in the JSON: "appends.batch100". */
  readonly id: string;
  readonly what: string;
  readonly value: number;
  readonly unit: string;
};

/** Seconds the fastest of `times` runs took; the first run also warms up. */
export async function bestSeconds(times: number, run: () => void | Promise<void>): Promise<number> {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < times; i++) {
    const startedMs = performance.now();
    await run();
    best = Math.min(best, (performance.now() - startedMs) / 1000);
  }
  return best;
}

/** The p-th percentile (0 to 100) of samples, by the nearest rank. Throws on no samples. */
export function percentile(samples: readonly number[], p: number): number {
  const sorted = [...samples].sort((a, b) => a - b);
  const found = sorted[Math.max(0, Math.ceil((p / 100) * sorted.length) - 1)];
  if (found === undefined) throw new Error('no samples');
  return found;
}

const digits = (value: number): string =>
  value >= 1000
    ? Math.round(value).toLocaleString('en-GB')
    : value >= 10
      ? value.toFixed(1)
      : value.toPrecision(3);

/** Figures as lines of a table, values aligned. */
export function tableOf(figures: readonly Figure[]): string {
  const widest = Math.max(...figures.map((figure) => figure.what.length));
  return figures
    .map(({ what, value, unit }) => `  ${what.padEnd(widest)}  ${digits(value).padStart(10)} ${unit}`)
    .join('\n');
}
