/** Coating judged by eye: two people look, each by themselves, and must see nearly the same. */
import type { Page } from './page.ts';
import type { Values } from './read.ts';
import type { FieldSpec } from './sheet.types.ts';
import { percent } from './spec.ts';

/** Two people may differ by so much, points of % (common practice, no source). */
export const MOST_APART_PCT = 10;

/** The two fields of a judgement by eye. */
export const twoEyes = (group: string, of: string): readonly FieldSpec[] => [
  percent(group, 'firstPct', `${of}, first person`, {
    symbol: 'E1',
    decimals: 0,
    hint: 'do not tell the other',
  }),
  percent(group, 'secondPct', `${of}, second person`, { symbol: 'E2', decimals: 0 }),
];

/** The mean of both, or null after refusing two that lie too far apart. */
export const seenByBoth = (label: string, values: Values, page: Page): number | null => {
  const [E1, E2] = [values.num('firstPct'), values.num('secondPct')];
  if (Math.abs(E1 - E2) > MOST_APART_PCT) {
    page.refuse(
      'secondPct',
      `The two differ by more than ${MOST_APART_PCT} points (${E1} and ${E2} %): both look again in daylight, or a third person does, and the two that agree are entered`,
    );
    return null;
  }
  return page.calc(label, 'E = (E1 + E2) ÷ 2', '%', 1);
};
