/**
 * Figures that costs, energy and carbon dioxide are worked out with, each with its source: defaults that a person
 * may change. Prices are invented for the demonstration; they are in a currency of no country.
 */
import type { Factor } from './facts.ts';

type Default = Factor & { readonly label: string; readonly unit: string; readonly group: string };

const invented = 'invented for the demonstration';
const memory = 'from memory';

export const FACTORS = {
  fuelMjPerKg: {
    group: 'Energy',
    label: 'Heat of light fuel oil, lower value',
    unit: 'MJ/kg',
    value: 42.6,
    source: memory,
  },
  fuelKgPerL: {
    group: 'Energy',
    label: 'Density of light fuel oil',
    unit: 'kg/L',
    value: 0.84,
    source: memory,
  },
  fuelCo2KgPerMj: {
    group: 'Carbon dioxide',
    label: 'Light fuel oil burned',
    unit: 'kg/MJ',
    value: 0.0741,
    source: 'IPCC 2006 guidelines, gas and diesel oil, 74.1 t/TJ: from memory',
  },
  powerKwhPerT: {
    group: 'Energy',
    label: 'Electricity for bins, mixer, fans and pumps',
    unit: 'kWh/t',
    value: 4,
    source: 'common practice, no source',
  },
  powerCo2KgPerKwh: {
    group: 'Carbon dioxide',
    label: 'Electricity',
    unit: 'kg/kWh',
    value: 0.4,
    source: `${memory}; differs by country and year`,
  },
  stoneCo2KgPerT: { group: 'Carbon dioxide', label: 'Crushed stone', unit: 'kg/t', value: 5, source: memory },
  reclaimedCo2KgPerT: {
    group: 'Carbon dioxide',
    label: 'Reclaimed pavement, crushed and sieved',
    unit: 'kg/t',
    value: 2,
    source: memory,
  },
  residueCo2KgPerT: {
    group: 'Carbon dioxide',
    label: 'Bitumen, per tonne of residue',
    unit: 'kg/t',
    value: 200,
    source: `order of size in makers' inventories: ${memory}`,
  },
  solventCo2KgPerKg: {
    group: 'Carbon dioxide',
    label: 'Solvent: its making, and what it turns into in the air',
    unit: 'kg/kg',
    value: 3.5,
    source: `carbon of undecane, 0.845 × 44/12 = 3.1, and 0.4 for its making: ${memory}`,
  },
  stonePricePerT: { group: 'Prices', label: 'Crushed stone', unit: 'per t', value: 22, source: invented },
  reclaimedPricePerT: {
    group: 'Prices',
    label: 'Reclaimed pavement',
    unit: 'per t',
    value: 8,
    source: invented,
  },
  emulsionPricePerT: { group: 'Prices', label: 'Emulsion', unit: 'per t', value: 460, source: invented },
  cutbackPricePerT: { group: 'Prices', label: 'Cutback', unit: 'per t', value: 790, source: invented },
  antiStripPricePerKg: {
    group: 'Prices',
    label: 'Anti-strip agent',
    unit: 'per kg',
    value: 5.5,
    source: invented,
  },
  fuelPricePerL: { group: 'Prices', label: 'Light fuel oil', unit: 'per L', value: 1.2, source: invented },
  powerPricePerKwh: { group: 'Prices', label: 'Electricity', unit: 'per kWh', value: 0.22, source: invented },
  labourPerT: { group: 'Prices', label: 'Labour at the plant', unit: 'per t', value: 9, source: invented },
  fluidsMaxPct: {
    group: 'Limits',
    label: 'Total fluids above which mix runs off, on dry aggregate',
    unit: '%',
    value: 12,
    source: 'common practice, no source: find it by trial with your own stone',
  },
  absorbedPerWater: {
    group: 'Limits',
    label: 'Binder absorbed for each part of water the stone absorbs',
    unit: '',
    value: 0.5,
    source: 'one half is a usual first guess: from memory; measure it where it matters',
  },
  mixViscosityFromMm2S: {
    group: 'Limits',
    label: 'Viscosity of cutback when mixed, least',
    unit: 'mm²/s',
    value: 150,
    source: 'pug mill mixing of cutbacks at 150–300 mm²/s: from memory',
  },
  mixViscosityToMm2S: {
    group: 'Limits',
    label: 'Viscosity of cutback when mixed, most',
    unit: 'mm²/s',
    value: 300,
    source: 'pug mill mixing of cutbacks at 150–300 mm²/s: from memory',
  },
} as const satisfies { readonly [id: string]: Default };

export type FactorId = keyof typeof FACTORS;
export type Factors = { readonly [K in FactorId]: number };

export type FactorRow = Default & { readonly id: FactorId; readonly changed: boolean };

export const isFactor = (id: string): id is FactorId => Object.hasOwn(FACTORS, id);

type Set = { readonly [factor: string]: Factor };

/** A factor as it stands: set by a person, else the default. */
export const factorOf = (set: Set, id: FactorId): Factor => {
  const { value, source } = set[id] ?? FACTORS[id];
  return { value, source };
};

/** Every factor as it stands, with its words, in the order above. */
export const factorRows = (set: Set): FactorRow[] =>
  (Object.keys(FACTORS) as FactorId[]).map((id) => ({
    ...FACTORS[id],
    ...factorOf(set, id),
    id,
    changed: set[id] !== undefined,
  }));

/** Every factor as a number. */
export const factorValues = (rows: readonly FactorRow[]): Factors =>
  Object.fromEntries(rows.map((row) => [row.id, row.value])) as Factors;
