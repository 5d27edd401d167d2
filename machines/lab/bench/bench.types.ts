/** What the simulated bench is given and what it gives: true values in, raw readings out. */
import type { Readings, SheetContext } from '../worksheets/sheet.types.ts';

/**
 * True values by property id (as results are named), in the property's unit. Extraction and ignition also look for
 * `waterPct` and `solventPct`, % of the mix as sampled, 0 when absent.
 */
export type Truth = Readonly<Record<string, number>>;

/** Uniform in [0, 1). */
export type Rng = () => number;

/**
 * error: how many single-operator standard deviations one standard deviation of this bench is: 1 a good technician, 0 no
 * test error at all (readings are still rounded as balances and burettes are).
 */
export type Bench = (truth: Truth, rng: Rng, error: number, context: SheetContext) => Readings;
