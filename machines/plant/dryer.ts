/**
 * The batch dryer drum: burner heat into stone, water and steel.
 *
 * Energy is conserved exactly (standard physics): fire = sensible heat + evaporation + losses, a kilogram
 * of water leaving at 2257 kJ plus its own way to 100 °C. How the heat is shared between warming and
 * drying, and that a nearly empty drum lets most heat pass up the stack, are teaching models.
 */
import type { Outputs } from '../field/outputs.ts';
import { STONE_CP_KJ_KG_K, WATER_CP_KJ_KG_K, WATER_LATENT_KJ_KG } from '../mix/published.ts';
import type { PlantSpec } from '../scenario/plant.schema.ts';
import { type Aggregate, massKgOf, NO_AGGREGATE, partOf, without } from './aggregate.ts';
import { type BurnerFlame, COLD_BURNER, stepBurnerFlame } from './burner-flame.ts';
import { fanPace, stepFan } from './fan.ts';
import { blended } from './sizes.ts';
import { approach, lagShare, STEP_S } from './time.ts';

/** Heat capacity of the flights that follow the stone, kJ/K (teaching value). */
export const DRUM_STEEL_KJ_PER_K = 120;
const PACE = fanPace(3, 5);
const TURN_SHARE = lagShare(2);
const EXHAUST_SHARE = lagShare(8);
const TAIL_S = 2;
const CRUMBS_KG = 0.02;
/** Drying begins to take heat at this temperature and takes all it can 45 K above, °C. */
const DRYING_FROM_C = 50;
const DRYING_SPAN_K = 45;
/** Moisture (share of dry mass) at which drying gets half its heat: the last water is slow. */
const HALF_DRY = 0.004;
/** Load that catches half of the heat offered, kg. */
const HALF_LOAD_KG = 40;
/** Part of the air's heat capacity that cools the load when no flame burns. */
const AIR_CATCH = 0.15;
const AIR_KJ_M3_K = 1.2;
const NEARLY_EMPTY_KG = 2;
/** Heat a kilogram of steam carries off, counted from water at 0 °C, kJ. */
const STEAM_KJ_KG = WATER_LATENT_KJ_KG + WATER_CP_KJ_KG_K * 100;

export type Dryer = {
  readonly load: Aggregate;
  readonly burner: BurnerFlame;
  readonly airM3S: number;
  readonly turnShare: number;
  readonly exhaustC: number;
  readonly gave: Aggregate;
  /** Water evaporated in this step, kg. */
  readonly steamKg: number;
  /** Heat taken up from the fire and heat lost by casing and air since the start, kJ. */
  readonly takenKj: number;
  readonly lostKj: number;
};

/** An empty drum, burner out, at the temperature of the air in °C. */
export const createDryer = (airC: number): Dryer => ({
  load: { ...NO_AGGREGATE, tempC: airC },
  burner: COLD_BURNER,
  airM3S: 0,
  turnShare: 0,
  exhaustC: airC,
  gave: NO_AGGREGATE,
  steamKg: 0,
  takenKj: 0,
  lostKj: 0,
});

/** Whether the drum holds 1600 kg or more, so that nothing more slides in (teaching value). */
export const drumBlocked = (dryer: Dryer): boolean => massKgOf(dryer.load) >= 1600;

/** Heat capacity of stone, water and steel in the drum, kJ/K. */
const drumKjPerK = (load: Aggregate): number =>
  load.stoneKg * STONE_CP_KJ_KG_K + load.waterKg * WATER_CP_KJ_KG_K + DRUM_STEEL_KJ_PER_K;

/** Charge joining the drum: stone meets stone and steel by heat capacity. */
const charged = (load: Aggregate, more: Aggregate): Aggregate => {
  const moreKjPerK = more.stoneKg * STONE_CP_KJ_KG_K + more.waterKg * WATER_CP_KJ_KG_K;
  return {
    stoneKg: load.stoneKg + more.stoneKg,
    waterKg: load.waterKg + more.waterKg,
    drinkKg: load.drinkKg + more.drinkKg,
    tempC: load.tempC + ((more.tempC - load.tempC) * moreKjPerK) / (drumKjPerK(load) + moreKjPerK),
    sizes: blended(load.sizes, load.stoneKg, more.sizes, more.stoneKg),
  };
};

