/** The tests of the lab and the properties they give, each by one name with its unit: what limits, results and charts speak of. */

/** The seven samples of a lot come from the first five; the rest are made on deliveries, stone and on demand. */
export const LAB_TESTS = [
  'gradation',
  'binder content',
  'bond',
  'workability',
  'water resistance',
  'moisture',
  'coating',
  'emulsion residue',
  'cutback residue',
  'binder delivery',
  'aggregate',
] as const;
export type LabTest = (typeof LAB_TESTS)[number];

export type Property = {
  /** As a person says it: "residual binder, of mix". */
  readonly words: string;
  readonly unit: string;
  /** Digits after the point a result is shown with. */
  readonly decimals: number;
  readonly test: LabTest;
  /** No value lies outside, whatever the material: what a limit or result may at all be. */
  readonly least: number;
  readonly most: number;
};

const pct = (words: string, decimals: number, test: LabTest): Property => ({
  words,
  unit: '%',
  decimals,
  test,
  least: 0,
  most: 100,
});
const of = (words: string, unit: string, decimals: number, test: LabTest, most: number): Property => ({
  words,
  unit,
  decimals,
  test,
  least: 0,
  most,
});

const FLASH: Property = {
  words: 'flash point',
  unit: '°C',
  decimals: 0,
  test: 'binder delivery',
  least: -50,
  most: 400,
};

const NAMED = {
  residualBinderMixPct: pct('residual binder, of mix', 2, 'binder content'),
  residualBinderAggPct: pct('residual binder, of aggregate', 2, 'binder content'),
  bondKgCm2: of('bond in shear', 'kg/cm²', 2, 'bond', 100),
  bondMPa: of('bond in shear', 'MPa', 3, 'bond', 10),
  workable: of('workable in the cold (1 yes, 0 no)', '', 0, 'workability', 1),
  breakUpS: of('time to break up', 's', 0, 'workability', 3600),
  coatedPct: pct('coated after boiling water', 0, 'water resistance'),
  wetCoatedPct: pct('coated when mixed wet', 0, 'coating'),
  immersionCoatedPct: pct('coated after immersion', 0, 'coating'),
  countCoatedPct: pct('coated pieces by count', 1, 'coating'),
  moisturePct: pct('moisture', 2, 'moisture'),
  /** Kept apart from that of stone: limits on stone before mixing do not speak of mix. */
  mixMoisturePct: pct('moisture of mix', 2, 'moisture'),
  residuePct: pct('residue of the binder, by mass', 1, 'binder delivery'),
  residueVolumePct: pct('residue of the binder, by volume', 0, 'cutback residue'),
  furolS: of('Saybolt Furol viscosity', 's', 0, 'binder delivery', 10_000),
  viscosityMm2S: of('kinematic viscosity', 'mm²/s', 0, 'binder delivery', 100_000),
  flashC: FLASH,
  waterPct: pct('water in the binder', 2, 'binder delivery'),
  flakinessElongationPct: pct('flaky and long pieces', 0, 'aggregate'),
  impactPct: pct('impact value', 0, 'aggregate'),
  abrasionPct: pct('abrasion loss', 0, 'aggregate'),
  soundnessPct: pct('soundness loss', 0, 'aggregate'),
  /** Limits for the two salts differ. */
  soundnessMagnesiumPct: pct('soundness loss in magnesium sulfate', 0, 'aggregate'),
  absorptionPct: pct('water absorption', 2, 'aggregate'),
  fracturedPct: pct('pieces with broken faces', 0, 'aggregate'),
  sandEquivalentPct: pct('sand equivalent', 0, 'aggregate'),
  densityKgM3: of('density', 'kg/m³', 0, 'aggregate', 5000),
} as const satisfies { readonly [id: string]: Property };

export const PROPERTY_IDS = Object.keys(NAMED) as readonly (keyof typeof NAMED)[];

/** Opening of the sieve a property id names, mm: `passing:4.75` → 4.75; null for another property. */
export const sieveOf = (property: string): number | null => {
  const found = /^passing:(\d+(?:\.\d+)?)$/.exec(property);
  const mm = found === null ? Number.NaN : Number(found[1]);
  return mm > 0 && mm <= 125 ? mm : null;
};

/** Temperature a property id of the distillation names, °C: `distillate:225` → 225; null for another property. */
const distillateOf = (property: string): number | null => {
  const found = /^distillate:(\d{2,3})$/.exec(property);
  return found === null ? null : Number(found[1]);
};

/** Properties found before, by id: a lot is judged at every fact about it. Only so many, as ids may come from outside. */
const found = new Map<string, Property | null>();
const FOUND_AT_MOST = 500;

/** What is known of a property by its id; null when no test gives it. The fine sieves are told to 0.1 % (ASTM C136). */
export const propertyOf = (id: string): Property | null => {
  const known = found.get(id);
  if (known !== undefined) return known;
  const property = lookUp(id);
  if (found.size < FOUND_AT_MOST) found.set(id, property);
  return property;
};

const lookUp = (id: string): Property | null => {
  const sieveMm = sieveOf(id);
  if (sieveMm !== null) return pct(`passing ${sieveMm} mm`, sieveMm < 0.1 ? 1 : 0, 'gradation');
  const distillateC = distillateOf(id);
  if (distillateC !== null)
    return pct(`distillate to ${distillateC} °C, of all to 360 °C`, 0, 'cutback residue');
  return Object.hasOwn(NAMED, id) ? NAMED[id as keyof typeof NAMED] : null;
};
