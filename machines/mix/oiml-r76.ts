/** What a non-automatic weighing instrument may err by, and the least it may weigh: OIML R 76-1. */

export type ScaleClass = 'II' | 'III' | 'IIII';

/** Upper ends of the bands in verification intervals e, for ±0.5 e, ±1 e and ±1.5 e; OIML R 76-1, table of errors. */
const BANDS: { readonly [C in ScaleClass]: readonly [number, number, number] } = {
  II: [5_000, 20_000, 100_000],
  III: [500, 2_000, 10_000],
  IIII: [50, 200, 1_000],
};

const ERRORS_E = [0.5, 1, 1.5] as const;

/**
 * Maximum permissible error in kg at a load, at verification; null above the last band, where the class ends.
 * In service it is twice that (OIML R 76-1).
 */
export const verificationErrorKg = (scale: ScaleClass, eKg: number, loadKg: number): number | null => {
  const intervals = Math.abs(loadKg) / eKg;
  const band = BANDS[scale].findIndex((end) => intervals <= end + 1e-9);
  return band < 0 ? null : (ERRORS_E[band] as number) * eKg;
};

/** The same for a scale in use. */
export const inServiceErrorKg = (scale: ScaleClass, eKg: number, loadKg: number): number | null => {
  const error = verificationErrorKg(scale, eKg, loadKg);
  return error === null ? null : 2 * error;
};

/** Least load in kg: 20 e for class III, 10 e for class IIII, and for class II 20 e below 0.1 g, else 50 e. */
export const leastLoadKg = (scale: ScaleClass, eKg: number): number => {
  if (scale === 'III') return 20 * eKg;
  if (scale === 'IIII') return 10 * eKg;
  return (eKg < 1e-4 ? 20 : 50) * eKg;
};

/** Verification intervals a class may have: for class III 500 to 10,000 from e = 5 g, 100 to 10,000 below. */
export const intervalsAllowed = (
  scale: ScaleClass,
  eKg: number,
): { readonly from: number; readonly to: number } => {
  if (scale === 'IIII') return { from: 100, to: 1_000 };
  if (scale === 'III') return { from: eKg >= 0.005 ? 500 : 100, to: 10_000 };
  return { from: eKg >= 1e-4 ? 5_000 : 100, to: 100_000 };
};
