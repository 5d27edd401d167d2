/** What lessons about vapour and heat need to know of a plant and its cutback mix. */
import type { Mix } from '../scenario/mix.schema.ts';
import type { PlantSpec } from '../scenario/plant.schema.ts';
import type { Scenario } from '../scenario/shift.schema.ts';

export type Figures = {
  readonly plantName: string;
  readonly dryer: Pick<PlantSpec['dryer'], 'drumVolumeM3' | 'fanM3S' | 'purgeVolumes'>;
  readonly hood: PlantSpec['hood'];
  readonly tank: PlantSpec['tanks']['cutback'];
  readonly limits: PlantSpec['limits'];
  /** Air at the start of the shift and at its warmest, °C. */
  readonly airC: { readonly start: number; readonly warmest: number };
  /** The cutback mix of the shift, or null when it makes none. */
  readonly mix: Mix | null;
};

/** The figures of a scenario; its first cutback mix. */
export const figuresOf = ({ plant, mixes, shift }: Scenario): Figures => {
  const { drumVolumeM3, fanM3S, purgeVolumes } = plant.dryer;
  return {
    plantName: plant.name,
    dryer: { drumVolumeM3, fanM3S, purgeVolumes },
    hood: plant.hood,
    tank: plant.tanks.cutback,
    limits: plant.limits,
    airC: { start: shift.weather.startC, warmest: shift.weather.warmestC },
    mix: mixes.find((mix) => mix.family === 'cutback') ?? null,
  };
};
