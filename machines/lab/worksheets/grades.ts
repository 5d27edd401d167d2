/** Limits of binder grades, for the sheet of a binder delivery. */
import type { GradeLimit } from './sheet.types.ts';

const M82 = 'ASTM D2027 / AASHTO M 82 Table 1';
const IS8887 = 'IS 8887:2004';
const D2397 = 'ASTM D2397 type table';

/** Kinematic viscosity at 60 °C, flash by Tag open cup, water; residue at 360 °C by volume. */
const cutback = (
  viscosity: number,
  flashC: number,
  residueVolumePct: number,
  residueSource: string,
): readonly GradeLimit[] => [
  // The upper limit is twice the lower in every grade.
  { property: 'viscosityMm2S', from: viscosity, to: 2 * viscosity, source: M82 },
  { property: 'flashC', from: flashC, source: M82 },
  { property: 'waterPct', to: 0.2, source: M82 },
  { property: 'residueVolumePct', from: residueVolumePct, source: residueSource },
];

const emulsion = (
  furolAtC: 25 | 50,
  fromS: number,
  toS: number,
  residuePct: number,
  source: string,
): EmulsionGrade => ({
  furolAtC,
  limits: [
    { property: 'furolS', from: fromS, to: toS, source },
    { property: 'residuePct', from: residuePct, source },
  ],
});

export type EmulsionGrade = { readonly furolAtC: 25 | 50; readonly limits: readonly GradeLimit[] };

/** Residue limits of MC-250 and heavier are from memory. */
export const CUTBACK_GRADES: Readonly<Record<string, readonly GradeLimit[]>> = {
  'MC-30': cutback(30, 38, 50, M82),
  'MC-70': cutback(70, 38, 55, M82),
  'MC-250': cutback(250, 66, 67, 'from memory'),
  'MC-800': cutback(800, 66, 75, 'from memory'),
  'MC-3000': cutback(3000, 66, 80, 'from memory'),
};

/** Columns of IS 8887 as reprinted; its residue of SS-1 from memory. */
export const EMULSION_GRADES: Readonly<Record<string, EmulsionGrade>> = {
  'SS-1': emulsion(25, 20, 100, 50, IS8887),
  'SS-2': emulsion(25, 30, 150, 60, IS8887),
  MS: emulsion(50, 50, 300, 65, IS8887),
  'CSS-1': emulsion(25, 20, 100, 57, D2397),
  'CMS-2': emulsion(50, 50, 450, 65, D2397),
};

/** Below this flash point a binder is no medium-curing cutback, whatever its ticket says (ASTM D2027, MC-30 and MC-70). */
export const LEAST_MC_FLASH_C = 38;
