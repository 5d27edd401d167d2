/** Aggregate impact value and loss in the abrasion drum. */
import { written } from '../rounding.ts';
import { choice, count, mass } from '../spec.ts';
import type { AggregatePart } from './part.types.ts';

/** Steel balls of the drum by grading of the sample (ASTM C131, from memory). */
const BALLS: Readonly<Record<string, number>> = { A: 12, B: 11, C: 8, D: 6 };

export const impact: AggregatePart = {
  basis: 'IS 2386 part 4, 15 blows, what passes 2.36 mm ÷ all; what is lost at most 1 g (from memory).',
  fields: [
    mass('Impact', 'impactG', 'A', 'Stone in the cup'),
    mass('Impact', 'impactPassingG', 'B', 'Passing 2.36 mm after the blows'),
    mass('Impact', 'impactRetainedG', 'C', 'Retained on 2.36 mm'),
    count('Impact', 'impactBlows', 'Blows', 0, 50),
  ],
  work: (values, page) => {
    const [A, B] = [values.num('impactG'), values.num('impactPassingG')];
    if (A === 0) return page.refuse('impactG', 'Stone in the cup is 0 g: weigh it');
    if (B > A) return page.refuse('impactPassingG', 'More passes 2.36 mm than was in the cup: weigh again');
    const lost = page.calc('Lost', 'L = A − B − C', 'g', 1);
    if (Math.abs(lost) > 1 + 1e-9)
      return page.refuse(
        'impactRetainedG',
        `The two parts differ from the stone put in by ${written(Math.abs(lost), 1)} g, at most 1 g may be lost: do the test again with fresh stone`,
      );
    page.result('impactPct', page.calc('Impact value', 'I = 100 × B ÷ A', '%', 1), 1);
    page.within('Blows', values.num('impactBlows'), { from: 15, to: 15 }, '');
  },
};

export const abrasion: AggregatePart = {
  basis: 'ASTM C131, 500 turns, loss through 1.70 mm ÷ mass put in; balls by grading from memory.',
  fields: [
    choice('Drum', 'drumGrading', 'Grading of the sample', [
      ['A', 'A'],
      ['B', 'B'],
      ['C', 'C'],
      ['D', 'D'],
    ]),
    count('Drum', 'drumBalls', 'Steel balls', 0, 20),
    count('Drum', 'drumTurns', 'Turns', 0, 2000),
    mass('Drum', 'drumBeforeG', 'W1', 'Stone put in', { decimals: 0, readabilityG: 1 }),
    mass('Drum', 'drumAfterG', 'W2', 'Retained on 1.70 mm, washed and dry', { decimals: 0, readabilityG: 1 }),
  ],
  work: (values, page) => {
    const [W1, W2] = [values.num('drumBeforeG'), values.num('drumAfterG')];
    if (W1 === 0) return page.refuse('drumBeforeG', 'Stone put in is 0 g: weigh it');
    if (W2 > W1)
      return page.refuse(
        'drumAfterG',
        'More stone came out of the drum than went in: dry it and weigh again',
      );
    page.result('abrasionPct', page.calc('Loss', 'L = 100 × (W1 − W2) ÷ W1', '%', 1), 1);
    const balls = BALLS[values.text('drumGrading')] as number;
    page.within('Number of steel balls', values.num('drumBalls'), { from: balls, to: balls }, '');
    page.within('Turns', values.num('drumTurns'), { from: 500, to: 500 }, '');
    page.within('Stone put in', W1, { from: 4950, to: 5050 }, 'g');
  },
};
