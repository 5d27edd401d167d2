/** Bond in shear between two halves of a Marshall specimen with tack between them. */
import { makeSheet } from './make-sheet.ts';
import { choice, count, mass, quantity, temp } from './spec.ts';

/** 1 kg force on 1 cm² in MPa: 9.80665 N on 100 mm². */
export const MPA_PER_KG_CM2 = 0.098_066_5;

/** 1 kgf is 9.80665 N. */
const IN_KGF: Readonly<Record<string, string>> = {
  kgf: 'F = L',
  N: 'F = L ÷ 9.80665',
  kN: 'F = 1000 × L ÷ 9.80665',
};

const LOADED = { key: 'parted', is: ['at the joint', 'in the mix'] } as const;

export const bond = makeSheet({
  id: 'bond',
  test: 'bond',
  title: 'Bond in shear',
  basis:
    'Two-part Marshall specimen of 101.6 mm: lower half 50 blows, tack, upper half 50 blows, 24 h, sheared along the joint; bond = load ÷ area, at least 2 kg/cm². Common practice, no source; 1 kg/cm² = 0.0980665 MPa by the definition of kgf.',
  cautions: [
    'Hammer of 4.5 kg: hands away from the mould, hammer on its guide.',
    'Press: guard shut, specimens burst sideways.',
    'Tack of cutback: no flame.',
  ],
  fields: [
    quantity('Specimen', 'diameterMm', 'Diameter', 'mm', 90, 160, { symbol: 'd' }),
    count('Specimen', 'blowsLower', 'Blows, lower half', 0, 200),
    count('Specimen', 'blowsUpper', 'Blows, upper half', 0, 200),
    mass('Specimen', 'tackG', 'T', 'Tack between the halves', {
      optional: true,
      decimals: 2,
      readabilityG: 0.01,
    }),
    quantity('Specimen', 'stoodH', 'Stood', 'h', 0, 240),
    temp('Shear', 'testC', 'Specimen', { from: -20, to: 80 }),
    choice('Shear', 'parted', 'It parted', [
      ['at the joint', 'At the joint'],
      ['in the mix', 'In the mix itself'],
      ['before loading', 'Before it was loaded'],
    ]),
    choice(
      'Shear',
      'loadUnit',
      'Load read in',
      [
        ['kgf', 'kgf'],
        ['N', 'N'],
        ['kN', 'kN'],
      ],
      { when: LOADED },
    ),
    quantity('Shear', 'load', 'Largest load', '', 0, 100_000, { symbol: 'L', when: LOADED }),
  ],
  steps: [
    { title: 'Lower half', instruction: 'Half the mix into the mould, 50 blows.' },
    { title: 'Tack', instruction: 'Brush tack on the face and let it turn tacky.', seconds: 900 },
    { title: 'Upper half', instruction: 'The other half on top, 50 blows.' },
    {
      title: 'Stand',
      instruction: 'Leave the specimen in the mould, then push it out.',
      tempC: 25,
      seconds: 24 * 3600,
    },
    {
      title: 'Shear',
      instruction: 'Load along the joint at a steady rate until it parts; read the largest load.',
    },
  ],
  leastMinutes: 24 * 60,
  work: (values, page) => {
    const loaded = values.text('parted') !== 'before loading';
    if (loaded && values.num('load') === 0)
      return page.refuse(
        'load',
        'Largest load is 0: read the dial again; if the halves parted by themselves choose "Before it was loaded"',
      );
    page.calc('Area of the joint', 'A = π × d × d ÷ 400', 'cm²', 2);
    if (values.has('tackG')) page.calc('Tack on the joint', 'q = 10 × T ÷ A', 'kg/m²', 2);
    if (loaded) page.calc('Load in kgf', IN_KGF[values.text('loadUnit')] as string, 'kgf', 1);
    else page.put('F', 0);
    const kgCm2 = page.calc('Bond', 'B = F ÷ A', 'kg/cm²', 2);
    if (kgCm2 > 30)
      return page.refuse(
        'load',
        'Bond above 30 kg/cm² is more than mix of this kind can bear: look whether the load is in the unit that was chosen',
      );
    const mPa = page.calc('The same in MPa', `Bm = B × ${MPA_PER_KG_CM2}`, 'MPa', 3);
    page.result('bondKgCm2', kgCm2, 2);
    page.result('bondMPa', mPa, 3);
    if (!loaded) page.note('The halves parted before they were loaded: bond is none.');
    if (values.text('parted') === 'in the mix')
      page.note('It parted in the mix, not at the joint: the bond is at least this.');
    page.within('Diameter', values.num('diameterMm'), { from: 101, to: 102.2 }, 'mm');
    page.within('Blows on the lower half', values.num('blowsLower'), { from: 50, to: 50 }, '');
    page.within('Blows on the upper half', values.num('blowsUpper'), { from: 50, to: 50 }, '');
    page.within('Time stood', values.num('stoodH'), { from: 23, to: 25 }, 'h');
    page.within('Specimen', values.num('testC'), { from: 23, to: 27 }, '°C');
  },
});
