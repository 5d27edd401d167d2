/** One property over the lots, as the charts take it, and as a file. Pure. */

import type { Charted, LabelName, Point, Series } from '../../../machines/lab/stats/index.ts';
import type { LotLine } from '../../../machines/lab/view.ts';

/** The book's names of what was so when a lot was made, by the charts' names. */
const FROM_BOOK: { readonly [L in LabelName]?: string } = {
  operator: 'operator',
  delivery: 'binder delivery',
  mixVersion: 'mix version',
  scaleZeroed: 'bucket zeroed',
  weather: 'air at opening, °C',
};
/** Air to the nearest five degrees: nobody compares tenths. */
const AIR_STEP_C = 5;

const airWords = (celsius: string): string => {
  const value = Number(celsius);
  if (celsius === '' || !Number.isFinite(value)) return '';
  return `about ${Math.round(value / AIR_STEP_C) * AIR_STEP_C} °C`;
};

export function pointOf(lot: LotLine, property: string): Point | null {
  const result = lot.results.find((one) => one.property === property);
  if (result === undefined) return null;
  const labels: { [L in LabelName]?: string } = {};
  for (const [name, key] of Object.entries(FROM_BOOK) as [LabelName, string][]) {
    const value = lot.labels[key] ?? '';
    const said = name === 'weather' ? airWords(value) : value;
    if (said !== '') labels[name] = said;
  }
  return { lot: lot.lot, at: lot.openedAt, value: result.value, ...labels };
}

/** Lots with that property, oldest first. Those still without a result are left out. */
export const seriesOf = (lots: readonly LotLine[], property: string): Series =>
  [...lots].reverse().flatMap((lot) => pointOf(lot, property) ?? []);

/** Every property any lot has a result of, the residual binder first. */
export function propertiesOf(lots: readonly LotLine[]): readonly string[] {
  const names = new Set(lots.flatMap(({ results }) => results.map(({ property }) => property)));
  const first = ['residualBinderMixPct', 'residualBinderAggPct'].filter((name) => names.has(name));
  return [...first, ...[...names].filter((name) => !first.includes(name))];
}

const quoted = (text: string): string => {
  // A cell that begins like a formula is read as one by spreadsheets.
  const safe = /^[=+\-@]/.test(text) && !/^-?\d+(\.\d+)?$/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
};
const LABELS: readonly LabelName[] = ['operator', 'delivery', 'mixVersion', 'scaleZeroed', 'weather'];

/** Everything drawn, one row a lot (RFC 4180). */
export function csvOf(charted: Charted, property: string): string {
  const { lots, individuals, ewma, cusum, signals } = charted;
  const head = [
    'lot',
    'opened',
    property,
    'moving range',
    'ewma',
    'ewma lower',
    'ewma upper',
    'cusum high',
    'cusum low',
    'signals',
    ...LABELS,
  ];
  const figure = (value: number | undefined): string =>
    value === undefined || Number.isNaN(value) ? '' : String(Number(value.toPrecision(9)));
  const rows = lots.map((point, i) => [
    point.lot,
    point.at,
    figure(point.value),
    i === 0 ? '' : figure(individuals.ranges[i - 1]),
    figure(ewma.values[i]),
    figure(ewma.lower[i]),
    figure(ewma.upper[i]),
    figure(cusum.high[i]),
    figure(cusum.low[i]),
    signals
      .filter(({ lot }) => lot === point.lot)
      .map(({ chart, rule }) => `${chart}: ${rule}`)
      .join('; '),
    ...LABELS.map((name) => point[name] ?? ''),
  ]);
  return `${[head, ...rows].map((row) => row.map(quoted).join(',')).join('\r\n')}\r\n`;
}
