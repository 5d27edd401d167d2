/** Limits of a specification held against values: which apply, how a value is rounded first, and how it is said. */
import { propertyOf } from '../../scenario/lab-tests.ts';
import type { Limit, Specification } from '../../scenario/specification.schema.ts';

/** Rounded to so many digits, halves to the even digit (ASTM E29 and C136 rounding; from memory). */
export const roundedTo = (value: number, decimals: number): number => {
  const power = 10 ** decimals;
  const scaled = value * power;
  const down = Math.floor(scaled);
  // A half is a half when it is one within what a double can hold.
  const isHalf = Math.abs(scaled - down - 0.5) < 1e-9 * Math.max(1, Math.abs(scaled));
  const whole = isHalf ? (down % 2 === 0 ? down : down + 1) : Math.round(scaled);
  return whole / power;
};

export const decimalsOf = (limit: Pick<Limit, 'property' | 'decimals'>): number =>
  limit.decimals ?? propertyOf(limit.property)?.decimals ?? 2;

/** Whether the limit's condition is met; null when it asks for an absorption nobody has measured. */
export const applies = ({ when }: Pick<Limit, 'when'>, absorptionPct: number | null): boolean | null => {
  if (when === undefined) return true;
  if (absorptionPct === null) return null;
  const { absorptionFromPct: low, absorptionToPct: high } = when;
  return (low === undefined || absorptionPct > low) && (high === undefined || absorptionPct < high);
};

/** Limits by property, worked out once for each list of limits: a lot is judged at every fact about it. */
const indexes = new WeakMap<readonly Limit[], ReadonlyMap<string, readonly Limit[]>>();

const indexOf = (limits: readonly Limit[]): ReadonlyMap<string, readonly Limit[]> => {
  const known = indexes.get(limits);
  if (known !== undefined) return known;
  const index = new Map<string, Limit[]>();
  for (const limit of limits) {
    const own = index.get(limit.property);
    if (own === undefined) index.set(limit.property, [limit]);
    else own.push(limit);
  }
  indexes.set(limits, index);
  return index;
};

/** Limits that hold for a property with stone of this absorption, in the order of the file. */
export const limitsOn = (
  spec: Pick<Specification, 'limits'>,
  property: string,
  absorptionPct: number | null,
): readonly Limit[] =>
  (indexOf(spec.limits).get(property) ?? []).filter((limit) => applies(limit, absorptionPct) === true);

/** Whether a value, rounded to the limit's digits, lies within it; both ends belong to it. */
export const isWithin = (value: number, limit: Limit): boolean => {
  const rounded = roundedTo(value, decimalsOf(limit));
  return (
    (limit.from === undefined || rounded >= limit.from) && (limit.to === undefined || rounded <= limit.to)
  );
};

/** How far outside a limit a value lies, 0 within. */
const beyond = (value: number, { from, to }: Limit): number =>
  Math.max(0, (from ?? Number.NEGATIVE_INFINITY) - value, value - (to ?? Number.POSITIVE_INFINITY));

/** Of several limits a value breaks, the one it is furthest from: one finding for one value. Empty when it breaks none. */
export const worstBroken = (value: number, limits: readonly Limit[]): readonly Limit[] => {
  const broken = limits.filter((limit) => !isWithin(value, limit));
  const worst = Math.max(...broken.map((limit) => beyond(value, limit)));
  return broken.filter((limit) => beyond(value, limit) === worst).slice(0, 1);
};

/** Where several limits hold at once: the highest `from` and the lowest `to`. */
export const windowOf = (
  limits: readonly Limit[],
): { readonly from: number | null; readonly to: number | null } => {
  const froms = limits.flatMap((one) => (one.from === undefined ? [] : [one.from]));
  const tos = limits.flatMap((one) => (one.to === undefined ? [] : [one.to]));
  return {
    from: froms.length === 0 ? null : Math.max(...froms),
    to: tos.length === 0 ? null : Math.min(...tos),
  };
};

const withUnit = (words: string, unit: string): string => (unit === '' ? words : `${words} ${unit}`);

/** A value as it is shown: digits of its property, its unit. */
export const valueWords = (property: string, value: number, decimals?: number): string => {
  const known = propertyOf(property);
  return withUnit(value.toFixed(decimals ?? known?.decimals ?? 2), known?.unit ?? '');
};

/** "4.5 to 5.5 %", "at least 90 %", "at most 3 %". */
export const limitWords = (limit: Pick<Limit, 'property' | 'from' | 'to' | 'decimals' | 'unit'>): string => {
  const digits = limit.decimals ?? 0;
  const say = (n: number): string => n.toFixed(Math.max(digits, (String(n).split('.')[1] ?? '').length));
  const { from, to } = limit;
  if (from !== undefined && to !== undefined)
    return withUnit(from === to ? say(from) : `${say(from)} to ${say(to)}`, limit.unit);
  if (from !== undefined) return withUnit(`at least ${say(from)}`, limit.unit);
  return withUnit(`at most ${say(to ?? 0)}`, limit.unit);
};

/** "for stone that drinks less than 1 % water"; '' for a limit without condition. */
export const conditionWords = ({ when }: Pick<Limit, 'when'>): string => {
  if (when === undefined) return '';
  const { absorptionFromPct: low, absorptionToPct: high } = when;
  if (low !== undefined && high !== undefined)
    return `for stone that drinks between ${low} and ${high} % water`;
  if (low !== undefined) return `for stone that drinks more than ${low} % water`;
  return `for stone that drinks less than ${high} % water`;
};

export const propertyWords = (property: string): string => propertyOf(property)?.words ?? property;
