/** Volume of a binder at one temperature brought to its volume at 15 °C. */

/** ASTM D4311 column A holds from this density at 15 °C (kg/m³), column B below it down to 850. */
export const D4311_COLUMN_A_FROM_KG_M3 = 966;

export type VolumeColumn = 'A' | 'B' | 'emulsion';

/** Column A or B of ASTM D4311 by density at 15 °C in kg/m³. Emulsions have none: see below. */
export const bitumenColumn = (densityAt15KgM3: number): 'A' | 'B' =>
  densityAt15KgM3 >= D4311_COLUMN_A_FROM_KG_M3 ? 'A' : 'B';

/**
 * Multiplier from a volume at tempC to the volume at 15 °C.
 *
 * A and B: ASTM D4311 polynomials in °C (A gives 0.9995, not 1, at 15 °C: the constant is printed
 * rounded). emulsion: 0.00045 per °C, from memory (emulsion manuals), as D4311 leaves emulsions out.
 */
export const volumeFactor = (column: VolumeColumn, tempC: number): number => {
  if (column === 'A') return 1.009 - 6.3341e-4 * tempC + 1.4571e-7 * tempC * tempC;
  if (column === 'B') return 1.0108 - 7.2344e-4 * tempC + 2.199e-7 * tempC * tempC;
  return 1 - 4.5e-4 * (tempC - 15);
};

/** The same for °F and Group 0 (specific gravity 0.967 and up), to 60 °F; ASTM D4311. */
export const volumeFactorGroup0F = (tempF: number): number =>
  1.0211 - 3.549e-4 * tempF + 4.4988e-8 * tempF * tempF;

/** Density in kg/m³ at tempC of a binder whose density at 15 °C is known. */
export const densityKgM3 = (column: VolumeColumn, densityAt15KgM3: number, tempC: number): number =>
  densityAt15KgM3 * volumeFactor(column, tempC);
