/**
 * A solvent that is a mixture: lighter or heavier than the surrogate, by shares of decane, undecane and dodecane.
 *
 * Standard physics: Raoult's law for each part, Le Chatelier for the mixed vapour, Burgess–Wheeler for each
 * limit. Which shares a delivery really has is for its supplier to say.
 */
import { burgessWheelerPct, leChatelierPct } from './flammability.ts';
import { ANTOINE, antoineKPa, volumePctOf } from './vapour-pressure.ts';

const KJ_PER_KCAL = 4.184;

/** Mole shares; they add to 1. */
export type Cut = { readonly decane: number; readonly undecane: number; readonly dodecane: number };
type Part = keyof Cut;
const PARTS: readonly Part[] = ['decane', 'undecane', 'dodecane'];

/**
 * Lower limits at 25 °C in vol % and net heats of combustion in kJ/mol. Decane: Crowl and Louvar, appendix B;
 * undecane: taken as kerosene's limit; dodecane and both other heats from memory (one CH2 more each).
 */
const FUELS: { readonly [P in Part]: { readonly lfl25Pct: number; readonly kJMol: number } } = {
  decane: { lfl25Pct: 0.8, kJMol: 6294.2 },
  undecane: { lfl25Pct: 0.7, kJMol: 6909 },
  dodecane: { lfl25Pct: 0.6, kJMol: 7524 },
};

/** From −1 (half of it decane) through 0 (undecane) to 1 (half of it dodecane). */
export const cutOf = (heaviness: number): Cut => {
  const other = Math.min(1, Math.abs(heaviness)) / 2;
  return { decane: heaviness < 0 ? other : 0, undecane: 1 - other, dodecane: heaviness > 0 ? other : 0 };
};

/** Saturated vapour over the cut at tempC: vol % in air, its lower limit in vol %, and the one as % of the other. */
export const cutVapour = (cut: Cut, tempC: number) => {
  const parts = PARTS.map((part) => ({
    volPct: volumePctOf(antoineKPa(ANTOINE[part], tempC) * cut[part]),
    lflPct: burgessWheelerPct(FUELS[part].lfl25Pct, FUELS[part].kJMol / KJ_PER_KCAL, tempC),
  }));
  const volPct = parts.reduce((sum, part) => sum + part.volPct, 0);
  const lelVolPct = leChatelierPct(
    parts.map((part) => ({ share: part.volPct / volPct, lflPct: part.lflPct })),
  );
  return { volPct, lelVolPct, lelPct: (100 * volPct) / lelVolPct };
};

/** Flash point of the cut in °C: where its saturated vapour reaches its limit, to 0.001 K. */
export const cutFlashC = (cut: Cut): number => {
  let low = 0;
  let high = 150;
  while (high - low > 1e-3) {
    const middle = (low + high) / 2;
    if (cutVapour(cut, middle).lelPct >= 100) high = middle;
    else low = middle;
  }
  return high;
};
