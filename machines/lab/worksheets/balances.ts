/** Balances of the lab: what OIML R 76 lets them be wrong by, and how finely a worksheet wants to be weighed. */
import type { FieldSpec, Sheet } from './sheet.types.ts';

export type AccuracyClass = 'II' | 'III' | 'IIII';

export type Balance = {
  readonly accuracy: AccuracyClass;
  /** Verification scale interval e, g; taken as what the display steps by. */
  readonly eG: number;
  /** Most it may be loaded with, g. */
  readonly maxG: number;
};

export type Stage = 'on verification' | 'in service';

/** Up to so many e the error is 0.5 e, then 1.0 e, then 1.5 e: OIML R 76-1, maximum permissible errors, Table 6. */
const STEPS: Readonly<Record<AccuracyClass, readonly [half: number, one: number, oneAndHalf: number]>> = {
  II: [5000, 20_000, 100_000],
  III: [500, 2000, 10_000],
  IIII: [50, 200, 1000],
};

/**
 * Largest error in g that OIML R 76-1 permits at a load; in service it is twice that on verification.
 * null when the load is below 0 or more than the class or the balance goes to.
 */
export const permissibleErrorG = (balance: Balance, loadG: number, stage: Stage): number | null => {
  const intervals = loadG / balance.eG;
  // A load of exactly 500 e stands in the first step although 50 ÷ 0.1 is a little more in binary.
  const within = (most: number): boolean => intervals <= most * (1 + 1e-12);
  const [half, one, oneAndHalf] = STEPS[balance.accuracy];
  if (loadG < 0 || loadG > balance.maxG || !within(oneAndHalf)) return null;
  const parts = within(half) ? 0.5 : within(one) ? 1 : 1.5;
  return parts * balance.eG * (stage === 'in service' ? 2 : 1);
};

/** The balances a laboratory of this size has, finest first (common practice, no source), by what they are called. */
export const BALANCES = {
  'to 0.001 g': { accuracy: 'II', eG: 0.001, maxG: 100 },
  'to 0.01 g': { accuracy: 'II', eG: 0.01, maxG: 600 },
  'to 0.1 g': { accuracy: 'II', eG: 0.1, maxG: 6000 },
  'to 1 g': { accuracy: 'III', eG: 1, maxG: 10_000 },
} as const satisfies Readonly<Record<string, Balance>>;
export type BalanceName = keyof typeof BALANCES;

/** Finest readability any weighing of the sheet asks for, g; null when nothing is weighed. */
export const readabilityWantedG = (sheet: Pick<Sheet, 'fields'>): number | null => {
  const wanted = sheet.fields.flatMap(({ readabilityG }) =>
    readabilityG === undefined ? [] : [readabilityG],
  );
  return wanted.length === 0 ? null : Math.min(...wanted);
};

/** Why this balance does not do for a field at a load, in words that say what to do; null when it does. */
export const unfitBecause = (balance: Balance, field: FieldSpec, loadG: number): string | null => {
  if (field.readabilityG !== undefined && balance.eG > field.readabilityG * (1 + 1e-12))
    return `${field.label} is weighed to ${field.readabilityG} g, this balance steps by ${balance.eG} g: take a finer one`;
  if (permissibleErrorG(balance, loadG, 'in service') === null)
    return `${field.label}: ${loadG} g is more than this balance takes (${balance.maxG} g): take a larger one`;
  return null;
};

/**
 * Which balance a weighing was made on when one was named for the sheet: that one; but what the sheet wants weighed more
 * finely than the rest (a filter, ash) goes to the coarsest that is fine enough and takes the load.
 */
export const balanceFor = (
  sheet: Pick<Sheet, 'fields'>,
  named: BalanceName,
  field: FieldSpec,
  loadG: number,
): Balance => {
  const coarsest = Math.max(...sheet.fields.flatMap(({ readabilityG }) => readabilityG ?? []));
  if ((field.readabilityG ?? coarsest) >= coarsest) return BALANCES[named];
  const fits = Object.values(BALANCES).filter((balance) => unfitBecause(balance, field, loadG) === null);
  return fits.at(-1) ?? BALANCES[named];
};
