/** Sieve analysis, washed or dry: % passing each sieve. */
import { sievesOf } from './fields.ts';
import { makeSheet, refuseMoreThanSample } from './make-sheet.ts';
import type { Page } from './page.ts';
import { passingOf } from './properties.ts';
import type { Values } from './read.ts';
import { plain, written } from './rounding.ts';
import {
  FURTHER_SIEVING_PCT,
  leastDryG,
  overloadG,
  reportedPlaces,
  SIEVING_LOSS_PCT,
  type SieveDiameter,
} from './sieve-rules.ts';
import { choice, count, mass, percent } from './spec.ts';

type Held = { readonly sieveMm: number; readonly key: string; readonly grams: number };

/** The sieve that all stone passes, or the coarsest when it holds some back; null when no sieve holds any. */
const largestSizeMm = (held: readonly Held[]): number | null => {
  const i = held.findIndex(({ grams }) => grams > 0);
  return i < 0 ? null : (held[Math.max(0, i - 1)]?.sieveMm ?? null);
};

const heldOn = (values: Values, sieves: readonly number[]): readonly Held[] =>
  sieves.map((sieveMm) => ({
    sieveMm,
    key: `retainedG:${sieveMm}`,
    grams: values.num(`retainedG:${sieveMm}`),
  }));

const refuseImpossible = (
  page: Page,
  held: readonly Held[],
  dryG: number,
  onSievesG: number,
  panG: number,
): void => {
  for (const { key, sieveMm, grams } of held)
    if (grams > onSievesG)
      page.refuse(
        key,
        `Retained on ${sieveMm} mm: ${plain(grams)} g is more than was put on the sieves (${plain(onSievesG)} g): weigh it again, without the sieve`,
      );
  if (page.refused()) return;
  if (onSievesG > dryG)
    page.refuse(
      'washedG',
      'Dry mass after washing is more than before: washing adds nothing; dry to constant mass and weigh again',
    );
  if (onSievesG === 0) page.refuse('dryG', 'Dry mass before washing is 0 g: weigh the sample');
  if (page.refused()) return;
  const sumG = held.reduce((sum, { grams }) => sum + grams, panG);
  const lostPct = (100 * (onSievesG - sumG)) / onSievesG;
  // Binary sums are a little off: a loss of exactly 0.3 % is still allowed.
  if (Math.abs(lostPct) <= SIEVING_LOSS_PCT + 1e-9) return;
  page.refuse(
    null,
    lostPct > 0
      ? `Sieves and pan hold ${written(sumG, 1)} g of ${written(onSievesG, 1)} g: ${written(lostPct, 2)} % was lost, at most 0.3 % may be (ASTM C136): brush the sieves and weigh again, or sieve a new portion`
      : `Sieves and pan hold ${written(sumG, 1)} g, more than the ${written(onSievesG, 1)} g put on them (by ${written(-lostPct, 2)} %, at most 0.3 % is allowed): look for a wrong reading, or stones left in a sieve from before`,
  );
};

const lookAtLoads = (values: Values, page: Page, held: readonly Held[]): void => {
  const diameter = values.text('sieveMm') as SieveDiameter;
  const portions = values.num('portions');
  for (const { sieveMm, grams } of held) {
    const most = overloadG(sieveMm, diameter) * portions;
    if (grams > most)
      page.departure(
        `${sieveMm} mm was overloaded: ${plain(grams)} g lay on it, at most ${written(most, 0)} g may on a ${diameter} mm sieve${portions > 1 ? ` in ${portions} portions` : ''}: sieve in portions, put a sieve between, or take larger sieves`,
      );
  }
};

