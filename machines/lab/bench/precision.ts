/** Single-operator standard deviations of the tests, for the simulated bench. */

/**
 * % passing, by the percentage itself: ASTM C136 table of precision, fine aggregate, single operator (from memory).
 */
const PASSING_SD: readonly (readonly [fromPct: number, sd: number])[] = [
  [95, 0.26],
  [60, 0.55],
  [20, 0.83],
  [15, 0.54],
  [10, 0.36],
  [2, 0.37],
  [0, 0.14],
];

export const passingSdPct = (passingPct: number): number =>
  passingPct >= 100 ? 0 : (PASSING_SD.find(([from]) => passingPct >= from)?.[1] ?? 0.14);

/**
 * In the property's own unit. From memory: moisture (ASTM C566), extraction (ASTM D2172), ignition (ASTM D6307),
 * emulsion residue, one beaker (ASTM D6934: 0.4 between two), cutback residue (ASTM D402), absorption (ASTM C127),
 * sand equivalent (ASTM D2419). Common practice, no source: coatings judged by eye, fractured faces, flash,
 * soundness, flakiness.
 */
export const SD = {
  moisturePct: 0.28,
  extractionPct: 0.18,
  ignitionPct: 0.07,
  emulsionResiduePct: 0.14,
  cutbackResidueVolumePct: 0.35,
  coatedPct: 2,
  flashC: 2,
  waterPct: 0.02,
  absorptionPct: 0.09,
  sandEquivalentPct: 1.5,
  fracturedPct: 2,
  soundnessPct: 0.5,
  flakinessElongationPct: 1.5,
  densityKgM3: 0.5,
} as const;

/**
 * As a part of the value. From memory: abrasion (ASTM C131, 2 %), kinematic viscosity (ASTM D2170, 1.5 % between two
 * results). Common practice, no source: bond, impact, time to break up, Saybolt Furol.
 */
export const RELATIVE_SD = {
  bond: 0.04,
  impact: 0.03,
  abrasion: 0.02,
  viscosity: 0.0053,
  furol: 0.02,
  breakUp: 0.1,
} as const;
