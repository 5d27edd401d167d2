/** Soundness in sulfate, and water absorption with density. */
import { choice, count, mass, percent } from '../spec.ts';
import type { AggregatePart } from './part.types.ts';

const FRACTIONS = ['9.5-4.75', '4.75-2.36', '2.36-1.18'] as const;

export const soundness: AggregatePart = {
  basis: 'ASTM C88 / AASHTO T 104, five cycles; loss of each fraction weighted by its share of the grading.',
  fields: [
    choice('Soundness', 'salt', 'Solution', [
      ['sodium', 'Sodium sulfate'],
      ['magnesium', 'Magnesium sulfate'],
    ]),
    count('Soundness', 'cycles', 'Cycles', 0, 20),
    percent('Fractions', 'sharePct', 'Share of the grading, mm', {
      symbol: 'p',
      each: FRACTIONS,
      hint: '0 when not tested',
    }),
    mass('Fractions', 'soundBeforeG', 'B', 'Before, mm', { each: FRACTIONS, optional: true }),
    mass('Fractions', 'soundAfterG', 'C', 'After, mm', { each: FRACTIONS, optional: true }),
  ],
  work: (values, page) => {
    const tested = FRACTIONS.filter((fraction) => values.num(`sharePct:${fraction}`) > 0);
    const shares = tested.reduce((sum, fraction) => sum + values.num(`sharePct:${fraction}`), 0);
    if (tested.length === 0)
      return page.refuse(
        `sharePct:${FRACTIONS[0]}`,
        'No fraction has a share: enter the share of at least one',
      );
    if (shares > 100 + 1e-9)
      page.refuse(`sharePct:${tested[0]}`, 'Shares add to more than 100 %: they are parts of one grading');
    for (const fraction of tested) {
      const [before, after] = [values.opt(`soundBeforeG:${fraction}`), values.opt(`soundAfterG:${fraction}`)];
      if (before === null || before === 0)
        page.refuse(
          `soundBeforeG:${fraction}`,
          `Before, ${fraction} mm: is missing: this fraction has a share, enter its mass in g`,
        );
      if (after === null)
        page.refuse(
          `soundAfterG:${fraction}`,
          `After, ${fraction} mm: is missing: this fraction has a share, enter its mass in g`,
        );
      if (before !== null && after !== null && after > before)
        page.refuse(
          `soundAfterG:${fraction}`,
          `${fraction} mm is heavier after the cycles than before: wash the salt out, dry and weigh again`,
        );
    }
    if (page.refused()) return;
    const letters = tested.map((fraction) => {
      const n = FRACTIONS.indexOf(fraction) + 1;
      page.calc(`Loss, ${fraction} mm`, `L${n} = 100 × (B${n} − C${n}) ÷ B${n}`, '%', 1);
      return n;
    });
    const sum = letters.map((n) => `p${n}`).join(' + ');
    const loss = page.calc(
      'Loss, weighted by shares',
      `L = (${letters.map((n) => `p${n} × L${n}`).join(' + ')}) ÷ (${sum})`,
      '%',
      1,
    );
    page.result(values.text('salt') === 'sodium' ? 'soundnessPct' : 'soundnessMagnesiumPct', loss, 1);
    if (shares < 100 - 1e-9)
      page.note('Fractions that were not tested are taken to lose as the tested ones do.');
    page.within('Cycles', values.num('cycles'), { from: 5, to: 5 }, '');
  },
};

export const absorption: AggregatePart = {
  basis: 'ASTM C127 / AASHTO T 85: (surface-dry − oven-dry) ÷ oven-dry; density from the mass in water.',
  fields: [
    mass('Absorption', 'surfaceDryG', 'B', 'Surface-dry in air'),
    mass('Absorption', 'ovenDryG', 'A', 'Oven-dry in air'),
    mass('Absorption', 'inWaterG', 'C', 'In water', {
      optional: true,
      hint: 'in the basket; gives the density',
    }),
  ],
  work: (values, page) => {
    const [A, B, C] = [values.num('ovenDryG'), values.num('surfaceDryG'), values.opt('inWaterG')];
    if (A === 0) page.refuse('ovenDryG', 'Oven-dry stone is 0 g: weigh it');
    if (A > B)
      page.refuse(
        'ovenDryG',
        'Oven-dry stone is heavier than surface-dry: look whether the two were exchanged',
      );
    if (C !== null && C >= A)
      page.refuse(
        'inWaterG',
        'Stone weighs as much in water as dry in air: tare the empty basket in water and weigh again',
      );
    if (page.refused()) return;
    page.result('absorptionPct', page.calc('Water absorption', 'w = 100 × (B − A) ÷ A', '%', 2), 2);
    if (C !== null) page.calc('Density relative to water, oven-dry', 'G = A ÷ (B − C)', '', 3);
  },
};
