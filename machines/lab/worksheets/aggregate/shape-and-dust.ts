/** Flakiness and elongation, fractured faces, and cleanliness by sand equivalent. */
import { plain } from '../rounding.ts';
import { choice, mass, quantity } from '../spec.ts';
import type { AggregatePart } from './part.types.ts';

export const shape: AggregatePart = {
  basis:
    'IS 2386 part 1, combined as road specifications do: flaky stone out of all, elongated out of what is not flaky, both added (from memory).',
  fields: [
    mass('Shape', 'shapeG', 'W', 'Stone gauged'),
    mass('Shape', 'flakyG', 'F', 'Flaky'),
    mass('Shape', 'elongatedG', 'E', 'Elongated, of what is not flaky'),
  ],
  work: (values, page) => {
    const [W, F, E] = [values.num('shapeG'), values.num('flakyG'), values.num('elongatedG')];
    if (W === 0) page.refuse('shapeG', 'Stone gauged is 0 g: weigh it');
    if (F > W) page.refuse('flakyG', 'More is flaky than was gauged: weigh again');
    else if (E > W - F)
      page.refuse(
        'elongatedG',
        'More is elongated than is not flaky: gauge only what is not flaky for length',
      );
    if (page.refused()) return;
    page.calc('Flaky', 'Fi = 100 × F ÷ W', '%', 1);
    // All of it flaky leaves nothing to gauge for length.
    if (F === W) page.put('Ei', 0);
    else page.calc('Elongated, of what is not flaky', 'Ei = 100 × E ÷ (W − F)', '%', 1);
    page.result('flakinessElongationPct', page.calc('Combined', 'S = Fi + Ei', '%', 1), 1);
  },
};

export const fractured: AggregatePart = {
  basis: 'ASTM D5821 by mass: fractured ÷ (fractured + not fractured).',
  fields: [
    choice('Faces', 'faces', 'Counted as fractured with', [
      ['1', 'One face or more'],
      ['2', 'Two faces or more'],
    ]),
    mass('Faces', 'fracturedG', 'F', 'Fractured'),
    mass('Faces', 'unfracturedG', 'N', 'Not fractured'),
  ],
  work: (values, page) => {
    const [F, N] = [values.num('fracturedG'), values.num('unfracturedG')];
    if (F + N === 0) return page.refuse('fracturedG', 'Both masses are 0 g: weigh the two heaps');
    page.result('fracturedPct', page.calc('Fractured', 'p = 100 × F ÷ (F + N)', '%', 1), 1);
    page.note(
      `Counted with ${values.text('faces') === '1' ? 'one fractured face' : 'two fractured faces'} or more.`,
    );
  },
};

const CYLINDERS = ['1', '2'] as const;

export const cleanliness: AggregatePart = {
  basis:
    'ASTM D2419 / AASHTO T 176: sand reading ÷ clay reading, each cylinder rounded up to the next whole, then the mean rounded up (from memory).',
  fields: [
    quantity('Cylinders', 'clayMm', 'Clay reading, cylinder', 'mm', 1, 400, {
      symbol: 'C',
      each: CYLINDERS,
      decimals: 0,
    }),
    quantity('Cylinders', 'sandMm', 'Sand reading, cylinder', 'mm', 1, 400, {
      symbol: 'S',
      each: CYLINDERS,
      decimals: 0,
    }),
  ],
  work: (values, page) => {
    for (const n of CYLINDERS)
      if (values.num(`sandMm:${n}`) > values.num(`clayMm:${n}`))
        page.refuse(
          `sandMm:${n}`,
          `Cylinder ${n}: sand (${plain(values.num(`sandMm:${n}`))} mm) stands above the clay (${plain(values.num(`clayMm:${n}`))} mm): sand settles below it; look whether the readings were exchanged`,
        );
    if (page.refused()) return;
    const [first, second] = CYLINDERS.map((n) => {
      const exact = page.calc(
        `Sand equivalent, cylinder ${n} (goes up to the next whole)`,
        `e${n} = 100 × S${n} ÷ C${n}`,
        '%',
        1,
      );
      const whole = Math.ceil(exact - 1e-9);
      page.put(`E${n}`, whole);
      return whole;
    }) as [number, number];
    const mean = page.calc('Mean of both (goes up to the next whole)', 'E = (E1 + E2) ÷ 2', '%', 1);
    page.result('sandEquivalentPct', Math.ceil(mean - 1e-9), 0);
    if (Math.abs(first - second) > 4)
      page.departure('The two cylinders differ by more than 4: repeat with fresh portions.');
  },
};
