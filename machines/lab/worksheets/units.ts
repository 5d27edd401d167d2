/** Text typed into a number field: a plain number, or the number with its unit; another unit is refused with words. */
import { plain } from './rounding.ts';

export type Typed =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly message: string };

/** Units people write, by what they measure, each in the first unit of its row. */
const FAMILIES: readonly Readonly<Record<string, number>>[] = [
  { g: 1, kg: 1000, mg: 0.001, t: 1_000_000, lb: 453.592_37, oz: 28.349_523_125 },
  { ml: 1, l: 1000, cl: 10, 'cm³': 1, cc: 1 },
  { s: 1, min: 60, h: 3600 },
  { mm: 1, cm: 10, m: 1000, in: 25.4 },
  { n: 1, kn: 1000, kgf: 9.806_65 },
];

/** Spellings of one unit. */
const SPELT: Readonly<Record<string, string>> = {
  gram: 'g',
  grams: 'g',
  gm: 'g',
  kilo: 'kg',
  kilos: 'kg',
  kgs: 'kg',
  litre: 'l',
  litres: 'l',
  sec: 's',
  seconds: 's',
  minutes: 'min',
  minute: 'min',
  hours: 'h',
  hour: 'h',
  hrs: 'h',
  c: '°c',
  degc: '°c',
  f: '°f',
  degf: '°f',
  percent: '%',
};

const NUMBER = /^([+\-−]?)(\d+(?:\.\d+)?|\.\d+)\s*(\S.*)?$/;

const spelling = (unit: string): string => {
  const low = unit.trim().toLowerCase();
  return SPELT[low] ?? low;
};

/** The same quantity in the unit asked for, or null when the units measure different things. */
const converted = (value: number, from: string, to: string): number | null => {
  if (from === '°f' && to === '°c') return ((value - 32) * 5) / 9;
  for (const family of FAMILIES) {
    const [a, b] = [family[from], family[to]];
    if (a !== undefined && b !== undefined) return (value * a) / b;
  }
  return null;
};

/** Number typed into a field whose unit is `unit`. Never guesses: another unit is told, with what to enter instead. */
export const typedNumber = (text: string, unit: string): Typed => {
  const asked = unit === '' ? 'a plain number' : `a number in ${unit}`;
  const trimmed = text.trim();
  if (/^[+\-−]?\d{1,3}(?:[.\s]?\d{3})*,\d+/.test(trimmed) || /^[+\-−]?\d+,\d+/.test(trimmed))
    return {
      ok: false,
      message: `"${trimmed}" has a comma: write the decimal with a point, thousands without a mark`,
    };
  const found = NUMBER.exec(trimmed);
  if (found === null) return { ok: false, message: `"${trimmed}" is not a number: enter ${asked}` };
  const value = Number(found[2]) * (found[1] === '-' || found[1] === '−' ? -1 : 1);
  const given = found[3];
  if (given === undefined) return { ok: true, value };
  if (unit !== '' && spelling(given) === spelling(unit)) return { ok: true, value };
  if (unit === '')
    return { ok: false, message: `"${trimmed}" has a unit where none belongs: enter ${asked}` };
  const other = converted(value, spelling(given), spelling(unit));
  return {
    ok: false,
    message:
      other === null
        ? `"${trimmed}" is not in ${unit}: enter ${asked}`
        : `"${trimmed}" is not in ${unit}: if ${trimmed} is right, enter ${plain(other)}`,
  };
};
