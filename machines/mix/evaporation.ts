/**
 * How fast a liquid leaves an open surface: diffusion into air and a mass-transfer correlation.
 *
 * Standard physics: Fuller's estimate of diffusion in air; the correlation of Mackay and Matsugu (1973) for
 * open liquid surfaces in wind, both from memory. They hold for a wet surface; what a binder film or a dry
 * skin adds as resistance is a teaching model and is said where it is used.
 */
import { UNDECANE_KG_MOL } from './published.ts';
import { solventKPa, vapourKgM3 } from './solvent.ts';

const AIR_G_MOL = 28.97;
/** Diffusion volumes of Fuller: air, and the atoms of undecane C11H24 (from memory). */
const AIR_VOLUME = 19.7;
const SOLVENT_VOLUME = 11 * 15.9 + 24 * 2.31;

/**
 * Diffusion in air at 1 atm in m²/s at tempC of a vapour with a molar mass in kg/mol and a diffusion volume
 * (Fuller, Schettler and Giddings, from memory; good to some 10 %).
 */
export const diffusionM2S = (tempC: number, kgMol: number, diffusionVolume: number): number => {
  const reduced = 2 / (1 / (1000 * kgMol) + 1 / AIR_G_MOL);
  const cm2S =
    (0.001_43 * (tempC + 273.15) ** 1.75) /
    (1.013_25 * Math.sqrt(reduced) * (Math.cbrt(diffusionVolume) + Math.cbrt(AIR_VOLUME)) ** 2);
  return cm2S * 1e-4;
};

/** Diffusion of the solvent surrogate in air, m²/s. */
export const solventDiffusionM2S = (tempC: number): number =>
  diffusionM2S(tempC, UNDECANE_KG_MOL, SOLVENT_VOLUME);

/** Kinematic viscosity of air in m²/s at tempC (Sutherland over ideal gas, from memory). */
export const airViscosityM2S = (tempC: number): number => {
  const kelvin = tempC + 273.15;
  const paS = (1.458e-6 * kelvin ** 1.5) / (kelvin + 110.4);
  return paS / (353.05 / kelvin);
};

/** Air is never quite still: the least wind the correlation is given, m/s (teaching value). */
export const STILL_AIR_M_S = 0.1;

/**
 * Mass-transfer coefficient in m/s over a wet surface of lengthM along the wind:
 * 0.004 82·U^0.78·X^−0.11·Sc^−0.67, U in m/s, X in m (Mackay and Matsugu 1973, from memory).
 */
export const massTransferMS = (windMS: number, lengthM: number, schmidt: number): number =>
  0.004_82 * Math.max(STILL_AIR_M_S, windMS) ** 0.78 * lengthM ** -0.11 * schmidt ** -0.67;

/** The same for the solvent surrogate at tempC. */
export const solventTransferMS = (windMS: number, lengthM: number, tempC: number): number =>
  massTransferMS(windMS, lengthM, airViscosityM2S(tempC) / solventDiffusionM2S(tempC));

/** Evaporation in kg/s·m² through a resistance in s/m from saturated vapour in kg/m³ into clean air. */
export const evaporationKgSM2 = (saturatedKgM3: number, resistanceSM: number): number =>
  saturatedKgM3 / resistanceSM;

/**
 * Solvent leaving areaM2 of binder lying open in wind, kg/s: the most it can be, since the film that forms on
 * the binder is left out (standard correlation over Raoult's law). lengthM lies along the wind.
 */
export const openBinderKgS = (
  binderC: number,
  moleShare: number,
  areaM2: number,
  windMS: number,
  lengthM: number,
): number =>
  areaM2 *
  evaporationKgSM2(
    vapourKgM3(solventKPa(binderC, moleShare), binderC),
    1 / solventTransferMS(windMS, lengthM, binderC),
  );
