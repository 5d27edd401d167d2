/** Lower flammable limits: with temperature, of mixtures, and a vapour as % of its limit. */

/** LFL in vol % at tempC from its value at 25 °C and the heat of combustion in kcal/mol; Burgess–Wheeler (from memory). */
export const burgessWheelerPct = (lfl25Pct: number, combustionKcalMol: number, tempC: number): number =>
  lfl25Pct - (0.75 / combustionKcalMol) * (tempC - 25);

/** LFL in vol % of a mixed vapour by Le Chatelier; shares are mole fractions of the fuel part and add to 1. */
export const leChatelierPct = (
  parts: readonly { readonly share: number; readonly lflPct: number }[],
): number => 1 / parts.reduce((sum, part) => sum + part.share / part.lflPct, 0);

/** A vapour in vol % as % of a lower explosive limit in vol %. */
export const lelPct = (vapourVolPct: number, lelVolPct: number): number => (100 * vapourVolPct) / lelVolPct;
