/** Which fields a worksheet asks for right now: repeated ones written out, conditional ones left out. */
import type { FieldSpec, Readings, SheetContext } from './sheet.types.ts';

/** Coarsest first, each once. */
export const sievesOf = (context: Pick<SheetContext, 'sieves'>): readonly number[] =>
  [...new Set(context.sieves)].filter((sieveMm) => sieveMm > 0).sort((a, b) => b - a);

export const isEmpty = (reading: string | number | null | undefined): boolean =>
  reading === undefined || reading === null || (typeof reading === 'string' && reading.trim() === '');

const isAsked = (field: FieldSpec, readings: Readings): boolean => {
  if (field.when === undefined) return true;
  const chosen = readings[field.when.key];
  return typeof chosen === 'string' && field.when.is.includes(chosen);
};

const eachOf = (field: FieldSpec, context: SheetContext): readonly FieldSpec[] => {
  if (field.each === undefined) return [field];
  const { each, ...one } = field;
  const things =
    each === 'sieve'
      ? sievesOf(context).map((sieveMm) => ({ name: String(sieveMm), label: `${sieveMm} mm` }))
      : each.map((name) => ({ name, label: name }));
  return things.map(({ name, label }, i) => ({
    ...one,
    // Letters of the formulas stay apart: R1, R2 … in the order they are asked.
    ...(one.symbol === undefined ? {} : { symbol: `${one.symbol}${i + 1}` }),
    key: `${field.key}:${name}`,
    label: `${field.label}, ${label}`,
  }));
};

/** The fields to fill in, in order, given what was chosen so far: keys are those of the readings. */
export const fieldsOf = (
  sheet: { readonly fields: readonly FieldSpec[] },
  readings: Readings,
  context: SheetContext,
): readonly FieldSpec[] =>
  sheet.fields.filter((field) => isAsked(field, readings)).flatMap((field) => eachOf(field, context));

/** Every key the sheet could ever ask for. */
export const allKeysOf = (
  sheet: { readonly fields: readonly FieldSpec[] },
  context: SheetContext,
): ReadonlySet<string> =>
  new Set(sheet.fields.flatMap((field) => eachOf(field, context)).map(({ key }) => key));
