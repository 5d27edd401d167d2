/**
 * The mixer hood: solvent leaving the mix, air drawn through, and the vapour between them.
 *
 * Standard physics: Raoult's law over an undecane-like solvent (Antoine), a well-mixed volume washed out
 * first order, solved exactly for each step. The surrogate's saturated vapour meets the lower limit of
 * kerosene near 66 °C, the least flash point of MC-800. Teaching model: the stone's wetted surface gives
 * a gas-side conductance, and a thick binder holds its solvent back as a power of its viscosity.
 */

import { KEROSENE_LEL_VOL_PCT, UNDECANE_KG_MOL } from '../mix/published.ts';
import { GAS_CONSTANT, pureVapourKgM3, solventMoleShare } from '../mix/solvent.ts';
import { ANTOINE, antoineKPa } from '../mix/vapour-pressure.ts';
import { viscosityMm2S } from '../mix/walther.ts';
import type { PlantSpec } from '../scenario/plant.schema.ts';
import type { Binder } from './binder.ts';
import { fanPace, stepFan } from './fan.ts';
import { approach, lagShare, STEP_S } from './time.ts';

const PACE = fanPace(1.5, 3);
const DETECTOR_SHARE = lagShare(5);
/** m³/s at which a fully loaded, turning mixer gives solvent to the air when the film is no hindrance. */
const GAS_SIDE_M3_S = 10;
/** m³/s through the film at the reference viscosity, and how it falls as the binder thickens. */
const FILM_M3_S = 0.12;
const FILM_AT_MM2_S = 2300;
const FILM_POWER = -1.4;
/** A standing mix gives off this share of what a turning one does. */
const STANDING = 0.08;
const FULL_LOAD_KG = 700;
const LITTLE_KG = 1e-9;

export type Hood = {
  readonly flowM3S: number;
  readonly vapourKg: number;
  /** Solvent that left the mix in this step, kg. */
  readonly evaporatedKg: number;
  /** Looked up once a second: kg/m³ above the mix at equilibrium, and m³/s of exchange. */
  readonly saturatedKgM3: number;
  readonly exchangeM3S: number;
  readonly airC: number;
  readonly detectorLelPct: number;
};

/** A hood without vapour, its fan still, at the temperature of the air in °C. */
export const createHood = (airC: number): Hood => ({
  flowM3S: 0,
  vapourKg: 0,
  evaporatedKg: 0,
  saturatedKgM3: 0,
  exchangeM3S: 0,
  airC,
  detectorLelPct: 0,
});

/** True vapour in the hood as % of the lower explosive limit of kerosene. */
export const hoodLelPct = (hood: Hood, volumeM3: number): number =>
  ((100 * hood.vapourKg) / volumeM3 / pureVapourKgM3(hood.airC) / KEROSENE_LEL_VOL_PCT) * 100;

/** What the mix offers the air; called once a second. */
export const offered = (
  hood: Hood,
  cutback: Binder,
  mix: {
    readonly bitumenKg: number;
    readonly solventKg: number;
    readonly tempC: number;
    readonly speed: number;
  },
  mixKg: number,
  airC: number,
): Hood => {
  if (mix.solventKg <= 0)
    return hood.exchangeM3S === 0 && hood.airC === airC
      ? hood
      : { ...hood, saturatedKgM3: 0, exchangeM3S: 0, airC };
  const partialPa =
    1000 * antoineKPa(ANTOINE.undecane, mix.tempC) * solventMoleShare(mix.bitumenKg, mix.solventKg);
  const film = FILM_M3_S * (viscosityMm2S(cutback.line, mix.tempC) / FILM_AT_MM2_S) ** FILM_POWER;
  const load = Math.min(1, mixKg / FULL_LOAD_KG) * (STANDING + (1 - STANDING) * mix.speed);
  return {
    ...hood,
    airC,
    saturatedKgM3: (partialPa * UNDECANE_KG_MOL) / (GAS_CONSTANT * (airC + 273.15)),
    exchangeM3S: (load * film * GAS_SIDE_M3_S) / (film + GAS_SIDE_M3_S),
  };
};

/**
 * One step with solventKg in the mix: flow in m³/s, vapour and evaporation in kg, the detector in % of the
 * lower limit. A well-mixed volume solved exactly (standard physics); the detector's lag is a teaching
 * value.
 */
export const stepHood = (
  hood: Hood,
  spec: PlantSpec['hood'],
  fanRunning: boolean,
  solventKg: number,
): Hood => {
  const flowM3S = stepFan(hood.flowM3S, fanRunning, spec.fanM3S, PACE);
  let vapourKg = hood.vapourKg;
  let evaporatedKg = 0;
  const exchangeM3S = solventKg > 0 ? hood.exchangeM3S : 0;
  if (vapourKg > 0 || exchangeM3S > 0) {
    // dM/dt = exchange·(saturated − M/V) − (flow + leak)·M/V, exact over a step
    const outM3S = flowM3S + spec.leakM3S;
    const perS = (exchangeM3S + outM3S) / spec.volumeM3;
    const settledKg = (exchangeM3S * hood.saturatedKgM3) / perS;
    const fade = -Math.expm1(-perS * STEP_S);
    let next = vapourKg + (settledKg - vapourKg) * fade;
    if (exchangeM3S > 0) {
      const washedKg =
        (outM3S / spec.volumeM3) * (settledKg * STEP_S + ((vapourKg - settledKg) * fade) / perS);
      evaporatedKg = next - vapourKg + washedKg;
      if (evaporatedKg > solventKg) {
        next -= evaporatedKg - solventKg;
        evaporatedKg = solventKg;
      }
    }
    vapourKg = exchangeM3S === 0 && next < LITTLE_KG ? 0 : next;
  }
  const lel = vapourKg === 0 ? 0 : hoodLelPct(hood, spec.volumeM3);
  const detectorLelPct = approach(hood.detectorLelPct, lel, DETECTOR_SHARE, 1e-4);
  if (
    flowM3S === hood.flowM3S &&
    vapourKg === hood.vapourKg &&
    evaporatedKg === hood.evaporatedKg &&
    detectorLelPct === hood.detectorLelPct
  )
    return hood;
  return {
    flowM3S,
    vapourKg,
    evaporatedKg,
    saturatedKgM3: hood.saturatedKgM3,
    exchangeM3S: hood.exchangeM3S,
    airC: hood.airC,
    detectorLelPct,
  };
};
