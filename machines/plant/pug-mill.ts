/**
 * The pug mill: everything that fell into it, mixing, warming each other, coating, breaking, leaving.
 *
 * Mass and heat are standard balances (temperatures meet by heat capacity; walls lose to the air).
 * Coating, breaking, absorption and over-mixing are teaching models, see mixing-rates.
 */
import { STONE_CP_KJ_KG_K, WATER_CP_KJ_KG_K, WATER_LATENT_KJ_KG } from '../mix/published.ts';
import type { PlantSpec } from '../scenario/plant.schema.ts';
import { type Aggregate, NO_AGGREGATE } from './aggregate.ts';
import type { Binder } from './binder.ts';
import { type MixingRates, mixingRates, NO_RATES } from './mixing-rates.ts';
import { approach, lagShare, STEP_S, STEPS_PER_S } from './time.ts';
import { MAIN_WATER_C } from './water.ts';

/** kJ/kg·K of bitumen, solvent and anti-strip about 60 °C; near NBS MP 97 for their densities. */
const BITUMEN_CP = 1.87;
const SOLVENT_CP = 2.1;
/** kJ/kg, latent heat of the solvent about 60 °C; near NBS MP 97 for kerosene. */
const SOLVENT_LATENT_KJ_KG = 283;
/** Heat capacity that an empty mixer's thermometer still sees, kJ/K. */
const LEAST_KJ_PER_K = 20;
const SPEED_SHARE = lagShare(0.8);
const ABSORB_SHARE = lagShare(20);
const RUN_OFF_SHARE = lagShare(3);
/** Free water the mix can hold, share of stone; the rest runs off through the gate seal. */
const HOLDS_WATER = 0.09;
const HOLDS_WATER_KG = 1;
const TAIL_S = 1.5;
const CRUMBS_KG = 0.05;
/** Share of the coating lost each second once mixing goes on too long. */
const WEAR_PER_S = 0.0025;
const BLOCKS_AT = 1.35;
/** Still arms let a little slide out of an open gate. */
const STILL_FLOW = 0.03;

