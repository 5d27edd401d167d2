/** Several results of a lot as one point: charts over lots take means, so that a lot counts once. */
import { mean } from './describe.ts';
import { LABELS, type Point, type Series } from './series.types.ts';

/** One point a lot, in the order lots first appear; a label the results of a lot differ in is left out. */
export const lotMeans = (series: Series): Series => {
  const lots = new Map<string, Point[]>();
  for (const point of series) lots.set(point.lot, [...(lots.get(point.lot) ?? []), point]);
  return [...lots.entries()].map(([lot, points]): Point => {
    const first = points[0] as Point;
    const labels = LABELS.flatMap((name) => {
      const value = first[name];
      return value !== undefined && points.every((one) => one[name] === value) ? [[name, value]] : [];
    });
    return { lot, at: first.at, value: mean(points.map((one) => one.value)), ...Object.fromEntries(labels) };
  });
};
