/**
 * What gets into a binder tank and what comes of it: deliveries of either binder, free water, foam, vapour at
 * the vent. Looked at once a second; a tank with nothing of the kind is handed back as it was.
 *
 * Standard physics: mass and heat balance, latent heat of water, vapour pressure over the binder (Raoult).
 * Teaching model: how fast water under hot binder boils, how high it foams, how the vent's plume thins.
 */
import { cylinderM3, dipOfM } from '../mix/cylinder.ts';
import { saturatedLelPct, solventMoleShare } from '../mix/solvent.ts';
import { densityKgM3 } from '../mix/volume-correction.ts';
import type { TankSpec } from '../scenario/plant.schema.ts';
import type { Binder } from './binder.ts';
import { columnOf, type Tank } from './tank.ts';

export type TankDelivery = {
  readonly product: 'emulsion' | 'cutback';
  readonly leftKg: number;
  readonly kgS: number;
};

/** A truck's load, °C. Common practice, no source. */
const TRUCK_C = { emulsion: 40, cutback: 85 } as const;
/** Emulsion that meets contents hotter than this breaks at once and sets its water free, °C (teaching value). */
const BREAKS_ABOVE_C = 60;
/** Water under binder begins to boil in pockets here, °C (from memory: foaming is looked for from about 95 °C). */
const FOAMS_FROM_C = 95;
/** kg/s of water that boils for each kelvin above that (teaching value). */
const BOIL_KG_S_K = 0.012;
/** kJ/kg at 100 °C. */
const LATENT_KJ_KG = 2257;
/** kg/m³ at 100 °C and 1 atm. */
const STEAM_KG_M3 = 0.598;
/** m of foam for each kg/s of steam, and the share of the way foam goes in a second (teaching values). */
const FOAM_M_PER_KG_S = 2.5;
const FOAM_SHARE = 0.08;
const NO_FOAM_M = 0.001;
/** kg/s that leave by the hatch for each metre foam stands above the top (teaching value). */
const OVER_KG_S_M = 20;
/** m³/s a tank breathes at rest and while its coil heats it (teaching values). */
const BREATH_M3_S = 0.0003;
const HEATED_BREATH_M3_S = 0.0015;
/** m³/s of outside air that thins what leaves a vent before it reaches the detector (teaching value). */
const PLUME_M3_S = 0.05;

/** Solvent vapour in the gas above the contents, % of the lower explosive limit. */
const gasLelPct = (tank: Tank, solventBinder: Binder, solventBinderKg: number): number => {
  if (solventBinderKg <= 0) return 0;
  const solventKg = solventBinderKg * solventBinder.solventShare;
  const bitumenKg = tank.massKg - tank.waterKg - solventKg;
  return saturatedLelPct(tank.tempC, solventMoleShare(Math.max(bitumenKg, 0), solventKg));
};

/** Height of the free water at the bottom, mm. */
const waterMmOf = (spec: TankSpec, waterKg: number): number =>
  waterKg === 0 ? 0 : dipOfM(spec.diameterM, spec.lengthM, waterKg / 1000) * 1000;

type Filled = Pick<
  Tank,
  'massKg' | 'otherKg' | 'waterKg' | 'tempC' | 'delivery' | 'deliveredKg' | 'spilledKg'
> & { readonly pushedM3S: number };

/** One second of a delivery. What finds no room is spilled. */
const filled = (tank: Tank, spec: TankSpec, emulsion: Binder): Filled => {
  const { delivery } = tank;
  if (delivery === null) return { ...tank, pushedM3S: 0 };
  const inKg = Math.min(delivery.leftKg, delivery.kgS);
  const rho = densityKgM3(columnOf(spec), spec.densityAt15KgM3, tank.tempC);
  const roomKg = cylinderM3(spec.diameterM, spec.lengthM, spec.diameterM) * rho - tank.massKg;
  const keptKg = Math.max(0, Math.min(inKg, roomKg));
  const own = delivery.product === spec.contents;
  const freedKg =
    !own && delivery.product === 'emulsion' && tank.tempC > BREAKS_ABOVE_C ? keptKg * emulsion.waterShare : 0;
  const massKg = tank.massKg + keptKg;
  const leftKg = delivery.leftKg - inKg;
  return {
    massKg,
    otherKg: own ? tank.otherKg : tank.otherKg + keptKg - freedKg,
    waterKg: tank.waterKg + freedKg,
    tempC:
      massKg > 0 ? tank.tempC + ((TRUCK_C[delivery.product] - tank.tempC) * keptKg) / massKg : tank.tempC,
    delivery: leftKg > 0 ? { ...delivery, leftKg } : null,
    deliveredKg: tank.deliveredKg + inKg,
    spilledKg: tank.spilledKg + inKg - keptKg,
    pushedM3S: keptKg / rho,
  };
};

/** Water boiled in a second, kg, no more than there is. */
const boilsKg = (waterKg: number, tempC: number): number =>
  waterKg > 0 && tempC > FOAMS_FROM_C ? Math.min(waterKg, BOIL_KG_S_K * (tempC - FOAMS_FROM_C)) : 0;

/** One second: delivery in, water boiled off, foam up or down and over the top, vapour at the vent. */
export const stepTankContents = (
  tank: Tank,
  spec: TankSpec,
  emulsion: Binder,
  cutback: Binder,
  heated: boolean,
): Tank => {
  const quiet = tank.delivery === null && tank.waterKg === 0 && tank.foamM === 0;
  const solventKg = spec.contents === 'cutback' ? tank.massKg - tank.otherKg - tank.waterKg : tank.otherKg;
  if (quiet && solventKg <= 0) return tank.ventLelPct === 0 ? tank : { ...tank, ventLelPct: 0 };
  const gas = gasLelPct(tank, cutback, solventKg);
  const breathM3S = heated ? HEATED_BREATH_M3_S : BREATH_M3_S;
  if (quiet) return { ...tank, ventLelPct: (gas * breathM3S) / (breathM3S + PLUME_M3_S) };

  const full = filled(tank, spec, emulsion);
  const boiledKg = boilsKg(full.waterKg, full.tempC);
  let { massKg, otherKg, waterKg, tempC, spilledKg } = full;
  massKg -= boiledKg;
  waterKg -= boiledKg;
  tempC -= (boiledKg * LATENT_KJ_KG) / (Math.max(massKg, 50) * tank.seen.cpKjKgK);
  const grownM = tank.foamM + (boiledKg * FOAM_M_PER_KG_S - tank.foamM) * FOAM_SHARE;
  const foamM = grownM < NO_FOAM_M ? 0 : grownM;
  const overM = tank.seen.dipM + foamM - spec.diameterM;
  if (foamM > 0 && overM > 0 && massKg > waterKg) {
    const overKg = Math.min(overM * OVER_KG_S_M, massKg - waterKg);
    otherKg -= (otherKg * overKg) / (massKg - waterKg);
    massKg -= overKg;
    spilledKg += overKg;
  }
  const ventM3S = breathM3S + full.pushedM3S + boiledKg / STEAM_KG_M3;
  return {
    ...tank,
    massKg,
    otherKg,
    waterKg,
    tempC,
    foamM,
    waterMm: waterMmOf(spec, waterKg),
    delivery: full.delivery,
    deliveredKg: full.deliveredKg,
    spilledKg,
    boiledKg: tank.boiledKg + boiledKg,
    ventLelPct: (gas * ventM3S) / (ventM3S + PLUME_M3_S),
  };
};