export type PugMill = {
  readonly stoneKg: number;
  readonly drinkKg: number;
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

export const createPugMill = (airC: number): PugMill => ({
  stoneKg: 0,
  drinkKg: 0,
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

export const mixKgOf = (mill: PugMill): number =>
  mill.stoneKg +
  mill.absorbedKg +
  mill.freeKg +
  mill.boundKg +
  mill.bitumenKg +
  mill.solventKg +
  mill.antiStripKg;

export const millBlocked = (mill: PugMill, spec: PlantSpec['mixer']): boolean =>
  mixKgOf(mill) >= spec.capacityKg * BLOCKS_AT;

/** Motor current, A: idling when it turns empty, 0 when switched off, an inrush while it runs up. */
export const motorA = (mill: PugMill, spec: PlantSpec['mixer']): number => {
  if (!mill.powered) return 0;
  const load = (mixKgOf(mill) / spec.capacityKg) * mill.rates.drag;
  return mill.speed * (spec.idleA + (spec.fullA - spec.idleA) * load) + (1 - mill.speed) * spec.idleA * 1.5;
};

const heatKjPerKOf = (mill: PugMill): number =>
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

export const NO_ARRIVALS: Arrivals = {
  fromHopper: NO_AGGREGATE,
  fromHolding: NO_AGGREGATE,
  emulsionKg: 0,
  cutbackKg: 0,
  binderC: 15,
  waterKg: 0,
  antiStripKg: 0,
};

const received = (mill: PugMill, more: Arrivals, emulsion: Binder, cutback: Binder): PugMill => {
  const { fromHopper: a, fromHolding: b } = more;
  const stoneKg = a.stoneKg + b.stoneKg;
  const damp = Math.min(a.waterKg, a.drinkKg) + Math.min(b.waterKg, b.drinkKg);
  const wet = a.waterKg + b.waterKg - damp;
  const boundKg = more.emulsionKg * emulsion.waterShare;
  const solventKg = more.emulsionKg * emulsion.solventShare + more.cutbackKg * cutback.solventShare;
  const fromEmulsionKg = more.emulsionKg * (1 - emulsion.waterShare - emulsion.solventShare);
  const bitumenKg = fromEmulsionKg + more.cutbackKg * (1 - cutback.solventShare);
  const heldKjPerK = heatKjPerKOf(mill);
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

/** Nothing in it, nothing turning, at the temperature of the air: no step needed. */
const atRest = (mill: PugMill, airC: number): boolean =>
  mixKgOf(mill) === 0 &&
  mill.speed === 0 &&
  mill.gaveKg === 0 &&
  mill.runOffKg === 0 &&
  mill.steamKg === 0 &&
  Math.abs(mill.tempC - airC) < 0.02;

export const stepPugMill = (
  before: PugMill,
  spec: PlantSpec['mixer'],
  tick: number,
  more: Arrivals,
  emulsion: Binder,
  cutback: Binder,
  solventGoneKg: number,
  running: boolean,
  gateOpen: boolean,
  airC: number,
): PugMill => {
  if (more === NO_ARRIVALS && !running && before.powered === running && atRest(before, airC)) return before;
  const mill = more === NO_ARRIVALS ? before : received(before, more, emulsion, cutback);
  const speed = approach(mill.speed, running ? 1 : 0, SPEED_SHARE, 1e-3);
  const rates = tick % STEPS_PER_S === 0 ? mixingRates(mill, emulsion, cutback) : mill.rates;
  const { stoneKg, drinkKg, bitumenKg, emulsionBitumenKg, antiStripKg } = mill;
  let { absorbedKg, freeKg, boundKg, coatedShare, brokenShare, mixedS, tempC } = mill;

  // Heat: walls, solvent and water vapour take it.
  const steamKg = rates.steamKgS === 0 ? 0 : Math.min(rates.steamKgS * STEP_S, freeKg);
  const kJPerK = Math.max(heatKjPerKOf(mill), LEAST_KJ_PER_K);
  const lostKj =
    (spec.wallWPerK / 1000) * (tempC - airC) * STEP_S +
    solventGoneKg * SOLVENT_LATENT_KJ_KG +
    steamKg * WATER_LATENT_KJ_KG;
  tempC -= lostKj / kJPerK;

  // Water: some is vapour, some is drunk, what the mix cannot hold runs off.
  freeKg -= steamKg;
  if (freeKg > 0 && drinkKg > absorbedKg) {
    const drunkKg = Math.min((drinkKg - absorbedKg) * ABSORB_SHARE, freeKg);
    absorbedKg += drunkKg;
    freeKg -= drunkKg;
  }
  const holdsKg = stoneKg * HOLDS_WATER + HOLDS_WATER_KG;
  const runOffKg = freeKg > holdsKg ? (freeKg - holdsKg) * RUN_OFF_SHARE : 0;
  freeKg -= runOffKg;

  // Coating and breaking.
  if (emulsionBitumenKg > 0) {
    const part = rates.breakPerS * STEP_S;
    brokenShare += (1 - brokenShare) * part;
    const freedKg = boundKg * part;
    boundKg -= freedKg;
    freeKg += freedKg;
  }
  if (bitumenKg > 0.05 && speed > 0) {
    mixedS += speed * STEP_S;
    coatedShare += (1 - coatedShare) * rates.coatPerS * speed * STEP_S;
    const wearsAfterS = emulsionBitumenKg * 2 > bitumenKg ? emulsion.wearsAfterS : cutback.wearsAfterS;
    if (mixedS > wearsAfterS) coatedShare -= coatedShare * (WEAR_PER_S + rates.coatPerS) * speed * STEP_S;
  }

  // Discharge: everything leaves in proportion.
  const solventKg = mill.solventKg - solventGoneKg;
  const massKg = stoneKg + absorbedKg + freeKg + boundKg + bitumenKg + solventKg + antiStripKg;
  let gaveKg = 0;
  let stays = 1;
  if (gateOpen && massKg > 0) {
    const pace = STILL_FLOW + (1 - STILL_FLOW) * speed;
    gaveKg = massKg < CRUMBS_KG ? massKg : Math.min(spec.dischargeKgS, massKg / TAIL_S) * pace * STEP_S;
    stays = massKg < CRUMBS_KG ? 0 : 1 - gaveKg / massKg;
  }
  const empty = stays === 0 || massKg === 0;
  return {
    stoneKg: stoneKg * stays,
    drinkKg: drinkKg * stays,
    absorbedKg: absorbedKg * stays,
    freeKg: freeKg * stays,
    boundKg: boundKg * stays,
    bitumenKg: bitumenKg * stays,
    emulsionBitumenKg: emulsionBitumenKg * stays,
    solventKg: solventKg * stays,
    antiStripKg: antiStripKg * stays,
    tempC,
    coatedShare: empty ? 0 : coatedShare,
    brokenShare: empty ? 0 : brokenShare,
    mixedS: empty ? 0 : mixedS,
    speed,
    powered: running,
    rates: empty ? NO_RATES : rates,
    gaveKg,
    runOffKg,
    steamKg,
  };
};
