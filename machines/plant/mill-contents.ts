/** What lies in the pug mill and what joins it: a mass and heat balance (standard physics). */
import { STONE_CP_KJ_KG_K, WATER_CP_KJ_KG_K } from '../mix/published.ts';
import { type Aggregate, NO_AGGREGATE } from './aggregate.ts';
import type { Binder } from './binder.ts';
import { type MixingRates, NO_RATES } from './mixing-rates.ts';
import { ALL_BIN_1, blended, type Sizes } from './sizes.ts';
import { MAIN_WATER_C } from './water.ts';

/** kJ/kg·K of bitumen, solvent and anti-strip about 60 °C; near NBS MP 97 for their densities. */
const BITUMEN_CP = 1.87;
const SOLVENT_CP = 2.1;

export type PugMill = {
  readonly stoneKg: number;
  readonly drinkKg: number;
  readonly sizes: Sizes;
  readonly absorbedKg: number;
  readonly freeKg: number;
  /** Water still inside unbroken emulsion. */
  readonly boundKg: number;
  readonly bitumenKg: number;
  /** Part of the bitumen that came as emulsion. */
  readonly emulsionBitumenKg: number;
  readonly solventKg: number;
  readonly antiStripKg: number;
  readonly tempC: number;
  /** Share of the stone surface coated; share of the emulsion broken. */
  readonly coatedShare: number;
  readonly brokenShare: number;
  /** Seconds turned since binder came in. */
  readonly mixedS: number;
  readonly speed: number;
  readonly powered: boolean;
  readonly rates: MixingRates;
  /** In this step: to the belt, run off as water, evaporated as water. */
  readonly gaveKg: number;
  readonly runOffKg: number;
  readonly steamKg: number;
};

/** An empty mixer, still, at the temperature of the air in °C. */
export const createPugMill = (airC: number): PugMill => ({
  stoneKg: 0,
  drinkKg: 0,
  sizes: ALL_BIN_1,
  absorbedKg: 0,
  freeKg: 0,
  boundKg: 0,
  bitumenKg: 0,
  emulsionBitumenKg: 0,
  solventKg: 0,
  antiStripKg: 0,
  tempC: airC,
  coatedShare: 0,
  brokenShare: 0,
  mixedS: 0,
  speed: 0,
  powered: false,
  rates: NO_RATES,
  gaveKg: 0,
  runOffKg: 0,
  steamKg: 0,
});

/** All that lies in the mill, kg. */
export const mixKgOf = (mill: PugMill): number =>
  mill.stoneKg +
  mill.absorbedKg +
  mill.freeKg +
  mill.boundKg +
  mill.bitumenKg +
  mill.solventKg +
  mill.antiStripKg;

/** Heat capacity of all that is in the mill, kJ/K. */
export const millKjPerK = (mill: PugMill): number =>
  mill.stoneKg * STONE_CP_KJ_KG_K +
  (mill.absorbedKg + mill.freeKg + mill.boundKg) * WATER_CP_KJ_KG_K +
  mill.bitumenKg * BITUMEN_CP +
  (mill.solventKg + mill.antiStripKg) * SOLVENT_CP;

/** What reaches the mixer in one step. */
export type Arrivals = {
  readonly fromHopper: Aggregate;
  readonly fromHolding: Aggregate;
  readonly emulsionKg: number;
  readonly cutbackKg: number;
  readonly binderC: number;
  readonly waterKg: number;
  readonly antiStripKg: number;
};

/** Nothing reaches the mixer. */
export const NO_ARRIVALS: Arrivals = {
  fromHopper: NO_AGGREGATE,
  fromHolding: NO_AGGREGATE,
  emulsionKg: 0,
  cutbackKg: 0,
  binderC: 15,
  waterKg: 0,
  antiStripKg: 0,
};

/** The mill once this step's arrivals lie in it: masses add, temperatures meet by heat capacity. */
export const received = (mill: PugMill, more: Arrivals, emulsion: Binder, cutback: Binder): PugMill => {
  const { fromHopper: a, fromHolding: b } = more;
  const stoneKg = a.stoneKg + b.stoneKg;
  const damp = Math.min(a.waterKg, a.drinkKg) + Math.min(b.waterKg, b.drinkKg);
  const wet = a.waterKg + b.waterKg - damp;
  const boundKg = more.emulsionKg * emulsion.waterShare;
  const solventKg = more.emulsionKg * emulsion.solventShare + more.cutbackKg * cutback.solventShare;
  const fromEmulsionKg = more.emulsionKg * (1 - emulsion.waterShare - emulsion.solventShare);
  const bitumenKg = fromEmulsionKg + more.cutbackKg * (1 - cutback.solventShare);
  const heldKjPerK = millKjPerK(mill);
  const stoneA = a.stoneKg * STONE_CP_KJ_KG_K + a.waterKg * WATER_CP_KJ_KG_K;
  const stoneB = b.stoneKg * STONE_CP_KJ_KG_K + b.waterKg * WATER_CP_KJ_KG_K;
  const binder = boundKg * WATER_CP_KJ_KG_K + bitumenKg * BITUMEN_CP + solventKg * SOLVENT_CP;
  const water = more.waterKg * WATER_CP_KJ_KG_K;
  const agent = more.antiStripKg * SOLVENT_CP;
  const newKjPerK = stoneA + stoneB + binder + water + agent;
  if (newKjPerK === 0) return mill;
  const newKj =
    stoneA * a.tempC + stoneB * b.tempC + binder * more.binderC + water * MAIN_WATER_C + agent * MAIN_WATER_C;
  const emulsionBitumenKg = mill.emulsionBitumenKg + fromEmulsionKg;
  const allStoneKg = mill.stoneKg + stoneKg;
  return {
    ...mill,
    stoneKg: allStoneKg,
    sizes: blended(
      blended(mill.sizes, mill.stoneKg, a.sizes, a.stoneKg),
      mill.stoneKg + a.stoneKg,
      b.sizes,
      b.stoneKg,
    ),
    drinkKg: mill.drinkKg + a.drinkKg + b.drinkKg,
    absorbedKg: mill.absorbedKg + damp,
    freeKg: mill.freeKg + wet + more.waterKg,
    boundKg: mill.boundKg + boundKg,
    bitumenKg: mill.bitumenKg + bitumenKg,
    emulsionBitumenKg,
    solventKg: mill.solventKg + solventKg,
    antiStripKg: mill.antiStripKg + more.antiStripKg,
    tempC: (mill.tempC * heldKjPerK + newKj) / (heldKjPerK + newKjPerK),
    coatedShare: allStoneKg > 0 ? (mill.coatedShare * mill.stoneKg) / allStoneKg : 0,
    // What clings from the batch before is old, the stone that falls on it is not.
    mixedS: allStoneKg > 0 ? (mill.mixedS * mill.stoneKg) / allStoneKg : 0,
    brokenShare: emulsionBitumenKg > 0 ? (mill.brokenShare * mill.emulsionBitumenKg) / emulsionBitumenKg : 0,
  };
};
