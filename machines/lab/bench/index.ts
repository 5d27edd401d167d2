/** The simulated bench: raw readings such as a lab would write down, from true values and test error. */
import { BALANCES, type BalanceName } from '../worksheets/balances.ts';
import { fieldsOf, type Readings, SHEETS, type SheetContext, type SheetId } from '../worksheets/index.ts';
import type { Bench, Rng, Truth } from './bench.types.ts';
import {
  bondBench,
  particleCountBench,
  staticImmersionBench,
  waterResistanceBench,
  wetCoatingBench,
  workabilityBench,
} from './coatings.ts';
import { aggregateBench, binderDeliveryBench } from './materials.ts';
import { cutbackResidueBench, emulsionResidueBench, extractionBench, ignitionBench } from './residues.ts';
import { moistureBench, sieveBench } from './stone.ts';

export type { Bench, Rng, Truth } from './bench.types.ts';
export { RELATIVE_SD, SD } from './precision.ts';

const BENCHES: Readonly<Record<SheetId, Bench>> = {
  moisture: moistureBench,
  sieve: sieveBench,
  extraction: extractionBench,
  ignition: ignitionBench,
  'emulsion-residue': emulsionResidueBench,
  'cutback-residue': cutbackResidueBench,
  'wet-coating': wetCoatingBench,
  'static-immersion': staticImmersionBench,
  'particle-count': particleCountBench,
  'water-resistance': waterResistanceBench,
  workability: workabilityBench,
  bond: bondBench,
  'binder-delivery': binderDeliveryBench,
  aggregate: aggregateBench,
};

/**
 * Readings of one test: `workOut` of them gives the truth within the test's single-operator error (see precision.ts).
 * Draws from rng a number of times that depends on the sheet.
 */
export const benchReadings = (
  sheet: SheetId,
  truth: Truth,
  rng: Rng,
  error: number,
  context: SheetContext,
): Readings => {
  const readings = BENCHES[sheet](truth, rng, error, context);
  const balance = balanceOf(sheet, readings, context);
  return balance === undefined ? readings : { ...readings, balance };
};

/** The coarsest balance that does for what is weighed; undefined when nothing is. */
const balanceOf = (sheet: SheetId, readings: Readings, context: SheetContext): BalanceName | undefined => {
  const wanted = fieldsOf(SHEETS[sheet], readings, context).flatMap(({ key, readabilityG }) =>
    readabilityG === undefined || readings[key] === undefined ? [] : [readabilityG],
  );
  const names = Object.keys(BALANCES) as BalanceName[];
  return names.findLast((name) => BALANCES[name].eG <= Math.max(...wanted));
};
