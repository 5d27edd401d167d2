/** The yard as a scenario has it, cut down to what the stock needs. */
import { solventMoleShare } from '../../mix/solvent.ts';
import type { Mix } from '../../scenario/mix.schema.ts';
import type { Scenario } from '../../scenario/shift.schema.ts';
import { SHELF_DAYS } from './rules.ts';
import type { TankShape, YardShape } from './state.types.ts';

/** Bays without measures are taken as this wide and deep, m (invented). */
const BAY_M = { widthM: 5, depthM: 5 } as const;

const tankShape = (tank: Scenario['plant']['tanks']['emulsion']): TankShape => ({
  grade: tank.grade,
  diameterM: tank.diameterM,
  lengthM: tank.lengthM,
  densityAt15KgM3: tank.densityAt15KgM3,
  leastMm: Math.round(tank.coilTopM * 1000 + tank.coilCoverMm),
});

/** Binder over binder and dry aggregate, then its solvent: % of the mass of fresh mix, water left out. */
const solventPctOfMix = ({ binder }: Mix): number =>
  (binder.dosePct / (100 + binder.dosePct)) * binder.solventMassPct;

const shelfDaysOf = (mix: Mix, specifications: Scenario['specifications']): number =>
  specifications?.find((one) => one.id === mix.specification)?.shelfLife.days ?? SHELF_DAYS[mix.family];

export const yardOf = ({ plant, mixes, specifications }: Scenario): YardShape => ({
  name: plant.name,
  tanks: { emulsion: tankShape(plant.tanks.emulsion), cutback: tankShape(plant.tanks.cutback) },
  bins: plant.bins.map((bin, i) => ({
    bin: i + 1,
    name: bin.name,
    size: bin.size,
    capacityKg: bin.capacityKg,
  })),
  bays: plant.bays.map((bay) => ({
    id: bay.id,
    name: bay.name,
    capacityT: bay.capacityT,
    widthM: bay.widthM ?? BAY_M.widthM,
    depthM: bay.depthM ?? BAY_M.depthM,
    cover: bay.cover ?? 'open',
  })),
  mixes: mixes.map((mix) => ({
    id: mix.id,
    version: mix.version,
    name: mix.name,
    family: mix.family,
    shelfDays: shelfDaysOf(mix, specifications),
    solventPctOfMix: solventPctOfMix(mix),
    moleShare: solventMoleShare(100 - mix.binder.solventMassPct, mix.binder.solventMassPct),
    viscosity: mix.binder.viscosity,
  })),
});
