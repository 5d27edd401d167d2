/** Count of coated particles after mixing, three samples. */
import { makeSheet } from './make-sheet.ts';
import { plain, written } from './rounding.ts';
import { choice, count } from './spec.ts';

const SAMPLES = ['1', '2', '3'] as const;

export const particleCount = makeSheet({
  id: 'particle-count',
  test: 'coating',
  title: 'Count of coated particles',
  basis:
    'AASHTO T 195 / ASTM D2489: three samples sieved on 9.5 mm (4.75 mm for finer mix), each particle on the sieve called fully coated or not; % = 100 × fully coated ÷ all. 200 to 500 particles a sample: from memory.',
  cautions: ['Fresh cutback mix gives off solvent: count in moving air, no flame near it.'],
  fields: [
    choice('Sample', 'sieveMm', 'Sieved on', [
      ['9.5', '9.5 mm'],
      ['4.75', '4.75 mm'],
    ]),
    count('Count', 'coated', 'Fully coated, sample', 0, 5000, { symbol: 'F', each: SAMPLES }),
    count('Count', 'counted', 'All particles, sample', 1, 5000, { symbol: 'N', each: SAMPLES }),
  ],
  steps: [
    { title: 'Sample', instruction: 'Three samples at once after mixing, from different places.' },
    { title: 'Sieve', instruction: 'Sieve each at once, while it is warm, without loading the sieve.' },
    {
      title: 'Count',
      instruction: 'A particle with the smallest bare spot is not fully coated. A spot of water is not bare.',
    },
  ],
  leastMinutes: 5,
  work: (values, page) => {
    for (const n of SAMPLES)
      if (values.num(`coated:${n}`) > values.num(`counted:${n}`))
        page.refuse(
          `coated:${n}`,
          `Sample ${n}: more coated than counted (${values.num(`coated:${n}`)} of ${values.num(`counted:${n}`)}): count again`,
        );
    if (page.refused()) return;
    for (const n of SAMPLES) {
      page.calc(`Coated, sample ${n}`, `p${n} = 100 × F${n} ÷ N${n}`, '%', 1);
      const counted = values.num(`counted:${n}`);
      if (counted < 200)
        page.departure(`Sample ${n} has ${counted} particles, the method wants 200 to 500: count more.`);
    }
    page.calc('Fully coated, all three', 'F = F1 + F2 + F3', '', 0);
    const counted = page.calc('Counted, all three', 'N = N1 + N2 + N3', '', 0);
    const pct = page.calc('Coated particles', 'p = 100 × F ÷ N', '%', 1);
    page.result('countCoatedPct', pct, 1);
    const sd = 100 * Math.sqrt(((pct / 100) * (1 - pct / 100)) / counted);
    page.note(
      `Chance of the count alone (binomial): ${written(pct, 1)} ± ${written(2 * sd, 1)} % with ${plain(counted)} particles, two standard deviations.`,
    );
  },
});
