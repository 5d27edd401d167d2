/**
 * A vented cutback tank through a day: its head space fills with vapour and breathes as the air warms and cools.
 *
 * Standard physics: Raoult's law, gas that expands with its temperature, a well-mixed head space, vapour
 * pushed out by what is filled in. Teaching model: the gas stands part of the way from the binder to the
 * outside air, the surface lies in nearly still air, and the head space keeps its size of the morning.
 */
import { cylinderM3 } from './cylinder.ts';
import { STILL_AIR_M_S, solventTransferMS } from './evaporation.ts';
import { integrate, type Rates } from './ode.ts';
import { solventKPa, vapourKgM3 } from './solvent.ts';

/** How far the head space follows the outside air rather than the binder, 0 to 1 (teaching value). */
const FOLLOWS_AIR = 0.3;
const STEP_S = 60;
/** Step in s over which the warming of the air is taken. */
const SLOPE_S = 30;

export type VentedTank = {
  readonly diameterM: number;
  readonly lengthM: number;
  readonly dipM: number;
  readonly binderC: number;
  readonly moleShare: number;
  /** Binder being pumped in, m³/s, at a time in s. */
  readonly fillM3S: (atS: number) => number;
  readonly airC: (atS: number) => number;
};

/** Gas above the binder, m³. */
export const headSpaceM3 = (tank: VentedTank): number =>
  cylinderM3(tank.diameterM, tank.lengthM, tank.diameterM - tank.dipM);

const surfaceM2 = (tank: VentedTank): number =>
  2 * tank.lengthM * Math.sqrt(Math.max(0, tank.dipM * (tank.diameterM - tank.dipM)));

/** Temperature of the gas above the binder, °C. */
export const gasC = (tank: VentedTank, atS: number): number =>
  tank.binderC + FOLLOWS_AIR * (tank.airC(atS) - tank.binderC);

/** How fast the gas warms, K/s. */
const warmingKS = (tank: VentedTank, atS: number): number =>
  (gasC(tank, atS + SLOPE_S) - gasC(tank, atS - SLOPE_S)) / (2 * SLOPE_S);

/** Gas pushed out by warming and filling, m³/s; below 0 the tank breathes in. */
const pushedM3S = (tank: VentedTank, atS: number): number =>
  (headSpaceM3(tank) * warmingKS(tank, atS)) / (gasC(tank, atS) + 273.15) + tank.fillM3S(atS);

/** Gas leaving by the vent, m³/s: 0 while it breathes in. */
export const ventM3S = (tank: VentedTank, atS: number): number => Math.max(0, pushedM3S(tank, atS));

/** Vapour in the head space once it has settled, kg/m³. */
const settledKgM3 = (tank: VentedTank, atS: number): number =>
  vapourKgM3(solventKPa(tank.binderC, tank.moleShare), gasC(tank, atS));

/**
 * Rates of change of the vapour in the head space, kg/m³, and of what has left by the vent, kg. What is pushed
 * out thins nothing; the fresh air breathed in does, and warming gas spreads.
 */
export const ventRates = (tank: VentedTank): Rates => {
  const volumeM3 = headSpaceM3(tank);
  const exchangeM3S = surfaceM2(tank) * solventTransferMS(STILL_AIR_M_S, tank.lengthM, tank.binderC);
  return (atS, [kgM3 = 0]) => {
    const pushed = pushedM3S(tank, atS);
    const freshM3S = Math.max(0, -pushed);
    const spread = (kgM3 * warmingKS(tank, atS)) / (gasC(tank, atS) + 273.15);
    return [
      (exchangeM3S * (settledKgM3(tank, atS) - kgM3) - freshM3S * kgM3) / volumeM3 - spread,
      Math.max(0, pushed) * kgM3,
    ];
  };
};

export type VentMoment = {
  readonly atS: number;
  readonly airC: number;
  readonly gasC: number;
  readonly ventLMin: number;
  readonly headKgM3: number;
  readonly lostKg: number;
};

/** The tank every everyS seconds (a multiple of 60) for so many hours, its head space settled at the start. */
export const ventThrough = (tank: VentedTank, hours: number, everyS: number): readonly VentMoment[] =>
  integrate(ventRates(tank), [settledKgM3(tank, 0), 0], hours * 3600, STEP_S, everyS / STEP_S).map(
    ({ atS, y: [headKgM3 = 0, lostKg = 0] }) => ({
      atS,
      airC: tank.airC(atS),
      gasC: gasC(tank, atS),
      ventLMin: ventM3S(tank, atS) * 60_000,
      headKgM3,
      lostKg,
    }),
  );
