/** What a plant's bins say about the stone of a mix: its water absorption and the grading of each bin. */
import type { Grading } from '../../mix/gradation.ts';
import type { Mix } from '../../scenario/mix.schema.ts';
import type { PlantSpec } from '../../scenario/plant.schema.ts';

type Bins = PlantSpec['bins'];

/** Water absorption of the stone of a mix, % of dry mass, weighted by its shares; null when a bin is not there. */
export const absorptionOf = (mix: Pick<Mix, 'aggregates'>, bins: Bins): number | null =>
  mix.aggregates.reduce<number | null>((sum, { bin, dryPct }) => {
    const found = bins[bin - 1];
    return sum === null || found === undefined ? null : sum + (found.absorptionPct * dryPct) / 100;
  }, 0);

/** Gradings of the bins that have one, by number. */
export const gradingsOf = (bins: Bins): ReadonlyMap<number, Grading> =>
  new Map(bins.flatMap((bin, i) => (bin.grading === undefined ? [] : [[i + 1, bin.grading] as const])));
