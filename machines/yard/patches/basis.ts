/** The figures a take-off rests on, each with its unit and where it comes from. All may be changed, with a reason. */

export type BasisFigure = {
  readonly key: keyof Basis;
  readonly label: string;
  readonly unit: string;
  readonly from: number;
  readonly to: number;
  readonly source: string;
};

const PRACTICE = 'common practice, no source';
/** MoRTH Specifications, Table 500-5: rate of tack coat by surface, kg/m². The middle of each range is taken. */
const TACK = 'MoRTH Specifications, Table 500-5';

export const DEFAULT_BASIS = {
  trimMm: 50,
  compactedKgM3: 2100,
  finishRollerMm: 3,
  finishHandMm: 10,
  wastePct: 5,
  mixAloneMm: 150,
  mixOverBaseMm: 100,
  tackBituminousKgM2: 0.25,
  tackPrimedKgM2: 0.275,
  tackConcreteKgM2: 0.325,
  primeKgM2: 0.85,
  crusherRunKgM3: 2200,
  sandKgM2: 2.5,
};
export type Basis = { readonly [K in keyof typeof DEFAULT_BASIS]: number };

const figure = (
  key: keyof Basis,
  label: string,
  unit: string,
  [from, to]: readonly [number, number],
  source: string,
): BasisFigure => ({ key, label, unit, from, to, source });

export const BASIS_FIGURES: readonly BasisFigure[] = [
  figure('trimMm', 'Cut back to vertical edges, each side', 'mm', [0, 200], PRACTICE),
  figure('compactedKgM3', 'Compacted density of the mix', 'kg/m³', [1700, 2500], '2.0–2.2 t/m³: from memory'),
  figure('finishRollerMm', 'Finish above the road, roller', 'mm', [0, 10], PRACTICE),
  figure('finishHandMm', 'Finish above the road, hand rammer', 'mm', [0, 20], PRACTICE),
  figure('wastePct', 'Waste', '%', [0, 25], PRACTICE),
  figure('mixAloneMm', 'Deepest hole filled with mix alone', 'mm', [75, 300], PRACTICE),
  figure('mixOverBaseMm', 'Deepest mix over the granular base', 'mm', [50, 200], PRACTICE),
  figure('tackBituminousKgM2', 'Tack on a bituminous surface', 'kg/m²', [0.2, 0.3], TACK),
  figure('tackPrimedKgM2', 'Tack on a primed granular surface', 'kg/m²', [0.25, 0.3], TACK),
  figure('tackConcreteKgM2', 'Tack on cement concrete', 'kg/m²', [0.3, 0.35], TACK),
  figure(
    'primeKgM2',
    'Prime on granular base or crusher run',
    'kg/m²',
    [0.7, 1],
    '0.7–1.0 of emulsion, MoRTH Table 500-3: from memory',
  ),
  figure('crusherRunKgM3', 'Compacted density of crusher run', 'kg/m³', [1900, 2500], PRACTICE),
  figure('sandKgM2', 'Sand for blotting', 'kg/m²', [0, 6], PRACTICE),
];
