/** Binder content by ignition in the furnace: residual binder, on mix and on aggregate. */
import { makeSheet, refuseMoreThanSample } from './make-sheet.ts';
import { choice, mass, percent, quantity, temp } from './spec.ts';

export const ignition = makeSheet({
  id: 'ignition',
  test: 'binder content',
  title: 'Binder by ignition',
  basis:
    'ASTM D6307 / AASHTO T 308: loss on ignition less the correction found with a mix of known binder. Furnace 538 °C and drying the mix first are from memory. Subtracting what is left of water and solvent is common practice, no source.',
  cautions: [
    'The furnace stands at 538 °C: face shield, heat-proof gloves and long sleeves; the basket stays hot for an hour.',
    'Cutback mix must be cured until its solvent has gone: solvent vapour in a hot furnace explodes. Never open the door while it burns.',
    'Fumes go outside: no start unless the exhaust draws.',
  ],
  fields: [
    choice('Mix', 'cured', 'Mix before the furnace', [
      ['dried', 'Dried, solvent driven off'],
      ['as sampled', 'As sampled (emulsion mix only)'],
    ]),
    percent('Mix', 'waterPct', 'Water left, of the mix put in', {
      symbol: 'w',
      decimals: 2,
      to: 50,
      hint: '0 when dried',
    }),
    percent('Mix', 'solventPct', 'Solvent left, of the mix put in', {
      symbol: 's',
      decimals: 2,
      to: 5,
      hint: '0 when driven off; above 5 % the mix must not go into the furnace',
    }),
    mass('Furnace', 'basketG', 'K', 'Empty basket'),
    mass('Furnace', 'beforeG', 'K1', 'Basket and mix, before'),
    mass('Furnace', 'afterG', 'K2', 'Basket and aggregate, after (cold)'),
    mass('Furnace', 'ashG', 'a', 'Ash and dust outside the basket', {
      optional: true,
      hint: 'from tray and filter: it is aggregate',
    }),
    temp('Furnace', 'furnaceC', 'Furnace', { from: 300, to: 700 }),
    quantity('Furnace', 'correctionPct', 'Correction for this aggregate', '%', -1, 3, {
      symbol: 'C',
      decimals: 2,
      hint: '% of mix, from a mix of known binder',
    }),
  ],
  steps: [
    {
      title: 'Cure',
      instruction: 'Spread and dry until no more mass is lost; cutback mix until no solvent smells.',
      tempC: 110,
    },
    { title: 'Weigh', instruction: 'Weigh the empty basket, spread the mix in it, weigh again.' },
    {
      title: 'Burn',
      instruction: 'Exhaust on. Burn until three readings a minute apart agree.',
      tempC: 538,
      seconds: 45 * 60,
    },
    { title: 'Cool', instruction: 'Let the basket cool under its cage, then weigh.', seconds: 3600 },
  ],
  leastMinutes: 60,
  work: (values, page, context) => {
    const [K, K1, K2] = [values.num('basketG'), values.num('beforeG'), values.num('afterG')];
    const [w, s, C] = [values.num('waterPct'), values.num('solventPct'), values.num('correctionPct')];
    if (K1 <= K)
      page.refuse('beforeG', 'Basket and mix weighs no more than the empty basket: weigh both again');
    if (K2 > K1)
      page.refuse('afterG', 'Basket is heavier after burning than before: let it cool and weigh again');
    if (K2 <= K)
      page.refuse(
        'afterG',
        'Basket and aggregate weighs no more than the empty basket: no aggregate is left; weigh both again',
      );
    if (values.text('cured') === 'dried' && w > 0.5)
      page.refuse('waterPct', 'Dried mix holds no more than 0.5 % water: choose "As sampled", or dry it on');
    if (values.text('cured') === 'as sampled' && s > 0)
      page.refuse(
        'cured',
        'Mix that holds solvent must not go into the furnace as sampled: cure it until its solvent has gone',
      );
    refuseMoreThanSample(page, 'beforeG', 'Mix in the basket', K1 - K, context);
    if (page.refused()) return;

    page.put('a', values.opt('ashG') ?? 0);
    page.calc('Mix put in', 'W1 = K1 − K', 'g', 1);
    page.calc('Water in it', 'Ww = W1 × w ÷ 100', 'g', 1);
    page.calc('Solvent left in it', 'Ws = W1 × s ÷ 100', 'g', 1);
    const mixG = page.calc('Mix without water and solvent', 'M = W1 − Ww − Ws', 'g', 1);
    const leftG = page.calc('Aggregate left', 'A = K2 − K + a', 'g', 1);
    page.calc('Loss on ignition, of mix', 'L = 100 × (M − A) ÷ M', '%', 2);
    const onMix = page.calc('Residual binder, on mix (loss less correction)', 'Pm = L − C', '%', 2);
    if (onMix > 50)
      return page.refuse(
        'afterG',
        'More than half of the mix would be binder: look whether the basket was weighed with both',
      );
    if (onMix < 0 || leftG > mixG)
      return page.refuse(
        'afterG',
        'Loss is smaller than water, solvent and correction together, no binder is left: look at the masses, then at water and correction',
      );
    const onAggregate = page.calc('Residual binder, on aggregate', 'Pa = 100 × Pm ÷ (100 − Pm)', '%', 2);
    page.result('residualBinderMixPct', onMix, 2);
    page.result('residualBinderAggPct', onAggregate, 2);
    page.note(
      'Residual binder: what stays when water and solvent have gone. On mix it is divided by residue and aggregate, on aggregate by aggregate alone.',
    );
    page.within('Furnace', values.num('furnaceC'), { from: 530, to: 546 }, '°C');
    if (values.text('cured') === 'as sampled' && w === 0)
      page.departure(
        'Mix as sampled but no water subtracted: water is then counted as binder; find it by ASTM D1461 and enter it.',
      );
    if (C === 0)
      page.note('Correction 0: what the aggregate itself loses in the furnace is counted as binder.');
    if (onMix > 12)
      page.note(
        'More than 12 % residual binder is unheard of in patching mix: look at the masses once more.',
      );
  },
});
