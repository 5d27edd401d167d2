/** Binder as delivered, against the limits of its grade. */
import { bitumenColumn, type VolumeColumn, volumeFactor } from '../../mix/volume-correction.ts';
import { CUTBACK_GRADES, EMULSION_GRADES, LEAST_MC_FLASH_C } from './grades.ts';
import { makeSheet } from './make-sheet.ts';
import type { Page } from './page.ts';
import type { Values } from './read.ts';
import { written } from './rounding.ts';
import { choice, percent, quantity, temp } from './spec.ts';

const CUTBACK = { key: 'kind', is: ['cutback'] } as const;
const EMULSION = { key: 'kind', is: ['emulsion'] } as const;

const named = (grades: Readonly<Record<string, unknown>>): readonly (readonly [string, string])[] =>
  Object.keys(grades).map((grade) => [grade, grade]);

/** The factors of machines/mix/volume-correction.ts as lines of working; a test holds them together. */
const FACTORS: Readonly<Record<VolumeColumn, { readonly label: string; readonly line: string }>> = {
  A: {
    label: 'Volume factor to 15 °C (ASTM D4311, column A)',
    line: 'q = 1.009 − 0.00063341 × T + 0.00000014571 × T × T',
  },
  B: {
    label: 'Volume factor to 15 °C (ASTM D4311, column B)',
    line: 'q = 1.0108 − 0.00072344 × T + 0.0000002199 × T × T',
  },
  emulsion: { label: 'Volume factor to 15 °C (emulsion, from memory)', line: 'q = 1 − 0.00045 × (T − 15)' },
};

const cutbackWork = (values: Values, page: Page): void => {
  const viscosity = page.calc('Kinematic viscosity', 'v = K × t', 'mm²/s', 1);
  const P = values.opt('barometerKPa');
  const C = values.num('flashC');
  const flashC =
    P === null ? C : page.calc('Flash point at normal pressure', 'f = C + 0.25 × (101.3 − P)', '°C', 1);
  const water = page.calc('Water', 'w = 100 × Vw ÷ V', '%', 2);
  page.result('viscosityMm2S', viscosity, 0);
  // Flash points are reported to whole degrees.
  page.result('flashC', flashC, 0);
  page.result('waterPct', water, 2);
  const residue = values.opt('residueVolumePct');
  if (residue === null) page.note('Residue not given: distil it on its own sheet.');
  else page.result('residueVolumePct', residue, 1);
  page.within('Viscosity bath', values.num('bathC'), { from: 59.9, to: 60.1 }, '°C');
  page.within('Efflux time', values.num('effluxS'), { from: 60, to: 1000 }, 's');
  if (P === null) page.note('Barometer not read: the flash point is not corrected to 101.3 kPa.');
  if (flashC < LEAST_MC_FLASH_C)
    page.note(
      `Flash point ${written(flashC, 0)} °C is below every medium-curing grade: treat it as rapid-curing cutback or mixed with a light solvent. Do not unload it; if it is unloaded, isolate the tank, keep its heating off, and call the supervisor.`,
    );
};

const emulsionWork = (values: Values, page: Page): void => {
  page.result('furolS', values.num('furolS'), 0);
  page.result('residuePct', values.num('residuePct'), 1);
  const grade = EMULSION_GRADES[values.text('emulsionGrade')];
  const bathC = values.num('furolC');
  if (grade !== undefined)
    page.within('Viscosity bath', bathC, { from: grade.furolAtC - 0.5, to: grade.furolAtC + 0.5 }, '°C');
  page.calc('What is not residue (water, and oil if any)', 'w = 100 − R', '%', 1);
  if (values.num('sieveResiduePct') > 0.1)
    page.note(
      'More than 0.1 % stays on the sieve (ASTM D2397 type table): it is breaking or was frozen; do not unload it.',
    );
};

const density = (values: Values, page: Page): void => {
  const [r, T] = [values.opt('densityKgM3'), values.opt('densityC')];
  if (r === null) return;
  if (T === null) {
    page.refuse('densityC', 'Temperature of the density is missing: read it with the hydrometer');
    return;
  }
  const isEmulsion = values.text('kind') === 'emulsion';
  // The column goes by density at 15 °C; near its border the reading decides well enough.
  const column = isEmulsion ? 'emulsion' : bitumenColumn(r / volumeFactor('B', T));
  page.calc(FACTORS[column].label, FACTORS[column].line, '', 4);
  page.result('densityKgM3', page.calc('Density at 15 °C', 'D = r ÷ q', 'kg/m³', 0), 0);
};

