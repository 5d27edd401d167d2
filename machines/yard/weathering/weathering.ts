/**
 * What lying in a bay does to mix: it cools, and solvent leaves its skin ever more slowly.
 *
 * Teaching model. Newton's cooling; Raoult's law over a mass-transfer correlation in series with diffusion through the
 * skin that has dried already (a receding front, as in machines/mix/fresh-pile.ts), a day at a time at that day's mean
 * air. What cover does is an order of size only. It plans work; it judges no lot.
 */
import { evaporationKgSM2, solventDiffusionM2S, solventTransferMS } from '../../mix/evaporation.ts';
import { solventKPa, vapourKgM3 } from '../../mix/solvent.ts';

export type Cover = 'roof' | 'sheet' | 'open';
export type DayAir = {
  readonly date: string;
  readonly startC: number;
  readonly warmestC: number;
  readonly rainMm: number;
};

/** Wind at the heap, m/s, and the share of evaporation that gets away (teaching values). */
const COVERS: { readonly [C in Cover]: { readonly windMS: number; readonly share: number } } = {
  open: { windMS: 2, share: 1 },
  roof: { windMS: 0.7, share: 1 },
  sheet: { windMS: 0.1, share: 0.3 },
};
/** Share of the skin that is air; diffusion through it falls as its power 4/3 (Millington, from memory). */
const VOIDS = 0.25;
/** W/m²·K a heap loses to air (teaching value); kJ/kg·K of asphalt mixture, handbook table of specific heats. */
const LOSS_W_M2_K = 14;
const MIX_CP_KJ_KG_K = 0.92;
const DAY_S = 86_400;

export type Heap = {
  readonly massKg: number;
  readonly areaM2: number;
  readonly looseKgM3: number;
  /** Of fresh mix, % by mass; 0 for emulsion mixes. */
  readonly solventPctOfMix: number;
  readonly moleShare: number;
  readonly cover: Cover;
};

/** Temperature of the heap after so many seconds in air of one temperature, °C (Newton). */
export const cooledC = (heap: Heap, fromC: number, airC: number, seconds: number): number => {
  if (heap.massKg <= 0) return airC;
  const tauS = (heap.massKg * MIX_CP_KJ_KG_K * 1000) / (LOSS_W_M2_K * heap.areaM2);
  return airC + (fromC - airC) * Math.exp(-seconds / tauS);
};

/**
 * Solvent lost from each m² after more seconds at one temperature, kg/m², when lostKgM2 has gone already. The front
 * recedes: flux = c/(1/k + m/a), so that m/k + m²/2a grows by c·t; solved exactly.
 */
export const lostAfterKgM2 = (heap: Heap, lostKgM2: number, tempC: number, seconds: number): number => {
  const { windMS, share } = COVERS[heap.cover];
  const solventKgM3 = (heap.looseKgM3 * heap.solventPctOfMix) / 100;
  if (solventKgM3 <= 0 || seconds <= 0) return lostKgM2;
  const k = solventTransferMS(windMS, Math.sqrt(heap.areaM2), tempC);
  const a = solventKgM3 * solventDiffusionM2S(tempC) * VOIDS ** (4 / 3);
  const c = share * evaporationKgSM2(vapourKgM3(solventKPa(tempC, heap.moleShare), tempC), 1);
  const had = lostKgM2 / k + (lostKgM2 * lostKgM2) / (2 * a);
  const wants = had + c * seconds;
  return a * (Math.sqrt(1 / (k * k) + (2 * wants) / a) - 1 / k);
};

export type Weathered = {
  readonly tempC: number;
  /** Of the solvent the fresh mix held. */
  readonly solventLostPct: number;
  readonly rainMm: number;
};

/** A heap laid at laidC, through the days since, the first being that of laying and `days` long in all (parts count). */
export const weatheredThrough = (
  heap: Heap,
  laidC: number,
  air: readonly DayAir[],
  days: number,
): Weathered => {
  let tempC = laidC;
  let lostKgM2 = 0;
  let rainMm = 0;
  let left = days;
  for (let i = 0; left > 0 && air.length > 0; i += 1) {
    const day = air[Math.min(i, air.length - 1)] as DayAir;
    const part = Math.min(1, left);
    const airC = (day.startC + day.warmestC) / 2;
    const after = cooledC(heap, tempC, airC, part * DAY_S);
    lostKgM2 = lostAfterKgM2(heap, lostKgM2, (tempC + after) / 2, part * DAY_S);
    tempC = after;
    if (i < air.length) rainMm += day.rainMm * part;
    left -= part;
  }
  const heldKg = (heap.massKg * heap.solventPctOfMix) / 100;
  const lostKg = lostKgM2 * heap.areaM2;
  return {
    tempC,
    solventLostPct: heldKg <= 0 ? 0 : Math.min(100, (100 * lostKg) / heldKg),
    rainMm: heap.cover === 'open' ? rainMm : 0,
  };
};
