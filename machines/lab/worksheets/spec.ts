/** Short ways to describe a field of a worksheet, so that a sheet reads as a list of what is asked. */
import type { FieldSpec } from './sheet.types.ts';

type More = Omit<Partial<FieldSpec>, 'kind' | 'key' | 'label' | 'group'>;

/** A mass in g read to 0.1 g unless said otherwise. */
export const mass = (
  group: string,
  key: string,
  symbol: string,
  label: string,
  more: More = {},
): FieldSpec => ({
  key,
  label,
  symbol,
  unit: 'g',
  group,
  kind: 'mass',
  decimals: 1,
  readabilityG: 0.1,
  ...more,
});

/** A temperature in °C. */
export const temp = (group: string, key: string, label: string, more: More = {}): FieldSpec => ({
  key,
  label,
  unit: '°C',
  group,
  kind: 'temp',
  decimals: 0,
  ...more,
});

/** A percentage from 0 to 100. */
export const percent = (group: string, key: string, label: string, more: More = {}): FieldSpec => ({
  key,
  label,
  unit: '%',
  group,
  kind: 'percent',
  decimals: 1,
  ...more,
});

/** Any other quantity: give its unit and what is possible. */
export const quantity = (
  group: string,
  key: string,
  label: string,
  unit: string,
  from: number,
  to: number,
  more: More = {},
): FieldSpec => ({ key, label, unit, group, kind: 'number', decimals: 1, from, to, ...more });

/** A whole number. */
export const count = (
  group: string,
  key: string,
  label: string,
  from: number,
  to: number,
  more: More = {},
): FieldSpec => ({ key, label, unit: '', group, kind: 'count', decimals: 0, from, to, ...more });

/** One of several, each [what is kept, what is read]. */
export const choice = (
  group: string,
  key: string,
  label: string,
  choices: readonly (readonly [is: string, label: string])[],
  more: More = {},
): FieldSpec => ({
  key,
  label,
  unit: '',
  group,
  kind: 'choice',
  decimals: 0,
  choices: choices.map(([is, words]) => ({ is, label: words })),
  ...more,
});