export const binderDelivery = makeSheet({
  id: 'binder-delivery',
  test: 'binder delivery',
  title: 'Binder delivery',
  basis:
    'Cutback: ASTM D2170 kinematic viscosity at 60 °C, Tag open cup flash (ASTM D3143) with 0.25 °C per kPa for pressure (from memory), ASTM D95 water, against ASTM D2027 / AASHTO M 82. Emulsion: Saybolt Furol, residue and sieve, against IS 8887 or the ASTM D2397 type table.',
  cautions: [
    'The flash test lights vapour on purpose: alone on its bench, in still air, extinguisher at hand, shield down, no more than the cup holds nearby.',
    'Samples of hot binder: face shield, long gloves, open the valve slowly.',
    'D95 boils a solvent: hood, mantle instead of flame.',
  ],
  fields: [
    choice('Delivery', 'kind', 'Binder', [
      ['cutback', 'Cutback'],
      ['emulsion', 'Emulsion'],
    ]),
    choice('Delivery', 'cutbackGrade', 'Grade', named(CUTBACK_GRADES), { when: CUTBACK }),
    choice('Delivery', 'emulsionGrade', 'Grade', named(EMULSION_GRADES), { when: EMULSION }),
    quantity('Viscosity', 'viscometer', 'Constant of the viscometer', 'mm²/s²', 0.001, 500, {
      symbol: 'K',
      decimals: 3,
      when: CUTBACK,
    }),
    quantity('Viscosity', 'effluxS', 'Time of flow', 's', 1, 5000, { symbol: 't', when: CUTBACK }),
    temp('Viscosity', 'bathC', 'Bath', { decimals: 1, from: 20, to: 150, when: CUTBACK }),
    quantity('Viscosity', 'furolS', 'Saybolt Furol', 's', 1, 2000, { decimals: 0, when: EMULSION }),
    temp('Viscosity', 'furolC', 'Bath', { decimals: 1, from: 10, to: 90, when: EMULSION }),
    temp('Flash', 'flashC', 'Flash seen at', { symbol: 'C', from: -10, to: 250, when: CUTBACK }),
    quantity('Flash', 'barometerKPa', 'Barometer', 'kPa', 60, 110, {
      symbol: 'P',
      optional: true,
      when: CUTBACK,
    }),
    quantity('Water', 'waterMl', 'Water in the trap', 'ml', 0, 25, {
      symbol: 'Vw',
      decimals: 2,
      when: CUTBACK,
    }),
    quantity('Water', 'waterSampleMl', 'Sample', 'ml', 1, 500, {
      symbol: 'V',
      decimals: 0,
      hint: '100 ml',
      when: CUTBACK,
    }),
    percent('Residue', 'residueVolumePct', 'Residue at 360 °C, by volume', {
      optional: true,
      hint: 'from the distillation sheet',
      when: CUTBACK,
    }),
    percent('Residue', 'residuePct', 'Residue by evaporation, by mass', {
      symbol: 'R',
      hint: 'from the evaporation sheet',
      when: EMULSION,
    }),
    percent('Residue', 'sieveResiduePct', 'On the sieve', { decimals: 2, when: EMULSION }),
    quantity('Density', 'densityKgM3', 'Density read', 'kg/m³', 700, 1200, {
      symbol: 'r',
      decimals: 0,
      optional: true,
    }),
    temp('Density', 'densityC', 'Density read at', {
      symbol: 'T',
      optional: true,
      from: 0,
      to: 150,
    }),
  ],
  steps: [
    {
      title: 'Sample',
      instruction: 'From the sampling valve before anything is unloaded; first litre back, then fill.',
    },
    {
      title: 'Viscosity',
      instruction: 'Bath steady for half an hour, then time the flow.',
      seconds: 1800,
      tempC: 60,
    },
    {
      title: 'Flash',
      instruction:
        'Heat the cup slowly, test flame every 2 °C from well below the limit. Stop at the first flash.',
    },
  ],
  leastMinutes: 20,
  work: (values, page) => {
    const isCutback = values.text('kind') === 'cutback';
    if (isCutback && values.num('waterMl') > values.num('waterSampleMl'))
      page.refuse('waterMl', 'More water in the trap than sample: read both again');
    if (page.refused()) return;
    if (isCutback) cutbackWork(values, page);
    else emulsionWork(values, page);
    density(values, page);
    page.against(
      isCutback
        ? (CUTBACK_GRADES[values.text('cutbackGrade')] ?? [])
        : (EMULSION_GRADES[values.text('emulsionGrade')]?.limits ?? []),
    );
  },
});
