/**
 * How fast a mix coats, breaks, steams and drags, from what is in the mixer. Looked up once a second.
 *
 * Standard physics: viscosity by ASTM D341, water vapour pressure by Antoine, ideal gas. Teaching models
 * (shapes chosen to look right, no source): coating speed as a product of wetting, viscosity and dose;
 * breaking of emulsion as a first-order reaction that doubles every 15 K; drag on the motor.
 */
import { waterVapourKPa } from '../mix/vapour-pressure.ts';
import { viscosityMm2S } from '../mix/walther.ts';
import type { Binder } from './binder.ts';

export type MixingRates = {
  /** 1/s towards full coating while turning. */
  readonly coatPerS: number;
  /** 1/s of emulsion breaking. */
  readonly breakPerS: number;
  /** Water leaving as vapour, kg/s. */
  readonly steamKgS: number;
  /** Motor load against that of the same mass of damp stone. */
  readonly drag: number;
};

/** Nothing coats, breaks or steams. */
export const NO_RATES: MixingRates = { coatPerS: 0, breakPerS: 0, steamKgS: 0, drag: 1 };

const within = (low: number, value: number, high: number): number =>
  value < low ? low : Math.min(value, high);

/** Residue on stone, %, below which coating is starved in proportion. */
const RICH_ENOUGH_PCT = 3.5;
/** Exchange of water vapour, m³/s at full load turning (teaching value). */
const STEAM_M3_S = 0.025;

export type MixState = {
  readonly stoneKg: number;
  readonly freeKg: number;
  readonly bitumenKg: number;
  readonly emulsionBitumenKg: number;
  readonly antiStripKg: number;
  readonly tempC: number;
  readonly speed: number;
};

/** Wetting 0 to 1 for emulsion: dry stone sucks the emulsion's own water and balls it, a flooded one floats it off. */
const emulsionWetting = (freePct: number): number =>
  freePct < 1 ? 0.45 + 0.55 * freePct : freePct < 5 ? 1 : within(0.5, 1 - 0.1 * (freePct - 5), 1);

/** Wetting for hot cutback: free water keeps it off the stone, anti-strip helps it on. */
const cutbackWetting = (freePct: number, antiStrip: boolean): number =>
  within(0.1, 1 - 0.4 * freePct, 1) * (antiStrip ? 1 : 0.85);

/**
 * Rates in 1/s, kg/s and as a factor (see MixingRates) of a mix as it lies. Viscosity by ASTM D341 and
 * water vapour by Antoine; coating, breaking and drag are a teaching model.
 */
export const mixingRates = (mix: MixState, emulsion: Binder, cutback: Binder): MixingRates => {
  const { stoneKg, bitumenKg, tempC } = mix;
  if (stoneKg < 1) return NO_RATES;
  const freePct = (100 * mix.freeKg) / stoneKg;
  let coatPerS = 0;
  let drag = freePct > 0.5 ? 0.9 : 1;
  const emulsionShare = bitumenKg > 0 ? mix.emulsionBitumenKg / bitumenKg : 0;
  if (bitumenKg > 0.05) {
    const rich = within(0, (100 * bitumenKg) / stoneKg / RICH_ENOUGH_PCT, 1);
    const emulsionMm2S = viscosityMm2S(emulsion.line, tempC);
    const cutbackMm2S = viscosityMm2S(cutback.line, tempC);
    const byEmulsion = 0.055 * emulsionWetting(freePct) * within(0.2, (80 / emulsionMm2S) ** 0.3, 1.3);
    const byCutback =
      0.045 * cutbackWetting(freePct, mix.antiStripKg > 0) * within(0.05, (2000 / cutbackMm2S) ** 0.35, 1.6);
    coatPerS = rich * (emulsionShare * byEmulsion + (1 - emulsionShare) * byCutback);
    const thick = within(0.85, (cutbackMm2S / 2000) ** 0.15, 1.6);
    drag = emulsionShare * 0.85 + (1 - emulsionShare) * thick;
  }
  const breakPerS = emulsionShare > 0 ? within(0, 2 ** ((tempC - 20) / 15) / 400, 0.02) : 0;
  const steamKgS =
    tempC > 30 && mix.freeKg > 0
      ? (STEAM_M3_S * (0.1 + 0.9 * mix.speed) * 1000 * (waterVapourKPa(tempC) - 1) * 0.018) /
        (8.314 * (tempC + 273.15))
      : 0;
  return { coatPerS, breakPerS, steamKgS, drag };
};
