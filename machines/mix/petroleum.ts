/** Heat of petroleum liquids: NBS Miscellaneous Publication 97 (Cragoe, 1929). */

const KJ_KG_PER_BTU_LB = 2.326;

/** Latent heat of vaporisation in kJ/kg at tempC for specific gravity sg (60/60 °F): (110.9 − 0.09 t°F)/d Btu/lb. */
export const latentKjKg = (tempC: number, sg: number): number =>
  ((110.9 - 0.09 * (tempC * 1.8 + 32)) / sg) * KJ_KG_PER_BTU_LB;

/** Specific heat in kJ/kg·K at tempC for specific gravity sg: (0.388 + 0.00045 t°F)/√d Btu/lb·°F. */
export const petroleumCpKjKgK = (tempC: number, sg: number): number =>
  ((0.388 + 0.00045 * (tempC * 1.8 + 32)) / Math.sqrt(sg)) * 4.1868;
