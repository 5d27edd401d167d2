/** Wet coating: how much of wet aggregate the binder covers. */
import { makeSheet } from './make-sheet.ts';
import { mass, quantity, temp } from './spec.ts';
import { seenByBoth, twoEyes } from './two-eyes.ts';

export const wetCoating = makeSheet({
  id: 'wet-coating',
  test: 'coating',
  title: 'Wet coating',
  basis:
    'Wet coating test as patching-mix specifications name it: 500 g of aggregate wetted with 2 % water, binder added hot, mixed by hand for two minutes, coated surface judged by eye. Masses and time are common practice, no source.',
  cautions: [
    'Cutback at its working temperature lies above its flash point: no flame, small tins, hood on.',
    'Hot binder burns: gloves and goggles.',
  ],
  fields: [
    mass('Batch', 'aggregateG', 'M', 'Dry aggregate'),
    mass('Batch', 'waterG', 'Mw', 'Water added'),
    mass('Batch', 'binderG', 'Mb', 'Binder added'),
    temp('Batch', 'binderC', 'Binder', { from: 0, to: 180 }),
    quantity('Batch', 'mixedMin', 'Mixed', 'min', 0.1, 30),
    ...twoEyes('Judgement', 'Coated surface'),
  ],
  steps: [
    { title: 'Wet', instruction: 'Stir 2 % water into the dry aggregate and let it stand.', seconds: 600 },
    { title: 'Mix', instruction: 'Add the binder and mix briskly with the spatula.', seconds: 120 },
    {
      title: 'Look',
      instruction: 'Spread on white paper. Two people judge the coated surface, each by themselves.',
    },
  ],
  leastMinutes: 12,
  work: (values, page) => {
    if (values.num('aggregateG') === 0) return page.refuse('aggregateG', 'Dry aggregate is 0 g: weigh it');
    if (values.num('binderG') === 0)
      return page.refuse('binderG', 'Binder added is 0 g: nothing could be coated; weigh it');
    const coated = seenByBoth('Coated surface, mean of two people', values, page);
    if (coated === null) return;
    const water = page.calc('Water, on dry aggregate', 'w = 100 × Mw ÷ M', '%', 1);
    page.calc('Binder as added, on dry aggregate', 'b = 100 × Mb ÷ M', '%', 1);
    page.within('Water on dry aggregate', water, { from: 1.5, to: 2.5 }, '%');
    page.within('Time of mixing', values.num('mixedMin'), { from: 1.5, to: 3 }, 'min');
    page.result('wetCoatedPct', coated, 0);
  },
});
