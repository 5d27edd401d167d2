/** Figures, days and states of the stock as people read them. */
import type { Standing } from '../../../machines/yard/stock/views/bays.ts';
import { formatDayTime, formatTonnes } from '../../format/format.ts';
import type { Shape } from '../../parts/mark.tsx';

/** Below a tonne in kilograms, from there in tonnes. */
export const mass = (kg: number): string => {
  const size = Math.abs(kg);
  if (size >= 999.5) return formatTonnes(kg);
  const digits = size >= 99.95 || Number.isInteger(kg) ? 0 : 1;
  return `${kg.toFixed(digits).replace('-', '−')} kg`;
};

/** The same with its sign, for differences. */
export const difference = (kg: number): string => (kg > 0 ? `+${mass(kg)}` : mass(kg));

/** '2026-04-14T11:02:00' → "14 Apr, 11:02"; a date alone → "14 Apr 2026". */
export const when = formatDayTime;

/** A number as typed, with point or comma and spaces between thousands; NaN when it is none. */
export const numberOf = (text: string): number => {
  const plain = text
    .trim()
    .replaceAll(/[\s\u00a0]/g, '')
    .replace('−', '-');
  if (plain === '') return Number.NaN;
  return Number(/^[+-]?\d+,\d+$/.test(plain) ? plain.replace(',', '.') : plain);
};

export const STANDING: { readonly [S in Standing]: { readonly shape: Shape; readonly words: string } } = {
  'may leave': { shape: 'check', words: 'may leave' },
  'not yet tested': { shape: 'ring', words: 'not yet tested' },
  'on hold': { shape: 'diamond', words: 'on hold' },
  rejected: { shape: 'triangle', words: 'rejected' },
};

/** The lab's own word beside ours, where it says more. */
export const standingWords = (standing: Standing, lab: string): string =>
  standing === lab ? lab : standing === 'may leave' ? lab : `${STANDING[standing].words} (${lab})`;

export const days = (n: number): string => {
  if (n < 1) return 'less than a day';
  const whole = Math.floor(n);
  return `${whole} ${whole === 1 ? 'day' : 'days'}`;
};
