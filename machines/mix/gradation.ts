/** Grading curves: % passing by sieve, read between sieves, and blended by shares of stone. */

export type SievePoint = { readonly sieveMm: number; readonly passingPct: number };
/** From the largest sieve to the smallest. */
export type Grading = readonly SievePoint[];

/**
 * % passing a sieve, straight lines over the logarithm of the opening (the usual grading chart):
 * as the largest sieve above all, 0 below the smallest in proportion to the opening.
 */
export const passingPct = (grading: Grading, sieveMm: number): number => {
  const first = grading[0];
  if (first === undefined) return 0;
  if (sieveMm >= first.sieveMm) return first.passingPct;
  for (let i = 1; i < grading.length; i += 1) {
    const coarse = grading[i - 1] as SievePoint;
    const fine = grading[i] as SievePoint;
    if (sieveMm < fine.sieveMm) continue;
    const part = Math.log(sieveMm / fine.sieveMm) / Math.log(coarse.sieveMm / fine.sieveMm);
    return fine.passingPct + (coarse.passingPct - fine.passingPct) * part;
  }
  const last = grading[grading.length - 1] as SievePoint;
  return (last.passingPct * sieveMm) / last.sieveMm;
};

/** Grading of a blend by shares of dry stone (adding to 1), on every sieve that any part names. */
export const blendGrading = (
  parts: readonly { readonly share: number; readonly grading: Grading }[],
): Grading => {
  const sieves = [...new Set(parts.flatMap((part) => part.grading.map((point) => point.sieveMm)))];
  return sieves
    .sort((a, b) => b - a)
    .map((sieveMm) => ({
      sieveMm,
      passingPct: parts.reduce((sum, part) => sum + part.share * passingPct(part.grading, sieveMm), 0),
    }));
};