export const sieve = makeSheet({
  id: 'sieve',
  test: 'gradation',
  title: 'Sieve analysis',
  basis:
    'ASTM C136 / AASHTO T 27 with washing by ASTM C117 / AASHTO T 11: base is the dry mass before washing; mass lost in sieving at most 0.3 %; computed to 0.1 %, reported whole, 75 µm to 0.1 % below 10 %. Least masses from memory.',
  cautions: [
    'Aggregate from extraction must be free of solvent before it comes into the oven.',
    'Dust: mask, or sieve under the hood.',
  ],
  fields: [
    choice('Sample', 'of', 'Aggregate from', [
      ['stockpile', 'Stockpile or bin'],
      ['extraction', 'Extracted from mix'],
      ['ignition', 'Ignition of mix'],
    ]),
    mass('Washing', 'dryG', 'W0', 'Dry mass before washing', { hint: 'the base of every percentage' }),
    mass('Washing', 'washedG', 'W1', 'Dry mass after washing', {
      optional: true,
      hint: 'leave empty when it was not washed',
    }),
    choice('Sieving', 'sieveMm', 'Sieves', [
      ['203', '203 mm (8 in)'],
      ['305', '305 mm (12 in)'],
    ]),
    count('Sieving', 'portions', 'Sieved in portions', 1, 10, { hint: '1 when all at once' }),
    mass('Sieving', 'retainedG', 'R', 'Retained', { each: 'sieve' }),
    mass('Sieving', 'panG', 'Rp', 'Pan'),
    percent('Sieving', 'furtherPct', 'Passed in one more minute by hand', {
      optional: true,
      hint: 'of the mass on that sieve; the worst sieve, at most 0.5 %',
    }),
  ],
  steps: [
    { title: 'Dry', instruction: 'Dry to constant mass and weigh.', tempC: 110 },
    {
      title: 'Wash',
      instruction: 'Wash over 1.18 mm and 75 µm until the water is clear; dry; weigh.',
      tempC: 110,
    },
    { title: 'Sieve', instruction: 'Shake the nest, weigh what each sieve holds and the pan.', seconds: 600 },
    {
      title: 'Check',
      instruction: 'One minute by hand over the fullest sieve: at most 0.5 % may still pass.',
      seconds: 60,
    },
  ],
  leastMinutes: 20,
  work: (values, page, context) => {
    const sieves = sievesOf(context);
    if (sieves.length === 0)
      return page.refuse(null, 'No sieves are named: give the specification its sieves');
    const dryG = values.num('dryG');
    const washedG = values.opt('washedG');
    const onSievesG = washedG ?? dryG;
    const panG = values.num('panG');
    const held = heldOn(values, sieves);
    if (panG > onSievesG)
      page.refuse(
        'panG',
        `Pan: ${plain(panG)} g is more than was put on the sieves (${plain(onSievesG)} g): weigh it again`,
      );
    refuseImpossible(page, held, dryG, onSievesG, panG);
    refuseMoreThanSample(page, 'dryG', 'Dry mass before washing', dryG, context);
    if (page.refused()) return;

    if (washedG === null) {
      page.note('Sieved dry, not washed: what passes 75 µm is less than is there.');
      page.put('W1', dryG);
    } else page.calc('Wash loss', 'Lw = 100 × (W0 − W1) ÷ W0', '%', 2);
    held.forEach(({ sieveMm }, i) => {
      const n = i + 1;
      page.calc(
        `Retained on ${sieveMm} mm and coarser`,
        n === 1 ? 'C1 = R1' : `C${n} = C${i} + R${n}`,
        'g',
        1,
      );
      const passing = page.calc(`Passing ${sieveMm} mm`, `P${n} = 100 × (W0 − C${n}) ÷ W0`, '%', 1);
      // A gain within the 0.3 % allowed must not give a negative percentage.
      const possible = Math.max(0, passing);
      page.result(passingOf(sieveMm), possible, 1, reportedPlaces(sieveMm, possible));
    });
    page.calc('Lost in sieving', `Ls = 100 × (W1 − C${held.length} − Rp) ÷ W1`, '%', 2);
    lookAtLoads(values, page, held);
    const furtherPct = values.opt('furtherPct');
    if (furtherPct === null)
      page.note('Whether more would pass in another minute by hand was not checked (at most 0.5 % may).');
    else if (furtherPct > FURTHER_SIEVING_PCT)
      page.departure(
        `${plain(furtherPct)} % still passed in one more minute, at most 0.5 % may (ASTM C136): sieve on and weigh again`,
      );
    const sizeMm = largestSizeMm(held);
    if (sizeMm !== null && dryG < leastDryG(sizeMm))
      page.note(
        `${plain(dryG)} g is less than the ${plain(leastDryG(sizeMm))} g wanted for stone up to ${sizeMm} mm (from memory): the result scatters more`,
      );
  },
});
