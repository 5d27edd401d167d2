/** Asks the simulated bench what it would read for a sample; there is no bench behind it but the simulation. */
import type { Readings } from './drafts.ts';

export type BenchAnswer =
  | { readonly ok: true; readonly readings: Readings }
  | { readonly ok: false; readonly because: readonly string[] };

const textOf = (value: unknown): string => (value === null || value === undefined ? '' : String(value));

export async function readBench(lot: string, sample: number, sheet: string): Promise<BenchAnswer> {
  try {
    const response = await fetch(`/api/lab/bench/${lot}/${sample}?sheet=${sheet}`);
    const value: unknown = await response.json().catch(() => null);
    const said = typeof value === 'object' && value !== null ? value : {};
    if (response.ok && 'readings' in said && typeof said.readings === 'object' && said.readings !== null)
      return {
        ok: true,
        readings: Object.fromEntries(Object.entries(said.readings).map(([key, one]) => [key, textOf(one)])),
      };
    const because = 'because' in said && Array.isArray(said.because) ? said.because.map(String) : null;
    return { ok: false, because: because ?? [`The server answered ${response.status}: no readings came.`] };
  } catch {
    return { ok: false, because: ['The server does not answer: see whether the program still runs.'] };
  }
}
