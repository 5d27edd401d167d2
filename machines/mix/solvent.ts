/**
 * The solvent of a cutback as one pure liquid: undecane stands for kerosene, since its saturated vapour meets
 * the lower limit near 66 °C, the least flash point of MC-800 (a surrogate, not an analysis).
 */
import { burgessWheelerPct } from './flammability.ts';
import { KEROSENE_LEL_VOL_PCT, UNDECANE_COMBUSTION_KJ_MOL, UNDECANE_KG_MOL } from './published.ts';
import { ANTOINE, antoineKPa, volumePctOf } from './vapour-pressure.ts';

/** kg/mol, mean of paving bitumen (order of size, from memory). */
export const BITUMEN_KG_MOL = 1;
/** J/mol·K. */
export const GAS_CONSTANT = 8.314;
const KJ_PER_KCAL = 4.184;

/** Mole fraction of solvent in a binder of so much bitumen and solvent, kg. */
export const solventMoleShare = (bitumenKg: number, solventKg: number): number => {
  const solventMol = solventKg / UNDECANE_KG_MOL;
  return solventMol === 0 ? 0 : solventMol / (solventMol + bitumenKg / BITUMEN_KG_MOL);
};

/** Pressure of solvent vapour in kPa over a binder at tempC that holds it at a mole share of 0 to 1 (Raoult's law). */
export const solventKPa = (tempC: number, moleShare: number): number =>
  antoineKPa(ANTOINE.undecane, tempC) * moleShare;

/** Vapour density of pure solvent at tempC and 1 atm, kg/m³ (ideal gas). */
export const pureVapourKgM3 = (tempC: number): number =>
  (101_325 * UNDECANE_KG_MOL) / (GAS_CONSTANT * (tempC + 273.15));

/** Solvent vapour in kg/m³ at a partial pressure in kPa and tempC (ideal gas). */
export const vapourKgM3 = (partialKPa: number, tempC: number): number =>
  (1000 * partialKPa * UNDECANE_KG_MOL) / (GAS_CONSTANT * (tempC + 273.15));

/** Lower explosive limit of the solvent's vapour at tempC, vol %: that of kerosene, lowered by Burgess–Wheeler. */
export const solventLelVolPct = (tempC: number): number =>
  burgessWheelerPct(KEROSENE_LEL_VOL_PCT, UNDECANE_COMBUSTION_KJ_MOL / KJ_PER_KCAL, tempC);

/** Saturated vapour over a binder at tempC as % of the lower limit at that temperature; moleShare 1 for pure solvent. */
export const saturatedLelPct = (tempC: number, moleShare: number): number =>
  (100 * volumePctOf(solventKPa(tempC, moleShare))) / solventLelVolPct(tempC);

/** Vapour in kg/m³ of air at airC as % of the lower limit printed for room temperature: what a detector is set to. */
export const detectorLelPct = (kgM3: number, airC: number): number =>
  (100 * 100 * kgM3) / pureVapourKgM3(airC) / KEROSENE_LEL_VOL_PCT;

/** Kelvin by which a binder at tempC must be warmer for its vapour pressure to double (slope of the Antoine line there). */
export const doublesEveryK = (tempC: number): number => {
  const { b, c } = ANTOINE.undecane;
  const kelvin = tempC + 273.15 + c;
  return (Math.LN2 * kelvin * kelvin) / (Math.LN10 * b);
};
