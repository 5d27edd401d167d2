/** Whether a mix can be made on a plant at all: bins it names, and what mixer, hopper and bucket hold. */
import { batchTargets, dryTargets } from '../../mix/batch-targets.ts';
import type { Mix } from '../../scenario/mix.schema.ts';
import type { PlantSpec } from '../../scenario/plant.schema.ts';

const kg = (value: number): string => value.toFixed(1).replace(/\.0$/, '');

/** Reasons why not, in words that say what to change; none when it fits. */
export const fitsPlant = (mix: Mix, plant: PlantSpec): string[] => {
  const strange = mix.aggregates.filter((share) => share.bin > plant.bins.length);
  if (strange.length > 0)
    return strange.map(
      (share) => `The plant has ${plant.bins.length} bins: take the share of bin ${share.bin} from another.`,
    );
  const targets = mix.drying === undefined ? batchTargets(mix, plant.bins) : dryTargets(mix);
  const wetKg = targets.parts.reduce((sum, part) => sum + part.wetKg, 0);
  const because: string[] = [];
  if (mix.batchKg > plant.mixer.capacityKg)
    because.push(
      `A batch of ${kg(mix.batchKg)} kg does not fit the mixer, which holds ${kg(plant.mixer.capacityKg)} kg: make the batch smaller.`,
    );
  if (wetKg > plant.hopper.capacityKg)
    because.push(
      `${kg(wetKg)} kg of aggregate do not fit the weigh hopper, which holds ${kg(plant.hopper.capacityKg)} kg: make the batch smaller.`,
    );
  if (mix.drying !== undefined && mix.drying.chargeKg > plant.hopper.capacityKg)
    because.push(
      `A dryer charge of ${kg(mix.drying.chargeKg)} kg does not fit the weigh hopper, which holds ${kg(plant.hopper.capacityKg)} kg: dry smaller charges.`,
    );
  if (targets.binderKg > plant.bucket.capacityKg)
    because.push(
      `${kg(targets.binderKg)} kg of binder do not fit the weigh bucket, which holds ${kg(plant.bucket.capacityKg)} kg: make the batch smaller or the dose lower.`,
    );
  return because;
};