/** Share of the heat that dries rather than warms. */
const dryingShare = (load: Aggregate): number => {
  if (load.waterKg <= 0 || load.tempC <= DRYING_FROM_C) return 0;
  const hot = Math.min(1, (load.tempC - DRYING_FROM_C) / DRYING_SPAN_K);
  const wet = load.waterKg / (load.waterKg + HALF_DRY * load.stoneKg);
  return hot * wet;
};

/**
 * One step: charge in, heat in kJ shared between warming and drying, stone out at up to spec.dischargeKgS.
 * The heat balance closes exactly (standard physics); the sharing is a teaching model.
 */
export const stepDryer = (
  dryer: Dryer,
  spec: PlantSpec['dryer'],
  outputs: Outputs,
  charge: Aggregate,
  airC: number,
  fanStopped: boolean,
  fuelLeaking: boolean,
  willNotLight: boolean,
  outletBlocked: boolean,
): Dryer => {
  const airM3S = stepFan(dryer.airM3S, outputs.drumFan && !fanStopped, spec.fanM3S, PACE);
  const turnShare = approach(dryer.turnShare, outputs.drumTurn ? 1 : 0, TURN_SHARE, 1e-3);
  const burner = stepBurnerFlame(dryer.burner, outputs, spec, airM3S, fuelLeaking, willNotLight);
  let load = charge.stoneKg > 0 ? charged(dryer.load, charge) : dryer.load;

  const massKg = massKgOf(load);
  const catchShare = massKg / (massKg + HALF_LOAD_KG);
  const stirred = 0.15 + 0.85 * turnShare;
  const fireKj = burner.mainLit
    ? spec.burnerKw * burner.fuelShare * spec.efficiency * catchShare * stirred * STEP_S
    : 0;
  const over = load.tempC - airC;
  const airKjPerK = burner.mainLit ? 0 : airM3S * AIR_KJ_M3_K * AIR_CATCH * catchShare * stirred;
  const lossKj = (spec.casingWPerK / 1000 + airKjPerK) * over * STEP_S;

  let steamKg = 0;
  if (fireKj !== 0 || lossKj > 1e-9 || lossKj < -1e-9) {
    const perKgKj = WATER_LATENT_KJ_KG + WATER_CP_KJ_KG_K * (100 - load.tempC);
    steamKg = Math.min((fireKj * dryingShare(load)) / perKgKj, load.waterKg);
    // Heat is counted from 0 °C, so that what steam takes away and what stays add up exactly.
    const heldKj = drumKjPerK(load) * load.tempC + fireKj - lossKj - steamKg * STEAM_KJ_KG;
    const waterKg = load.waterKg - steamKg;
    load = {
      stoneKg: load.stoneKg,
      waterKg,
      drinkKg: load.drinkKg,
      tempC: heldKj / (load.stoneKg * STONE_CP_KJ_KG_K + waterKg * WATER_CP_KJ_KG_K + DRUM_STEEL_KJ_PER_K),
      sizes: load.sizes,
    };
  }

  let gave = NO_AGGREGATE;
  if (outputs.drumDischarge && !outletBlocked && massKg > 0 && turnShare > 0) {
    const kg = massKgOf(load);
    gave = partOf(load, kg < CRUMBS_KG ? kg : Math.min(spec.dischargeKgS, kg / TAIL_S) * turnShare * STEP_S);
    load = without(load, gave);
  }

  const stackC = burner.mainLit
    ? load.tempC + 40 + (massKg < NEARLY_EMPTY_KG ? 260 : 60) * burner.fuelShare
    : airC + over * (massKg < NEARLY_EMPTY_KG ? 0.3 : 0.6);
  const exhaustC = approach(dryer.exhaustC, stackC, EXHAUST_SHARE, 1e-3);

  if (
    load === dryer.load &&
    burner === dryer.burner &&
    airM3S === dryer.airM3S &&
    turnShare === dryer.turnShare &&
    exhaustC === dryer.exhaustC &&
    gave === dryer.gave &&
    steamKg === dryer.steamKg
  )
    return dryer;
  return {
    load,
    burner,
    airM3S,
    turnShare,
    exhaustC,
    gave,
    steamKg,
    takenKj: dryer.takenKj + fireKj,
    lostKj: dryer.lostKj + lossKj,
  };
};
