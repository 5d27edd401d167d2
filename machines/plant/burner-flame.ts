/**
 * The dryer burner: pilot, main fuel valve, flame, scanner and fuel not burnt.
 *
 * A flame needs fuel, air and something to light it: the pilot lights main fuel, and main flame keeps
 * itself. Fuel let in without a flame stays in the drum as vapour until the fan washes it out
 * (well-mixed volume, first order: standard physics). Valve and scanner times are teaching values.
 */
import type { Outputs } from '../field/outputs.ts';
import { FUEL_OIL_LHV_KJ_KG, KEROSENE_LEL_VOL_PCT } from '../mix/published.ts';
import type { PlantSpec } from '../scenario/plant.schema.ts';
import { approach, lagShare, STEP_S, travel } from './time.ts';

/** Seconds of spark and pilot gas before the pilot burns. */
const PILOT_S = 1;
/** Full travel of the main fuel valve, s. */
const VALVE_TRAVEL_S = 1;
/** Opening at which a valve that does not seat stays. */
const LEAK_SHARE = 0.03;
/** Share of full fan flow below which a flame starves. */
const AIR_SHARE = 0.25;
const SCANNER_SHARE = lagShare(0.4);
/** kg/m³, vapour of fuel oil (molar mass about 0.2 kg/mol at drum temperature; from memory). */
const FUEL_VAPOUR_KG_M3 = 7;

export type BurnerFlame = {
  readonly pilotS: number;
  readonly pilotLit: boolean;
  /** 0 shut to 1 full. */
  readonly fuelShare: number;
  readonly mainLit: boolean;
  readonly scanner: number;
  readonly unburntKg: number;
  /** Times a flame met more fuel vapour than the lower limit. */
  readonly puffs: number;
  readonly fuelUsedKg: number;
};

/** A burner that is out, its fuel valve shut. */
export const COLD_BURNER: BurnerFlame = {
  pilotS: 0,
  pilotLit: false,
  fuelShare: 0,
  mainLit: false,
  scanner: 0,
  unburntKg: 0,
  puffs: 0,
  fuelUsedKg: 0,
};

/** Whether the scanner reports a flame, of pilot or main (its lag is a teaching value). */
export const flameSeen = (burner: BurnerFlame): boolean => burner.scanner > 0.5;
/** Whether the switch of the main fuel valve proves it on its seat. */
export const fuelProvedShut = (burner: BurnerFlame): boolean => burner.fuelShare === 0;

/** Fuel vapour in the drum as % of its lower explosive limit, taken as that of kerosene (ideal gas, well mixed). */
export const drumFuelLelPct = (burner: BurnerFlame, drumVolumeM3: number): number =>
  (100 * ((100 * burner.unburntKg) / FUEL_VAPOUR_KG_M3 / drumVolumeM3)) / KEROSENE_LEL_VOL_PCT;

/**
 * One step with combustion air in m³/s: pilot, valve, flame, scanner and unburnt fuel in kg. Wash-out of
 * the drum is first order (standard physics), fuel by its lower heating value; times and the air a flame
 * needs are a teaching model.
 */
export const stepBurnerFlame = (
  burner: BurnerFlame,
  outputs: Outputs,
  spec: PlantSpec['dryer'],
  airM3S: number,
  leaking: boolean,
  willNotLight: boolean,
): BurnerFlame => {
  const main = outputs.burnerMain;
  if (
    main === 'shut' &&
    !outputs.burnerPilot &&
    !leaking &&
    burner.fuelShare === 0 &&
    burner.scanner === 0 &&
    burner.unburntKg === 0
  )
    return burner.pilotLit || burner.mainLit || burner.pilotS !== 0
      ? { ...burner, pilotS: 0, pilotLit: false, mainLit: false }
      : burner;

  const asked = main === 'high' ? 1 : main === 'low' ? spec.lowFireShare : 0;
  const least = leaking ? LEAK_SHARE : 0;
  const fuelShare = travel(burner.fuelShare, Math.max(asked, least), STEP_S / VALVE_TRAVEL_S);
  const air = airM3S >= spec.fanM3S * AIR_SHARE;
  const pilotS = outputs.burnerPilot ? Math.min(burner.pilotS + STEP_S, PILOT_S) : 0;
  const pilotLit = pilotS > PILOT_S - STEP_S / 2 && air && !willNotLight;
  const mainLit = fuelShare > 0 && air && (pilotLit || burner.mainLit) && !willNotLight;
  const lit = pilotLit || mainLit;

  const fuelKg = (fuelShare * spec.burnerKw * STEP_S) / FUEL_OIL_LHV_KJ_KG;
  let { unburntKg, puffs } = burner;
  if (lit && unburntKg > 0) {
    if (drumFuelLelPct(burner, spec.drumVolumeM3) > 100) puffs += 1;
    unburntKg = 0;
  } else if (!lit && (fuelShare > 0 || unburntKg > 0)) {
    unburntKg = (unburntKg + fuelKg) * Math.exp((-airM3S * STEP_S) / spec.drumVolumeM3);
    if (unburntKg < 1e-9) unburntKg = 0;
  }
  return {
    pilotS,
    pilotLit,
    fuelShare,
    mainLit,
    scanner: approach(burner.scanner, lit ? 1 : 0, SCANNER_SHARE, 1e-3),
    unburntKg,
    puffs,
    fuelUsedKg: burner.fuelUsedKg + fuelKg,
  };
};
