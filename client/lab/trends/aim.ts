/** Where the residual binder should lie and how far lots may stray by the test alone: chart limits known beforehand. Pure. */
import { SD } from '../../../machines/lab/bench/precision.ts';
import type { LabView } from '../../../machines/lab/view.ts';
import { residueOfAggregatePct, residueOfMixPct } from '../../../machines/mix/residue.ts';
import { specOfMix } from './limits-for.ts';

export type Aim = { readonly centre: number; readonly sigma: number };

/**
 * What the newest version of the mix is dosed for, and the spread of a lot's mean: the single-operator spread of one
 * extraction (ASTM D2172, from memory) over the root of the samples a lot gives. Null for another property.
 */
export function aimOf(view: LabView, mix: string, property: string): Aim | null {
  const newest = view.mixes.filter(({ id }) => id === mix).sort((a, b) => b.version - a.version)[0];
  const n = specOfMix(view, mix)?.frequencies['binder content'] ?? 0;
  if (newest === undefined || n === 0) return null;
  const { dosePct, residueMassPct } = newest.binder;
  const sigma = SD.extractionPct / Math.sqrt(n);
  if (property === 'residualBinderMixPct') return { centre: residueOfMixPct(dosePct, residueMassPct), sigma };
  if (property === 'residualBinderAggPct')
    return { centre: residueOfAggregatePct(dosePct, residueMassPct), sigma };
  return null;
}
