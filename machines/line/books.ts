/** The books: integer grams moved between accounts, so that nothing is lost between weighing and bay. */
import type { Account } from './facts.ts';
import type { Work } from './work.ts';
import { tell } from './work.ts';

export const toGrams = (kg: number): number => Math.round(kg * 1000);

/** Moves grams (whole, not negative) and tells it. 'materials' goes negative by what was taken. */
export const moveMass = (work: Work, from: Account, to: Account, grams: number, material: string): void => {
  if (!Number.isInteger(grams) || grams < 0) throw new Error(`cannot book ${grams} g of ${material}`);
  if (grams === 0) return;
  const { line } = work;
  line.books = {
    ...line.books,
    [from]: (line.books[from] ?? 0) - grams,
    [to]: (line.books[to] ?? 0) + grams,
  };
  tell(work, { is: 'massMoved', from, to, grams, material });
};

/** Brings an account to what its scale shows, from or back to materials. */
export const trueUp = (work: Work, account: Account, scaleKg: number, material: string): void => {
  const shown = Math.max(0, toGrams(scaleKg));
  const booked = work.line.books[account] ?? 0;
  if (shown > booked) moveMass(work, 'materials', account, shown - booked, material);
  else if (shown < booked) moveMass(work, account, 'materials', booked - shown, material);
};

/** All that is in one account goes to another. */
export const moveAll = (work: Work, from: Account, to: Account, material: string): number => {
  const grams = Math.max(0, work.line.books[from] ?? 0);
  moveMass(work, from, to, grams, material);
  return grams;
};
