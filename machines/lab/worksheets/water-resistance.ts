/** Water resistance: coating that stays after three minutes in boiling water, the steps timed. */
import { makeSheet, refuseMoreThanSample } from './make-sheet.ts';
import { mass, quantity, temp } from './spec.ts';
import { seenByBoth, twoEyes } from './two-eyes.ts';

/** Least coated surface, % (common practice, no source). */
export const WATER_RESISTANCE_LEAST_PCT = 90;

export const waterResistance = makeSheet({
  id: 'water-resistance',
  test: 'water resistance',
  title: 'Water resistance',
  basis:
    'Boiling-water test of patching mix: 50 g, 4 h at 120 °C, cooled to 95 °C, 400 ml of boiling water in a 600 ml beaker, stirred one turn a second for three minutes, at least 90 % still coated. All figures are common practice, no source; what they may stray by is chosen here.',
  cautions: [
    'The oven stands at 120 °C, far above the flash point of cutback: vented oven without open elements, no flame in the room.',
    'Boiling water: goggles, heat-proof gloves, beaker on a firm ground; pour away from you.',
  ],
  fields: [
    mass('Oven', 'portionG', 'M', 'Mix'),
    temp('Oven', 'ovenC', 'Oven', { from: 20, to: 250 }),
    quantity('Oven', 'ovenH', 'In the oven', 'h', 0, 48, { decimals: 2 }),
    temp('Boiling', 'cooledC', 'Mix cooled to', { from: -10, to: 200 }),
    quantity('Boiling', 'waterMl', 'Boiling water', 'ml', 0, 600, {
      decimals: 0,
      hint: '400 ml in a 600 ml beaker',
    }),
    temp('Boiling', 'waterC', 'Water', {
      from: 0,
      to: 101,
      hint: 'boiling; 1 °C less for each 300 m of height',
    }),
    quantity('Boiling', 'stirredS', 'Stirred', 's', 0, 3600, { symbol: 't', decimals: 0 }),
    quantity('Boiling', 'turns', 'Turns of the rod', '', 0, 10_000, { symbol: 'n', decimals: 0 }),
    ...twoEyes('Judgement', 'Coated surface'),
  ],
  steps: [
    { title: 'Weigh', instruction: 'Weigh 50 g of mix, loosened, into a flat dish.' },
    { title: 'Oven', instruction: 'Four hours in the vented oven.', tempC: 120, seconds: 4 * 3600 },
    {
      title: 'Cool',
      instruction: 'Let the mix cool to 95 °C while 400 ml of water come to the boil in the 600 ml beaker.',
      tempC: 95,
    },
    {
      title: 'Stir',
      instruction: 'Mix into the boiling water; stir with a glass rod one turn a second.',
      tempC: 100,
      seconds: 180,
    },
    { title: 'Pour off', instruction: 'Pour the water off, spread the mix on white paper and let it dry.' },
    { title: 'Look', instruction: 'Two people judge the coated surface, each by themselves.' },
  ],
  leastMinutes: 4 * 60,
  work: (values, page, context) => {
    const M = values.num('portionG');
    const t = values.num('stirredS');
    if (M === 0) page.refuse('portionG', 'Mix is 0 g: weigh 50 g');
    if (values.num('waterMl') === 0)
      page.refuse('waterMl', 'Boiling water is 0 ml: enter what was in the beaker');
    if (t === 0) page.refuse('stirredS', 'Stirred for 0 s: enter how long');
    if (values.num('ovenH') === 0) page.refuse('ovenH', 'In the oven for 0 h: enter how long');
    refuseMoreThanSample(page, 'portionG', 'Mix', M, context);
    if (page.refused()) return;
    const coated = seenByBoth('Coated surface, mean of two people', values, page);
    if (coated === null) return;
    const turns = page.calc('Turns a second', 'v = n ÷ t', '1/s', 2);
    page.within('Mix', M, { from: 49, to: 51 }, 'g');
    page.within('Oven', values.num('ovenC'), { from: 115, to: 125 }, '°C');
    page.within('Time in the oven', values.num('ovenH'), { from: 3.75, to: 4.25 }, 'h');
    page.within('Mix cooled to', values.num('cooledC'), { from: 92, to: 98 }, '°C');
    page.within('Boiling water', values.num('waterMl'), { from: 390, to: 410 }, 'ml');
    page.within('Water', values.num('waterC'), { from: 93, to: 101 }, '°C');
    page.within('Time of stirring', t, { from: 175, to: 185 }, 's');
    page.within('Turns of the rod', turns, { from: 0.9, to: 1.1 }, 'a second');
    page.result('coatedPct', coated, 0);
  },
});
