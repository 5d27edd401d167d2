/** Binder content by solvent extraction in the centrifuge: residual binder, on mix and on aggregate. */
import { makeSheet, refuseMoreThanSample } from './make-sheet.ts';
import type { Page } from './page.ts';
import type { Values } from './read.ts';
import { choice, count, mass, percent, quantity } from './spec.ts';

/** What the test portion cannot be, said at the field that is likeliest wrong. */
const refuseImpossible = (values: Values, page: Page): void => {
  const portionG = values.num('portionG');
  const aggregateG = values.num('aggregateG');
  if (portionG === 0) page.refuse('portionG', 'Test portion is 0 g: weigh what goes into the bowl');
  if (aggregateG === 0) page.refuse('aggregateG', 'Extracted aggregate is 0 g: weigh the dry aggregate');
  if (aggregateG > portionG)
    page.refuse(
      'aggregateG',
      'Extracted aggregate is heavier than the test portion: look whether bowl or solvent were weighed with it',
    );
  if (values.num('filterAfterG') < values.num('filterBeforeG'))
    page.refuse(
      'filterAfterG',
      'Filter is lighter after the test than empty: dry both at 110 °C and weigh again, or look for a torn piece',
    );
  if (values.text('finesBy') === 'ash' && values.num('aliquotMl') > values.num('extractMl'))
    page.refuse('aliquotMl', 'Part that was ashed is more than all the extract: measure both again');
  if (values.num('waterPct') + values.num('solventPct') >= 50)
    page.refuse(
      'waterPct',
      'Water and solvent together are half of the mix or more: they are % of the mix as sampled',
    );
  if (values.text('colour') === 'dark')
    page.refuse(
      'colour',
      'The last extract is still dark: binder is left in the bowl; go on washing until it is straw-coloured',
    );
};

