/** A dip in a lying tank worked out: mm to litres, litres at 15 °C, kilograms, and how closely it could be read. */
import { cylinderM3 } from '../../mix/cylinder.ts';
import { bitumenColumn, type VolumeColumn, volumeFactor } from '../../mix/volume-correction.ts';
import { DIP_READ_MM } from './rules.ts';
import type { TankName, TankShape } from './state.types.ts';

export type DipWorked = {
  readonly column: VolumeColumn;
  readonly litres: number;
  readonly factor: number;
  readonly litresAt15: number;
  readonly kg: number;
  /** kg that 3 mm of dip make at this level. */
  readonly readKg: number;
};

const round = (value: number, decimals: number): number => {
  const scale = 10 ** decimals;
  return Math.round(value * scale) / scale;
};

/**
 * Plane geometry of a lying cylinder; ASTM D4311 columns A and B for bitumen binders by density at 15 °C; for emulsion
 * 0.00045 per °C (from memory, as D4311 leaves emulsions out).
 */
export const workOutDip = (tank: TankName, shape: TankShape, dipMm: number, tempC: number): DipWorked => {
  const { diameterM, lengthM, densityAt15KgM3 } = shape;
  const column = tank === 'emulsion' ? 'emulsion' : bitumenColumn(densityAt15KgM3);
  const litres = cylinderM3(diameterM, lengthM, dipMm / 1000) * 1000;
  const factor = round(volumeFactor(column, tempC), 4);
  const litresAt15 = litres * factor;
  const dipM = Math.min(Math.max(dipMm / 1000, 0), diameterM);
  const widthM = 2 * Math.sqrt(dipM * (diameterM - dipM));
  return {
    column,
    litres: round(litres, 1),
    factor,
    litresAt15: round(litresAt15, 1),
    kg: round((litresAt15 * densityAt15KgM3) / 1000, 1),
    readKg: round((widthM * lengthM * DIP_READ_MM * densityAt15KgM3) / 1000, 1),
  };
};
