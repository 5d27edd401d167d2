/**
 * The thermal-oil circuit: fired (or electric) heater, pump, loss; coils take from it.
 *
 * Lumped heat balance (standard). A mechanical limiter of the heater itself cuts the fire when the oil
 * gets too hot, whatever is asked; its setting is a teaching value.
 *
 * A simplification of the simulated yard: both coils take the oil at its one temperature. Published storage
 * advice for emulsion (AEMA) allows a heating surface of EMULSION_HEATING_SURFACE_MAX_C at most; a real yard
 * mixes the oil down for that coil, or heats with hot water, which is not modelled.
 */
import type { PlantSpec } from '../scenario/plant.schema.ts';
import { approach, lagShare, STEP_S } from './time.ts';

/** kJ/kg·K of a mineral heat-transfer oil at about 150 °C (from memory). */
export const OIL_CP_KJ_KG_K = 2.3;
const LIMITER_C = 300;
const LIMITER_BACK_C = 280;
const PUMP_UP = lagShare(2);
const PUMP_DOWN = lagShare(1.5);
const LIGHTS_S = 3;
const SCANNER_SHARE = lagShare(0.5);

export type ThermalOil = {
  readonly tempC: number;
  readonly flowShare: number;
  /** Seconds the fire has been asked for; it burns after its own starting time. */
  readonly askedS: number;
  readonly lit: boolean;
  readonly limited: boolean;
  readonly scanner: number;
  readonly firedKj: number;
};

/** Oil at the temperature of the air in °C, pump still, fire out. */
export const createThermalOil = (airC: number): ThermalOil => ({
  tempC: airC,
  flowShare: 0,
  askedS: 0,
  lit: false,
  limited: false,
  scanner: 0,
  firedKj: 0,
});

/** Whether the flow switch is made: above 0.7 of full flow (teaching value). */
export const oilFlowProved = (oil: ThermalOil): boolean => oil.flowShare > 0.7;
/** Whether the scanner of the heater reports its flame. */
export const oilFlameSeen = (oil: ThermalOil): boolean => oil.scanner > 0.5;

/**
 * One step: heat in from the fire or the elements, out to the coils (coilsW, W) and to air at airC. Lumped
 * heat balance (standard physics); starting time, limiter and scanner are teaching values.
 */
export const stepThermalOil = (
  oil: ThermalOil,
  spec: PlantSpec['oilHeater'],
  pump: boolean,
  fire: boolean,
  coilsW: number,
  airC: number,
  pumpStopped: boolean,
): ThermalOil => {
  const running = pump && !pumpStopped;
  const flowShare = approach(oil.flowShare, running ? 1 : 0, running ? PUMP_UP : PUMP_DOWN, 1e-3);
  const limited = oil.limited ? oil.tempC > LIMITER_BACK_C : oil.tempC > LIMITER_C;
  const askedS = fire && !limited ? Math.min(oil.askedS + STEP_S, LIGHTS_S) : 0;
  const lit = askedS > LIGHTS_S - STEP_S / 2;
  const heatW = lit ? spec.powerKw * 1000 : 0;
  const netW = heatW - coilsW - spec.lossWPerK * (oil.tempC - airC);
  // Of electric elements the same switch proves that they are on.
  const flame = lit ? 1 : 0;
  return {
    tempC: oil.tempC + (netW * STEP_S) / (1000 * spec.oilKg * OIL_CP_KJ_KG_K),
    flowShare,
    askedS,
    lit,
    limited,
    scanner: approach(oil.scanner, flame, SCANNER_SHARE, 1e-3),
    firedKj: oil.firedKj + (heatW * STEP_S) / 1000,
  };
};
