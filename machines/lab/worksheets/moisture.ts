/** Moisture by drying in the oven, of aggregate or of mix. */
import { makeSheet, refuseMoreThanSample } from './make-sheet.ts';
import { choice, mass, temp } from './spec.ts';

/** Drying is done when more of it takes off less than this, % of the dry mass (ASTM C566). */
const CONSTANT_PCT = 0.1;

export const moisture = makeSheet({
  id: 'moisture',
  test: 'moisture',
  title: 'Moisture by oven drying',
  basis:
    'ASTM C566 / AASHTO T 255: loss divided by dry mass, oven at 110 ± 5 °C; the 0.1 % of constant mass is from memory. Mix is dried the same way: common practice, no source (AASHTO T 329 dries hot mix hotter, from memory).',
  cautions: [
    'Hot pans burn: tongs and gloves.',
    'Mix that holds cutback gives off solvent in the oven: only in a vented oven without open elements, and never beside a flame.',
  ],
  fields: [
    choice('Sample', 'material', 'Material', [
      ['aggregate', 'Aggregate'],
      ['emulsion mix', 'Emulsion mix'],
      ['cutback mix', 'Cutback mix'],
    ]),
    mass('Weighings', 'panG', 'P', 'Empty pan'),
    mass('Weighings', 'wetG', 'W', 'Pan and wet sample'),
    mass('Weighings', 'dryG', 'D', 'Pan and dry sample'),
    mass('Weighings', 'driedAgainG', 'E', 'Pan and sample, dried again', {
      optional: true,
      hint: 'after another half hour: shows that the mass is constant',
    }),
    temp('Drying', 'ovenC', 'Oven', { from: 20, to: 300 }),
  ],
  steps: [
    {
      title: 'Weigh',
      instruction: 'Weigh the empty pan, then pan and wet sample, at once after opening the bag.',
    },
    {
      title: 'Dry',
      instruction: 'Dry at 110 °C until it looks dry; stir it once.',
      tempC: 110,
      seconds: 4 * 3600,
    },
    {
      title: 'Dry again',
      instruction: 'Weigh, dry another half hour, weigh again: less than 0.1 % may still be lost.',
      tempC: 110,
      seconds: 1800,
    },
  ],
  leastMinutes: 15,
  work: (values, page, context) => {
    const [panG, wetG, dryG] = [values.num('panG'), values.num('wetG'), values.num('dryG')];
    const againG = values.opt('driedAgainG');
    if (wetG <= panG)
      page.refuse('wetG', 'Pan and wet sample weighs no more than the empty pan: weigh both again');
    if (dryG > wetG)
      page.refuse(
        'dryG',
        'Pan and dry sample is heavier than wet: drying adds nothing; look whether the two were exchanged',
      );
    if (dryG <= panG)
      page.refuse('dryG', 'Pan and dry sample weighs no more than the empty pan: weigh both again');
    if (againG !== null && againG > dryG + 0.1)
      page.refuse(
        'driedAgainG',
        'Dried again it is heavier than before: let it cool in the desiccator and weigh again',
      );
    if (againG !== null && againG <= panG)
      page.refuse(
        'driedAgainG',
        'Pan and sample, dried again, weighs no more than the empty pan: weigh both again',
      );
    refuseMoreThanSample(page, 'wetG', 'Wet sample', wetG - panG, context);
    if (page.refused()) return;

    const last = againG === null ? 'D' : 'E';
    if (againG === null) page.note('Not dried a second time: constant mass is not shown.');
    else {
      const leftPct = page.calc('Loss on drying again', 'L = 100 × (D − E) ÷ (E − P)', '%', 2);
      if (leftPct >= CONSTANT_PCT)
        page.departure(
          'Drying again still took off 0.1 % or more: dry on until it does not, and enter the last two masses.',
        );
    }
    page.calc('Mass lost', `M = W − ${last}`, 'g', 1);
    page.calc('Dry sample', `S = ${last} − P`, 'g', 1);
    const moisturePct = page.calc('Moisture, on dry mass', 'm = 100 × M ÷ S', '%', 2);
    page.calc('The same on mass as sampled (for the binder sheets)', 'w = 100 × M ÷ (S + M)', '%', 2);
    page.result(values.text('material') === 'aggregate' ? 'moisturePct' : 'mixMoisturePct', moisturePct, 2);
    page.within('Oven', values.num('ovenC'), { from: 105, to: 115 }, '°C');
    if (values.text('material') === 'cutback mix')
      page.note(
        'Of a cutback mix the oven takes solvent with the water: this is the loss of both. Water alone is found by distillation (ASTM D1461).',
      );
  },
});
