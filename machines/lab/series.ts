/** Results of the lots as the charts take them: one point a lot, in the order the lots were made. */
import { compareLots } from './lots.ts';
import type { LabLot } from './state.ts';
import type { LabelName, Series } from './stats/index.ts';

/** The book's label behind each label of the charts. */
const FROM_BOOK: { readonly [L in LabelName]: string } = {
  operator: 'operator',
  bin: 'bins',
  delivery: 'binder delivery',
  mixVersion: 'mix version',
  scaleZeroed: 'bucket zeroed',
  weather: 'air at opening, °C',
};

/** Air to the nearest five degrees: nobody compares tenths. */
const AIR_STEP_C = 5;
const airWords = (celsius: string): string =>
  celsius === '' ? '' : `about ${Math.round(Number(celsius) / AIR_STEP_C) * AIR_STEP_C} °C`;

/** Points of one property; lots without a result of it are left out. */
export const seriesOf = (
  lots: readonly Pick<LabLot, 'lot' | 'openedAt' | 'results' | 'labels'>[],
  property: string,
): Series =>
  [...lots]
    .sort((a, b) => compareLots(a.lot, b.lot))
    .flatMap(({ lot, openedAt, results, labels }) => {
      const value = results.find((one) => one.property === property)?.value;
      if (value === undefined) return [];
      const named = (Object.entries(FROM_BOOK) as [LabelName, string][]).flatMap(([name, key]) => {
        const said = name === 'weather' ? airWords(labels[key] ?? '') : (labels[key] ?? '');
        return said === '' ? [] : [[name, said] as const];
      });
      return [{ lot, at: openedAt, value, ...Object.fromEntries(named) }];
    });
