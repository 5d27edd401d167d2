/** How long dry aggregate in the holding bin stays usable while batch after batch is drawn (Newton's law). */
import { cooledC, coolingTauS } from './newton-cooling.ts';
import { STONE_CP_KJ_KG_K } from './published.ts';

export type DrawForecast = {
  /** Batches drawn before the stone is colder than the floor or too little. */
  readonly batches: number;
  /** Temperature at which each of them is drawn, °C. */
  readonly tempsC: readonly number[];
  /** Why no further batch: the bin is empty, or the stone is cold. */
  readonly endsBy: 'empty' | 'cold' | 'limit';
};

const MOST_BATCHES = 200;

/**
 * Batches of drawKg drawn every everyS seconds, the first at once, from massKg at tempC in air at airC with a bin that
 * loses conductanceWPerK. Mass falls with every draw, so the rest cools ever faster.
 */
export const drawForecast = (
  massKg: number,
  tempC: number,
  airC: number,
  conductanceWPerK: number,
  drawKg: number,
  everyS: number,
  floorC: number,
): DrawForecast => {
  const tempsC: number[] = [];
  let left = massKg;
  let now = tempC;
  while (tempsC.length < MOST_BATCHES) {
    if (left < drawKg - 1e-9) return { batches: tempsC.length, tempsC, endsBy: 'empty' };
    if (now < floorC) return { batches: tempsC.length, tempsC, endsBy: 'cold' };
    tempsC.push(now);
    left -= drawKg;
    if (left > 1e-9) now = cooledC(now, airC, coolingTauS(left, STONE_CP_KJ_KG_K, conductanceWPerK), everyS);
  }
  return { batches: tempsC.length, tempsC, endsBy: 'limit' };
};
