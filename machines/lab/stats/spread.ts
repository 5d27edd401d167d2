/** How far results of one lot lie apart, pooled over the lots. */
import { mean } from './describe.ts';
import type { Series } from './series.types.ts';

export type PooledSpread = {
  /** Standard deviation within a lot, in the unit of the values. */
  readonly sigma: number;
  readonly freedom: number;
  readonly lots: number;
};

/** Null while no lot has two results. */
export const pooledWithin = (series: Series): PooledSpread | null => {
  const lots = new Map<string, number[]>();
  for (const { lot, value } of series) lots.set(lot, [...(lots.get(lot) ?? []), value]);
  const several = [...lots.values()].filter((values) => values.length > 1);
  const freedom = several.reduce((sum, values) => sum + values.length - 1, 0);
  if (freedom === 0) return null;
  const squares = several.reduce((sum, values) => {
    const centre = mean(values);
    return sum + values.reduce((own, x) => own + (x - centre) ** 2, 0);
  }, 0);
  return { sigma: Math.sqrt(squares / freedom), freedom, lots: several.length };
};
