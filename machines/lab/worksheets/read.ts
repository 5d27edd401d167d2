/** Readings of a worksheet looked at one by one: what they say as numbers, choices and times, or why they cannot be. */
import { allKeysOf, fieldsOf, isEmpty } from './fields.ts';
import { secondsOf, spokenTime } from './plant-time.ts';
import { plain } from './rounding.ts';
import type { FieldSpec, Readings, Refusal, SheetContext } from './sheet.types.ts';
import { typedNumber } from './units.ts';

/** Readings that passed: `num` and `text` throw when the sheet asks for what it has not required (a sheet's mistake). */
export type Values = {
  readonly num: (key: string) => number;
  readonly opt: (key: string) => number | null;
  readonly text: (key: string) => string;
  readonly has: (key: string) => boolean;
};

export type Read =
  | { readonly ok: true; readonly values: Values; readonly unused: readonly string[] }
  | { readonly ok: false; readonly because: readonly Refusal[] };

type Checked = { readonly value: number | string } | { readonly message: string };

const LEAST: Readonly<Partial<Record<FieldSpec['kind'], number>>> = {
  mass: 0,
  percent: 0,
  count: 0,
  temp: -60,
};
const MOST: Readonly<Partial<Record<FieldSpec['kind'], number>>> = { percent: 100, temp: 700, mass: 100_000 };

/** Nothing in a lab is read finer. */
const SMALLEST = 1e-6;

const withUnit = (value: number, unit: string): string =>
  unit === '' ? plain(value) : `${plain(value)} ${unit}`;

const outside = (field: FieldSpec, value: number): string | null => {
  const from = field.from ?? LEAST[field.kind];
  const to = field.to ?? MOST[field.kind];
  const { unit } = field;
  if (from !== undefined && value < from) {
    if (field.kind === 'mass' && value < 0)
      return `a mass cannot be negative (${withUnit(value, unit)}): tare the balance and read it again`;
    if (from === 0) return `cannot be below 0 (${withUnit(value, unit)}): read it again`;
    return `cannot be below ${withUnit(from, unit)} (${withUnit(value, unit)}): read it again`;
  }
  if (to !== undefined && value > to) {
    if (field.kind === 'percent' && to === 100)
      return `${withUnit(value, unit)} is more than all of it: enter at most 100 %`;
    return `cannot be above ${withUnit(to, unit)} (${withUnit(value, unit)}): read it again`;
  }
  return null;
};

const checkedNumber = (field: FieldSpec, reading: string | number): Checked => {
  const typed =
    typeof reading === 'number' ? { ok: true as const, value: reading } : typedNumber(reading, field.unit);
  if (!typed.ok) return { message: typed.message };
  const { value } = typed;
  if (!Number.isFinite(value)) return { message: 'is not a number that can be used: read it again' };
  if (field.kind === 'count' && !Number.isInteger(value))
    return { message: `${plain(value)} is not a whole number: count whole ones` };
  if (value !== 0 && Math.abs(value) < SMALLEST)
    return { message: `${value} is smaller than anything that can be read here: enter 0, or read it again` };
  const wrong = outside(field, value);
  return wrong === null ? { value } : { message: wrong };
};

const checkedTime = (reading: string | number, nowAt: string): Checked => {
  const seconds = typeof reading === 'string' ? secondsOf(reading.trim()) : null;
  if (seconds === null)
    return { message: `"${reading}" is no time: enter date and time, like 2026-05-12T14:05` };
  const now = secondsOf(nowAt);
  if (now !== null && seconds > now)
    return {
      message: `${spokenTime(String(reading).trim())} is still to come (it is ${spokenTime(nowAt)} on the plant's clock): enter when it was`,
    };
  return { value: String(reading).trim() };
};

const checked = (field: FieldSpec, reading: string | number, context: SheetContext): Checked => {
  if (field.kind === 'time') return checkedTime(reading, context.nowAt);
  if (field.kind === 'choice') {
    const choices = field.choices ?? [];
    if (choices.some((choice) => choice.is === reading)) return { value: reading };
    return {
      message: `"${reading}" is no choice here: choose ${choices.map(({ label }) => label).join(' or ')}`,
    };
  }
  return checkedNumber(field, reading);
};

const missing = (field: FieldSpec): string =>
  field.kind === 'choice'
    ? 'nothing chosen: choose one'
    : field.kind === 'time'
      ? 'is missing: enter date and time'
      : `is missing: enter ${field.unit === '' ? 'a number' : `it in ${field.unit}`}`;

/** All readings of a sheet, or every reason against them; messages begin with the field's own label. */
export const readReadings = (
  sheet: { readonly fields: readonly FieldSpec[] },
  readings: Readings,
  context: SheetContext,
): Read => {
  const because: Refusal[] = [];
  const values = new Map<string, number | string>();
  const known = allKeysOf(sheet, context);
  for (const [key, reading] of Object.entries(readings))
    if (!known.has(key) && !isEmpty(reading))
      because.push({ field: key, message: `this sheet has no field ${key}: leave it out` });
  const fields = fieldsOf(sheet, readings, context);
  const asked = new Set(fields.map(({ key }) => key));
  for (const field of fields) {
    const reading = readings[field.key];
    if (reading === undefined || reading === null || isEmpty(reading)) {
      if (field.optional !== true)
        because.push({ field: field.key, message: `${field.label} ${missing(field)}` });
      continue;
    }
    const found = checked(field, reading, context);
    if ('message' in found) because.push({ field: field.key, message: `${field.label}: ${found.message}` });
    else values.set(field.key, found.value);
  }
  if (because.length > 0) return { ok: false, because };
  return {
    ok: true,
    unused: Object.keys(readings).filter((key) => !asked.has(key) && !isEmpty(readings[key])),
    values: {
      num: (key) => {
        const value = values.get(key);
        if (typeof value !== 'number') throw new Error(`the sheet takes ${key} for a number it requires`);
        return value;
      },
      opt: (key) => {
        const value = values.get(key);
        return typeof value === 'number' ? value : null;
      },
      text: (key) => {
        const value = values.get(key);
        if (typeof value !== 'string') throw new Error(`the sheet takes ${key} for a word it requires`);
        return value;
      },
      has: (key) => values.has(key),
    },
  };
};
