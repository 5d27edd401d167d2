/** What is typed into a worksheet, before the sheet itself reads it: times in short, which fields are asked, what comes next. Pure. */
import type { FieldSpec } from '../../../machines/lab/worksheets/sheet.types.ts';
import type { Readings } from './drafts.ts';

/** A field is asked when it has no condition or its condition is met by what was chosen. */
export const isAsked = (field: FieldSpec, readings: Readings): boolean =>
  field.when === undefined || field.when.is.includes(readings[field.when.key] ?? '');

export type Group = { readonly name: string; readonly fields: readonly FieldSpec[] };

/** Fields in the order of the sheet, those of one group together. */
export function groupsOf(fields: readonly FieldSpec[]): readonly Group[] {
  const groups = new Map<string, FieldSpec[]>();
  for (const field of fields) groups.set(field.group, [...(groups.get(field.group) ?? []), field]);
  return [...groups].map(([name, own]) => ({ name, fields: own }));
}

const two = (n: number): string => String(n).padStart(2, '0');

/**
 * A time typed in short, made whole with the plant's own date: "1405", "14:05" and "n" (now) become
 * 2026-05-12T14:05. Anything else is left as it was typed, for the sheet to refuse in its own words.
 */
export function wholeTime(text: string, nowAt: string): string {
  const typed = text.trim();
  if (/^(n|now)$/i.test(typed)) return nowAt.slice(0, 16);
  const short = /^(\d{1,2})[:.h]?(\d{2})$/.exec(typed);
  if (short === null) return typed.replace(' ', 'T');
  const [hour, minute] = [Number(short[1]), Number(short[2])];
  if (hour > 23 || minute > 59) return typed;
  return `${nowAt.slice(0, 10)}T${two(hour)}:${two(minute)}`;
}

/** Readings as a command carries them: what is not asked or empty is left out; the decimal comma stays to be refused. */
export const readingsToSend = (fields: readonly FieldSpec[], readings: Readings): { [key: string]: string } =>
  Object.fromEntries(
    fields
      .filter((field) => isAsked(field, readings) && (readings[field.key] ?? '').trim() !== '')
      .map((field) => [field.key, (readings[field.key] ?? '').trim()]),
  );

/** Fields still wanted before anything can be worked out. */
export const stillWanted = (fields: readonly FieldSpec[], readings: Readings): readonly FieldSpec[] =>
  fields.filter(
    (field) =>
      field.optional !== true && isAsked(field, readings) && (readings[field.key] ?? '').trim() === '',
  );
