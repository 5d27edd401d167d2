/** Specific surface of graded stone, and how thick a binder film would be if it were spread evenly over it. */
import { type Grading, passingPct } from './gradation.ts';

/** m²/kg for each per cent passing; UFC 3-250-03, table of surface area factors. Holds for stone of about 2.65 t/m³. */
export const SURFACE_FACTORS = [
  { sieveMm: 9.5, m2KgPerPct: 0.00409 },
  { sieveMm: 4.75, m2KgPerPct: 0.00409 },
  { sieveMm: 2.36, m2KgPerPct: 0.00819 },
  { sieveMm: 1.18, m2KgPerPct: 0.01639 },
  { sieveMm: 0.6, m2KgPerPct: 0.02867 },
  { sieveMm: 0.3, m2KgPerPct: 0.06144 },
  { sieveMm: 0.15, m2KgPerPct: 0.12289 },
  { sieveMm: 0.075, m2KgPerPct: 0.32771 },
] as const;

/** Specific surface in m²/kg: the sum of factor times % passing (UFC 3-250-03). */
export const specificSurfaceM2Kg = (grading: Grading): number =>
  SURFACE_FACTORS.reduce(
    (sum, { sieveMm, m2KgPerPct }) => sum + m2KgPerPct * passingPct(grading, sieveMm),
    0,
  );

/**
 * Thickness in µm of effectivePct binder (% of dry aggregate, not absorbed) of densityKgM3 on surfaceM2Kg.
 * An average that no stone really has: plane geometry.
 */
export const filmUm = (effectivePct: number, densityKgM3: number, surfaceM2Kg: number): number =>
  surfaceM2Kg > 0 ? (1e6 * (effectivePct / 100)) / densityKgM3 / surfaceM2Kg : 0;
