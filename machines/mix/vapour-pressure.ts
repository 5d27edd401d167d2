/** Vapour pressures: Antoine equations for paraffins and water, and what they mean as vol % in air. */

/** log10(P/bar) = a − b/(T/K + c). */
export type Antoine = { readonly a: number; readonly b: number; readonly c: number };

/**
 * Coefficients from memory (NIST WebBook lineage), checked: they return the boiling points 174.1, 196.3
 * and 216.3 °C and 0.173 kPa for decane at 25 °C. Their range is about 370–490 K; below it they
 * extrapolate (dodecane reads 14 % low at 25 °C).
 */
export const ANTOINE = {
  decane: { a: 4.07857, b: 1501.268, c: -78.67 },
  undecane: { a: 4.09711, b: 1572.477, c: -85.128 },
  dodecane: { a: 4.10549, b: 1625.928, c: -92.839 },
} as const satisfies Record<string, Antoine>;

/** Vapour pressure in kPa at tempC. */
export const antoineKPa = (substance: Antoine, tempC: number): number =>
  100 * 10 ** (substance.a - substance.b / (tempC + 273.15 + substance.c));

/** Vapour pressure of water in kPa, 1–100 °C; Antoine in mmHg with 8.07131, 1730.63, 233.426 (from memory). */
export const waterVapourKPa = (tempC: number): number =>
  0.1333224 * 10 ** (8.07131 - 1730.63 / (233.426 + tempC));

/** Vol % in air at 101.325 kPa of a vapour at its partial pressure in kPa. */
export const volumePctOf = (partialKPa: number): number => (100 * partialKPa) / 101.325;
