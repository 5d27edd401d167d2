/** What the permissible error of the balance does to the results of a worksheet. */
import { type Balance, type BalanceName, balanceFor, permissibleErrorG, unfitBecause } from './balances.ts';
import { fieldsOf } from './fields.ts';
import { type Property, propertyNamed } from './properties.ts';
import { readReadings } from './read.ts';
import { written } from './rounding.ts';
import type { FieldSpec, Readings, Sheet, SheetContext } from './sheet.types.ts';

export type BalanceUncertainty = {
  readonly property: Property;
  readonly unit: string;
  /** Standard uncertainty, in the unit of the result. */
  readonly standard: number;
  /** Twice that, about 95 %. */
  readonly expanded: number;
  /** The weighing that brings most of it; null when no weighing matters. */
  readonly mostFrom: string | null;
};

const exactOf = (
  sheet: Sheet,
  readings: Readings,
  context: SheetContext,
): ReadonlyMap<Property, number> | null => {
  const out = sheet.workOut(readings, context);
  return out.ok ? new Map(out.results.map(({ property, exact }) => [property, exact])) : null;
};

/**
 * Uncertainty of each result from the balance alone: every weighing may be wrong by its permissible error in service
 * (OIML R 76), evenly likely within (÷ √3), each by itself, combined in quadrature. Weighings on one balance share part
 * of their error, which cancels in differences, so this is rather too much. Test error proper is not in it.
 * null when the sheet is refused or a weighing is more than the balance takes.
 */
export const balanceUncertainty = (
  sheet: Sheet,
  readings: Readings,
  context: SheetContext,
  balanceOf: (field: FieldSpec, loadG: number) => Balance,
): readonly BalanceUncertainty[] | null => {
  const read = readReadings(sheet, readings, context);
  const out = sheet.workOut(readings, context);
  if (!read.ok || !out.ok) return null;
  const parts = new Map<Property, { readonly label: string; readonly u: number }[]>();
  for (const field of fieldsOf(sheet, readings, context)) {
    const massG = field.kind === 'mass' ? read.values.opt(field.key) : null;
    if (massG === null) continue;
    const errorG = permissibleErrorG(balanceOf(field, massG), massG, 'in service');
    if (errorG === null) return null;
    const up = exactOf(sheet, { ...readings, [field.key]: massG + errorG }, context);
    const down = exactOf(sheet, { ...readings, [field.key]: Math.max(0, massG - errorG) }, context);
    for (const { property, exact } of out.results) {
      const [high, low] = [up?.get(property), down?.get(property)];
      // One side may be refused (a loss over its limit, say): then the other side speaks for both.
      const change =
        high !== undefined && low !== undefined
          ? Math.abs(high - low) / 2
          : Math.max(Math.abs((high ?? exact) - exact), Math.abs((low ?? exact) - exact));
      parts.set(property, [...(parts.get(property) ?? []), { label: field.label, u: change / Math.sqrt(3) }]);
    }
  }
  return out.results.flatMap(({ property, unit }) => {
    const found = parts.get(property);
    if (found === undefined) return [];
    const standard = Math.sqrt(found.reduce((sum, { u }) => sum + u * u, 0));
    const most = found.reduce((a, b) => (b.u > a.u ? b : a));
    return [{ property, unit, standard, expanded: 2 * standard, mostFrom: most.u > 0 ? most.label : null }];
  });
};

/** Which weighings the named balance does not do for, and what it leaves uncertain, in words. */
export const balanceWords = (
  sheet: Sheet,
  readings: Readings,
  context: SheetContext,
  named: BalanceName,
): { readonly departures: readonly string[]; readonly notes: readonly string[] } => {
  const read = readReadings(sheet, readings, context);
  if (!read.ok) return { departures: [], notes: [] };
  const asked = { fields: fieldsOf(sheet, readings, context) };
  const balanceOf = (field: FieldSpec, loadG: number): Balance => balanceFor(asked, named, field, loadG);
  const unfit = asked.fields.flatMap((field) => {
    const massG = field.kind === 'mass' ? read.values.opt(field.key) : null;
    if (massG === null) return [];
    const why = unfitBecause(balanceOf(field, massG), field, massG);
    return why === null ? [] : [why];
  });
  const found = balanceUncertainty(sheet, readings, context, balanceOf);
  return {
    departures: unfit,
    notes: (found ?? [])
      .filter(({ expanded }) => expanded > 0)
      .map(({ property, unit, expanded, mostFrom }) => {
        const { label, decimals } = propertyNamed(property);
        return `${label}: ± ${written(expanded, decimals + 1)}${unit === '' ? '' : ` ${unit}`} from the balance alone (OIML R 76 in service, about 95 %), most of it from "${mostFrom}".`;
      }),
  };
};
