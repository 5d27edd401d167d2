/** Nothing appears and nothing is lost: the line's books sum to zero grams, the plant's own balance to nothing. */
import { truthOf } from '../../../machines/plant/truth.ts';
import type { Checker } from './checker.ts';

const EVERY_TICKS = 600;
/** Rounding of a few hundred thousand additions in floating point, kg. */
const ROUNDING_KG = 1e-6;

export const massChecker = (): Checker => ({
  name: 'mass',
  look: ({ advanced: { world } }) => {
    if (world.tick % EVERY_TICKS !== 0) return null;
    const sum = Object.values(world.line.books).reduce<number>((total, grams) => total + (grams ?? 0), 0);
    if (sum !== 0) return `the books are off by ${sum} g`;
    const errorKg = Math.abs(truthOf(world.plant).errorKg);
    return errorKg > ROUNDING_KG ? `the plant's mass is off by ${errorKg} kg` : null;
  },
});
