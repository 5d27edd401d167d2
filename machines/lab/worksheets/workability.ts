/** Workability in the cold: does a cooled cake of mix break up under a spatula. */
import { makeSheet, refuseMoreThanSample } from './make-sheet.ts';
import { choice, mass, quantity, temp } from './spec.ts';

export const workability = makeSheet({
  id: 'workability',
  test: 'workability',
  title: 'Workability in the cold',
  basis:
    'About 2.5 kg of mix kept at −7 °C, then broken up with a spatula of 200 mm. Common practice, no source; overnight as cold-time and ±2 °C in the middle are chosen here.',
  cautions: [
    'A freezer is full of relays: mix with solvent goes in only in a closed, vapour-tight box, or into a spark-free freezer.',
    'Cold metal and a slipping spatula: gloves.',
  ],
  fields: [
    mass('Sample', 'portionG', 'M', 'Mix', { decimals: 0, readabilityG: 1 }),
    quantity('Cold', 'coldH', 'In the cold', 'h', 0, 240),
    temp('Cold', 'cabinetC', 'Cabinet', { from: -40, to: 30 }),
    temp('Cold', 'middleC', 'Middle of the cake', {
      from: -40,
      to: 30,
      decimals: 1,
      hint: 'just before it is broken',
    }),
    choice('Breaking', 'spatula', 'Broken with', [
      ['200 mm', 'Spatula of 200 mm'],
      ['other', 'Something else'],
    ]),
    choice('Breaking', 'broke', 'It broke up', [
      ['readily', 'Readily'],
      ['with effort', 'With effort, then workable'],
      ['no', 'No: lumps stay'],
    ]),
    quantity('Breaking', 'breakUpS', 'Time to break it up', 's', 1, 1800, {
      symbol: 't',
      decimals: 0,
      when: { key: 'broke', is: ['readily', 'with effort'] },
    }),
  ],
  steps: [
    {
      title: 'Fill',
      instruction:
        'About 2.5 kg of mix into the flat tray, level, not pressed; probe in the middle; close it.',
    },
    {
      title: 'Cold',
      instruction: 'Overnight in the cold, until the middle stands at −7 °C.',
      tempC: -7,
      seconds: 16 * 3600,
    },
    {
      title: 'Break',
      instruction: 'Out of the cold and at once: break it up with the 200 mm spatula. Photograph the cake.',
      seconds: 60,
    },
  ],
  leastMinutes: 240,
  work: (values, page, context) => {
    const M = values.num('portionG');
    if (M === 0) return page.refuse('portionG', 'Mix is 0 g: weigh about 2.5 kg');
    if (values.num('middleC') < values.num('cabinetC') - 3)
      page.refuse(
        'middleC',
        'The middle of the cake cannot be colder than the cabinet: read both thermometers again',
      );
    refuseMoreThanSample(page, 'portionG', 'Mix', M, context);
    if (page.refused()) return;
    page.calc('Mix', 'm = M ÷ 1000', 'kg', 2);
    page.within('Mix', M, { from: 2250, to: 2750 }, 'g');
    page.within('Middle of the cake', values.num('middleC'), { from: -9, to: -5 }, '°C');
    if (values.num('coldH') < 4)
      page.departure(
        'In the cold for less than 4 h: 2.5 kg are hardly cold to the middle; leave it overnight.',
      );
    if (values.text('spatula') === 'other')
      page.departure('Not broken with the 200 mm spatula: repeat with it.');
    const broke = values.text('broke');
    page.result('workable', broke === 'no' ? 0 : 1, 0);
    if (broke !== 'no') page.result('breakUpS', values.num('breakUpS'), 0);
    if (broke === 'with effort')
      page.note('It broke up only with effort: counted as workable, watch the next lots.');
  },
});