export const extraction = makeSheet({
  id: 'extraction',
  test: 'binder content',
  title: 'Binder by solvent extraction',
  basis:
    'ASTM D2172 / AASHTO T 164, centrifuge: at least three washes of 200 ml until the extract is straw-coloured, filter dried at 115 °C. Water by ASTM D1461. Fines by ash: G × V1 ÷ V2 (from memory). Subtracting the solvent that is left in cutback mix, which makes the result residual binder, is common practice, no source.',
  cautions: [
    'Extraction solvents harm liver, nerves and skin: work in the fume hood with gloves and goggles, never in a closed room.',
    'Many extraction solvents burn, and cutback mix gives off its own: no flame, no sparking switch, no hot plate near it.',
    'Let the bowl stop before it is opened. Aggregate and filter dry in the hood until no solvent smells, only then in the oven.',
    'Spent solvent goes into its labelled closed drum, never into a drain.',
  ],
  fields: [
    mass('Mix', 'portionG', 'W1', 'Test portion of mix'),
    percent('Mix', 'waterPct', 'Water, of the mix as sampled', {
      symbol: 'w',
      decimals: 2,
      to: 50,
      hint: 'by distillation (ASTM D1461); 0 when the mix was dried first',
    }),
    percent('Mix', 'solventPct', 'Solvent left, of the mix as sampled', {
      symbol: 's',
      decimals: 2,
      to: 50,
      hint: 'loss in the oven less water; 0 for emulsion mix, or when it was driven off first',
    }),
    mass('Extraction', 'aggregateG', 'W2', 'Extracted aggregate, dry'),
    mass('Extraction', 'filterBeforeG', 'F0', 'Filter, empty and dry', { decimals: 2, readabilityG: 0.01 }),
    mass('Extraction', 'filterAfterG', 'F1', 'Filter after the test, dry', {
      decimals: 2,
      readabilityG: 0.01,
    }),
    count('Extraction', 'washes', 'Washes', 1, 30),
    choice('Extraction', 'colour', 'Last extract', [
      ['straw', 'Straw-coloured or clear'],
      ['dark', 'Still dark'],
    ]),
    choice('Fines', 'finesBy', 'Fines in the extract', [
      ['weighed', 'Spun out and weighed'],
      ['ash', 'From the ash of a part'],
    ]),
    mass('Fines', 'finesG', 'W3', 'Fines, dry', {
      decimals: 2,
      readabilityG: 0.01,
      when: { key: 'finesBy', is: ['weighed'] },
    }),
    mass('Fines', 'ashG', 'G', 'Ash in the dish', {
      decimals: 3,
      readabilityG: 0.001,
      when: { key: 'finesBy', is: ['ash'] },
    }),
    quantity('Fines', 'extractMl', 'Extract in all', 'ml', 1, 20_000, {
      symbol: 'V1',
      decimals: 0,
      when: { key: 'finesBy', is: ['ash'] },
    }),
    quantity('Fines', 'aliquotMl', 'Part that was ashed', 'ml', 1, 1000, {
      symbol: 'V2',
      decimals: 0,
      when: { key: 'finesBy', is: ['ash'] },
    }),
  ],
  steps: [
    {
      title: 'Weigh',
      instruction: 'Warm the mix only until it can be parted; weigh the test portion into the bowl.',
    },
    { title: 'Soak', instruction: 'Cover with solvent under the hood and let it stand.', seconds: 3600 },
    {
      title: 'Spin',
      instruction: 'Spin slowly, then up to 3600 turns a minute, until nothing runs.',
      seconds: 300,
    },
    { title: 'Wash', instruction: 'At least three times 200 ml, until the extract is straw-coloured.' },
    {
      title: 'Dry',
      instruction: 'Aggregate and filter: in the hood until no solvent smells, then to constant mass.',
      tempC: 110,
    },
    { title: 'Fines', instruction: 'Spin the fines out of the extract, or ash a part of it; dry and weigh.' },
  ],
  leastMinutes: 60,
  work: (values, page, context) => {
    refuseImpossible(values, page);
    refuseMoreThanSample(page, 'portionG', 'Test portion', values.num('portionG'), context);
    if (page.refused()) return;

    const [w, s] = [values.num('waterPct'), values.num('solventPct')];
    if (values.text('finesBy') === 'ash')
      page.calc('Fines in the extract, from ash', 'W3 = G × V1 ÷ V2', 'g', 2);
    page.calc('Fines in the filter', 'W4 = F1 − F0', 'g', 2);
    page.calc('Water in the portion', 'Ww = W1 × w ÷ 100', 'g', 1);
    page.calc('Solvent left in the portion', 'Ws = W1 × s ÷ 100', 'g', 1);
    const aggregateG = page.calc('Aggregate in all', 'A = W2 + W3 + W4', 'g', 1);
    const mixG = page.calc('Mix without water and solvent', 'M = W1 − Ww − Ws', 'g', 1);
    if (aggregateG > mixG)
      return page.refuse(
        'aggregateG',
        'Aggregate, fines and filter gain weigh more than the mix without its water and solvent, no binder is left: dry the aggregate to constant mass, and look at the water and the solvent',
      );
    page.calc('Residual binder in the portion', 'B = M − A', 'g', 2);
    const onMix = page.calc('Residual binder, on mix', 'Pm = 100 × B ÷ M', '%', 2);
    const onAggregate = page.calc(
      'Residual binder, on aggregate (÷ extracted aggregate)',
      'Pa = 100 × B ÷ A',
      '%',
      2,
    );
    page.result('residualBinderMixPct', onMix, 2);
    page.result('residualBinderAggPct', onAggregate, 2);
    page.note(
      'Residual binder: what stays when water and solvent have gone. On mix it is divided by residue and aggregate, on aggregate by aggregate alone.',
    );
    if (w === 0 && s === 0)
      page.note(
        'No water and no solvent subtracted: right only for a mix that was dried first; otherwise they are counted as binder.',
      );
    if (values.num('washes') < 3)
      page.departure('Fewer than three washes: wash at least three times with 200 ml.');
    if (values.num('portionG') < 500)
      page.note(
        'Less than 500 g of mix: the result scatters more (least mass for 4.75 mm stone, from memory; 1000 g for 9.5 mm).',
      );
    if (onMix > 12)
      page.note(
        'More than 12 % residual binder is unheard of in patching mix: look at the masses once more.',
      );
  },
});
