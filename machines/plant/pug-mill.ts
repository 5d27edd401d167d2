/**
 * The pug mill: everything that fell into it, mixing, warming each other, coating, breaking, leaving.
 *
 * Mass and heat are standard balances (temperatures meet by heat capacity; walls lose to the air).
 * Coating, breaking, absorption and over-mixing are teaching models, see mixing-rates.
 */
import { WATER_LATENT_KJ_KG } from '../mix/published.ts';
import type { PlantSpec } from '../scenario/plant.schema.ts';
import type { Binder } from './binder.ts';
import { type Arrivals, millKjPerK, mixKgOf, NO_ARRIVALS, type PugMill, received } from './mill-contents.ts';
import { mixingRates, NO_RATES } from './mixing-rates.ts';
import { approach, lagShare, STEP_S, STEPS_PER_S } from './time.ts';

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

/**
 * Whether the mill holds 35 % more than its capacity in kg, so that nothing more falls in (teaching value).
 */
export const millBlocked = (mill: PugMill, spec: PlantSpec['mixer']): boolean =>
  mixKgOf(mill) >= spec.capacityKg * BLOCKS_AT;

/** Motor current, A: idling when it turns empty, 0 when switched off, an inrush while it runs up. */
export const motorA = (mill: PugMill, spec: PlantSpec['mixer']): number => {
  if (!mill.powered) return 0;
  const load = (mixKgOf(mill) / spec.capacityKg) * mill.rates.drag;
  return mill.speed * (spec.idleA + (spec.fullA - spec.idleA) * load) + (1 - mill.speed) * spec.idleA * 1.5;
};

/** Nothing in it, nothing turning, at the temperature of the air: no step needed. */
const atRest = (mill: PugMill, airC: number): boolean =>
  mixKgOf(mill) === 0 &&
  mill.speed === 0 &&
  mill.gaveKg === 0 &&
  mill.runOffKg === 0 &&
  mill.steamKg === 0 &&
  Math.abs(mill.tempC - airC) < 0.02;

/**
 * One step: arrivals in kg and °C, solvent gone in kg, heat lost to walls and vapour, coating and breaking,
 * discharge in kg. Balances are standard physics, coating and wear a teaching model.
 */
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
  const kJPerK = Math.max(millKjPerK(mill), LEAST_KJ_PER_K);
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
    sizes: mill.sizes,
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
