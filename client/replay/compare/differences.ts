/** What differs between two moments of a shift: instruments, outputs, chart states, in words. */
import { TAG_NAMES, TAGS } from '../../../machines/field/tags.ts';
import type { LineView } from '../../../machines/line/view.types.ts';
import { plainWords } from '../../records/words.ts';

export type Row = {
  readonly key: string;
  readonly label: string;
  readonly a: string;
  readonly b: string;
  /** b less a with its unit, or '' where it is no quantity. */
  readonly change: string;
  readonly differs: boolean;
};

const digitsOf = (interval: number): number => Math.max(0, -Math.floor(Math.log10(interval) + 1e-9));

const signed = (text: string): string => text.replace('-', '−');

const readingRows = (a: LineView, b: LineView): readonly Row[] =>
  TAG_NAMES.map((tag) => {
    const { label, unit, interval, kind } = TAGS[tag];
    const [x, y] = [a.plant.readings[tag], b.plant.readings[tag]];
    const digits = digitsOf(interval);
    const words = (value: number): string =>
      kind === 'switch' ? (value === 1 ? 'yes' : 'no') : signed(`${value.toFixed(digits)} ${unit}`);
    const by = y - x;
    return {
      key: tag,
      label,
      a: words(x),
      b: words(y),
      change: kind === 'switch' || x === y ? '' : `${by > 0 ? '+' : ''}${signed(by.toFixed(digits))} ${unit}`,
      differs: x !== y,
    };
  });

const outputWords = (value: unknown): string =>
  typeof value === 'boolean'
    ? value
      ? 'on'
      : 'off'
    : typeof value === 'number'
      ? String(value)
      : plainWords(String(value));

const outputRows = (a: LineView, b: LineView): readonly Row[] =>
  Object.keys(a.plant.outputs).map((key) => {
    const [x, y] = [a, b].map((view) => (view.plant.outputs as unknown as { [name: string]: unknown })[key]);
    return {
      key: `out ${key}`,
      label: plainWords(key.charAt(0).toUpperCase() + key.slice(1)),
      a: outputWords(x),
      b: outputWords(y),
      change: '',
      differs: x !== y,
    };
  });

/** The innermost states, without the name of the chart before them. */
const stateWords = (active: readonly string[]): string =>
  active
    .filter((node) => !active.some((other) => other.startsWith(`${node}.`)))
    .map((node) => plainWords(node.split('.').at(-1) ?? node))
    .join(', ');

const chartRows = (a: LineView, b: LineView): readonly Row[] =>
  a.charts.map((chart) => {
    const other = b.charts.find(({ id }) => id === chart.id);
    const [x, y] = [stateWords(chart.active), stateWords(other?.active ?? [])];
    const name = chart.id.startsWith('alarm:')
      ? `alarm ${chart.id.slice(6).replaceAll('-', ' ')}`
      : plainWords(chart.id);
    return {
      key: `chart ${chart.id}`,
      label: name.charAt(0).toUpperCase() + name.slice(1),
      a: x,
      b: y,
      change: '',
      differs: x !== y,
    };
  });

export type Section = { readonly title: string; readonly rows: readonly Row[] };

export const differencesOf = (a: LineView, b: LineView): readonly Section[] => [
  { title: 'Instruments', rows: readingRows(a, b) },
  { title: 'What the plant was asked to do', rows: outputRows(a, b) },
  { title: 'Chart states', rows: chartRows(a, b) },
];
