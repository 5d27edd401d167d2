/** Which properties there are to chart, and what is drawn as a file. Pure. */

import type { Charted, LabelName } from '../../../machines/lab/stats/index.ts';
import type { LotLine } from '../../../machines/lab/view.ts';

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
const LABELS: readonly LabelName[] = ['operator', 'bin', 'delivery', 'mixVersion', 'scaleZeroed', 'weather'];

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
