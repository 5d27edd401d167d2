/** Flash point from vapour pressure: where the saturated vapour reaches the lower limit of that temperature. */
import { burgessWheelerPct } from './flammability.ts';
import { type Antoine, antoineKPa, volumePctOf } from './vapour-pressure.ts';

export type Fuel = {
  readonly vapour: Antoine;
  /** Lower limit at 25 °C, vol %. */
  readonly lfl25Pct: number;
  readonly combustionKcalMol: number;
};

const COLDEST_C = -60;
const HOTTEST_C = 200;

/**
 * Flash point in °C of a liquid whose vapour is a mole share of 0 to 1 of the pure one's (Raoult's law):
 * saturated vapour = lower limit by Burgess–Wheeler. Standard reasoning; closed cups read a few degrees
 * lower, open cups higher. Null when it lies outside −60…200 °C.
 */
export const flashPointC = (fuel: Fuel, moleShare = 1): number | null => {
  const over = (tempC: number): boolean =>
    volumePctOf(antoineKPa(fuel.vapour, tempC) * moleShare) >=
    burgessWheelerPct(fuel.lfl25Pct, fuel.combustionKcalMol, tempC);
  let low = COLDEST_C;
  let high = HOTTEST_C;
  if (over(low) || !over(high)) return null;
  while (high - low > 1e-6) {
    const middle = (low + high) / 2;
    if (over(middle)) high = middle;
    else low = middle;
  }
  return high;
};
