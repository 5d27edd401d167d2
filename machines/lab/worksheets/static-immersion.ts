/** Static immersion: how much coating stays on stone that lies in still water overnight. */
import { makeSheet } from './make-sheet.ts';
import { choice, mass, quantity, temp } from './spec.ts';
import { seenByBoth, twoEyes } from './two-eyes.ts';

/** The only line the standard draws, %. */
export const T182_LINE_PCT = 95;

export const staticImmersion = makeSheet({
  id: 'static-immersion',
  test: 'coating',
  title: 'Static immersion',
  basis:
    'AASHTO T 182 / ASTM D1664: stone of 9.5 to 6.3 mm coated and cured (60 °C for cutback, 135 °C for emulsion), 16 to 18 h in distilled water; the standard only says above or below 95 %. 100 g with 5.5 g of binder and 2 h of curing as for cutback in a US state method.',
  cautions: [
    'Curing drives solvent off at 60 °C: vented oven without open elements.',
    'Hot stone and binder burn: gloves.',
  ],
  fields: [
    choice('Coating', 'binder', 'Binder', [
      ['cutback', 'Cutback'],
      ['emulsion', 'Emulsion'],
    ]),
    mass('Coating', 'aggregateG', 'M', 'Stone'),
    mass('Coating', 'binderG', 'Mb', 'Binder'),
    temp('Curing', 'cureC', 'Cured at', { from: 10, to: 200 }),
    quantity('Curing', 'cureH', 'Cured for', 'h', 0, 48),
    temp('Immersion', 'waterC', 'Water', { from: 1, to: 60 }),
    quantity('Immersion', 'immersedH', 'In the water for', 'h', 0, 72),
    ...twoEyes('Judgement', 'Coating kept'),
  ],
  steps: [
    {
      title: 'Coat',
      instruction: 'Mix 5.5 g of binder into 100 g of stone until all is coated.',
      seconds: 120,
    },
    {
      title: 'Cure',
      instruction: 'Two hours in the oven, then stir and let cool. Emulsion: at 135 °C.',
      tempC: 60,
      seconds: 7200,
    },
    {
      title: 'Immerse',
      instruction: 'Under distilled water in the 600 ml beaker, not stirred.',
      tempC: 25,
      seconds: 17 * 3600,
    },
    {
      title: 'Look',
      instruction: 'Through the water under a lamp: two people judge, each by themselves. Do not stir.',
    },
  ],
  leastMinutes: 16 * 60,
  work: (values, page) => {
    const immersedH = values.num('immersedH');
    if (values.num('aggregateG') === 0) page.refuse('aggregateG', 'Stone is 0 g: weigh it');
    if (values.num('binderG') === 0)
      page.refuse('binderG', 'Binder is 0 g: nothing could be coated; weigh it');
    if (immersedH < 1)
      page.refuse(
        'immersedH',
        'In the water for less than an hour: this is no immersion test; leave it 16 to 18 h',
      );
    if (page.refused()) return;
    const kept = seenByBoth('Coating kept, mean of two people', values, page);
    if (kept === null) return;
    page.calc('Binder, on stone', 'b = 100 × Mb ÷ M', '%', 1);
    page.within('Time in the water', immersedH, { from: 16, to: 18 }, 'h');
    page.within(
      'Curing temperature',
      values.num('cureC'),
      values.text('binder') === 'cutback' ? { from: 57, to: 63 } : { from: 132, to: 138 },
      '°C',
    );
    page.within('Curing time', values.num('cureH'), { from: 1.9, to: 2.25 }, 'h');
    page.result('immersionCoatedPct', kept, 0);
    page.note(
      `By AASHTO T 182: ${kept >= T182_LINE_PCT ? 'at least' : 'below'} ${T182_LINE_PCT} %. The standard knows no finer grading; the figure is kept for comparison only.`,
    );
  },
});
