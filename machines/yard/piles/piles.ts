/** Heaps of loose material: volume and tonnes from measures and back (solid geometry). */

/**
 * Angle of repose, degrees from level, from a published table of pile measurement: smooth gravel 30, sharp gravel 40,
 * dry sand 25–35, moist sand 30–45. Cold mix 35–45 is from memory; 38 is taken.
 */
export const REPOSE_DEG = {
  'cold mix': 38,
  'smooth gravel': 30,
  'sharp gravel': 40,
  'dry sand': 30,
  'moist sand': 38,
} as const;
export type Heaped = keyof typeof REPOSE_DEG;

/** Loose cold mix, kg/m³: 1.6–1.75 t/m³ from memory; 1600 as in the published cone example. */
export const LOOSE_MIX_KG_M3 = 1600;

const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);

/** Volume of a cone by foot radius and height, m³. */
export const coneM3 = (radiusM: number, heightM: number): number =>
  (Math.PI * radiusM * radiusM * heightM) / 3;

/** Cone at rest that holds so many m³: V = π r³ tan θ / 3. */
export const coneOfM3 = (
  volumeM3: number,
  reposeDeg: number,
): { readonly radiusM: number; readonly heightM: number } => {
  const radiusM = Math.cbrt((3 * volumeM3) / (Math.PI * tan(reposeDeg)));
  return { radiusM, heightM: radiusM * tan(reposeDeg) };
};

/**
 * Windrow with triangular section and half-cone ends: lengthM over all, widthM across the foot. One that is no longer
 * than wide is a cone.
 */
export const windrowM3 = (widthM: number, heightM: number, lengthM: number): number =>
  coneM3(widthM / 2, heightM) + Math.max(0, lengthM - widthM) * ((widthM * heightM) / 2);

/** Length over all of a windrow of that width at rest that holds so many m³; height from the angle of repose. */
export const windrowOfM3 = (
  volumeM3: number,
  widthM: number,
  reposeDeg: number,
): { readonly heightM: number; readonly lengthM: number } => {
  const heightM = (widthM / 2) * tan(reposeDeg);
  const ends = coneM3(widthM / 2, heightM);
  if (volumeM3 <= ends) {
    const { radiusM, heightM: h } = coneOfM3(volumeM3, reposeDeg);
    return { heightM: h, lengthM: 2 * radiusM };
  }
  return { heightM, lengthM: widthM + (volumeM3 - ends) / ((widthM * heightM) / 2) };
};

/** Mass in kg of a heap as measured. A heap with a flat top is not modelled: measure it as a windrow. */
export const measuredKg = (
  measure:
    | { readonly how: 'weighed'; readonly kg: number }
    | {
        readonly how: 'cone';
        readonly diameterM: number;
        readonly heightM: number;
        readonly looseKgM3: number;
      }
    | {
        readonly how: 'windrow';
        readonly widthM: number;
        readonly heightM: number;
        readonly lengthM: number;
        readonly looseKgM3: number;
      },
): number => {
  if (measure.how === 'weighed') return measure.kg;
  const m3 =
    measure.how === 'cone'
      ? coneM3(measure.diameterM / 2, measure.heightM)
      : windrowM3(measure.widthM, measure.heightM, measure.lengthM);
  return m3 * measure.looseKgM3;
};

/**
 * Against the back wall of a bay: a heap as wide as the bay, its front at rest from wall to foot, so that its section
 * is a triangle. `over` when its foot stands out of the bay: it is then cut off at the mouth.
 */
export const bayHeapOfM3 = (
  volumeM3: number,
  widthM: number,
  depthM: number,
  reposeDeg: number,
): { readonly heightM: number; readonly footM: number; readonly over: boolean } => {
  const slope = tan(reposeDeg);
  const footM = Math.sqrt((2 * volumeM3) / (widthM * slope));
  const over = footM > depthM;
  const shown = Math.min(footM, depthM);
  return { heightM: shown * slope, footM: shown, over };
};
