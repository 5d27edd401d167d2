/** A page of working being written: lines computed from their own formulas, results, notes, departures and refusals. */
import { againstLimits } from './against.ts';
import { evaluate, partsOf, type Symbols, withNumbers } from './formula.ts';
import { type Property, propertyNamed } from './properties.ts';
import { plain, roundedTo, written } from './rounding.ts';
import type { GradeLimit, Refusal, Result, WorkedOut, WorkingLine } from './sheet.types.ts';

export type Span = { readonly from: number; readonly to: number };

export type Page = {
  /**
   * Computes a line such as `M = W − D`, writes it down and returns its unrounded value. Letters are those of the
   * sheet's fields and of earlier lines.
   */
  readonly calc: (label: string, line: string, unit: string, decimals: number) => number;
  /** Gives a letter a value that no formula can tell: the largest of some, one that goes up to the next whole. */
  readonly put: (symbol: string, value: number) => void;
  /** Gives a result, kept to so many places; reported to those of its property, from the kept value, unless told others. */
  readonly result: (property: Property, exact: number, kept: number, reported?: number) => void;
  readonly note: (words: string) => void;
  /** The method was left; says what to do. */
  readonly departure: (words: string) => void;
  readonly refuse: (field: string | null, message: string) => void;
  /** True when anything was refused so far: stop before computing with it. */
  readonly refused: () => boolean;
  /** A departure when a value that was read lies outside the method's span. */
  readonly within: (label: string, value: number | null, span: Span, unit: string) => void;
  /** Notes how the results so far lie to limits. */
  readonly against: (limits: readonly GradeLimit[]) => void;
  readonly workedOut: () => WorkedOut;
};

/** Said when a formula gives no number. */
export const NO_VALUE = 'has no value with these numbers';

/** A page that knows the letters of what was read, and nothing else yet. */
export const newPage = (read: Symbols): Page => {
  const symbols: Record<string, number> = { ...read };
  const working: WorkingLine[] = [];
  const results: Result[] = [];
  const notes: string[] = [];
  const departures: string[] = [];
  const because: Refusal[] = [];
  return {
    calc: (label, line, unit, decimals) => {
      const { symbol, formula } = partsOf(line);
      const value = evaluate(formula, symbols);
      if (!Number.isFinite(value))
        throw new Error(`${label} has no value: the sheet must refuse this before`);
      working.push({ label, formula: line, numbers: withNumbers(formula, symbols), value, unit, decimals });
      symbols[symbol] = value;
      return value;
    },
    put: (symbol, value) => {
      symbols[symbol] = value;
    },
    result: (property, exact, kept, reported) => {
      const { unit, decimals } = propertyNamed(property);
      const value = roundedTo(exact, kept);
      const words = written(value, reported ?? decimals);
      results.push({ property, exact, value, unit, reported: unit === '' ? words : `${words} ${unit}` });
    },
    note: (words) => notes.push(words),
    departure: (words) => departures.push(words),
    refuse: (field, message) => because.push({ field, message }),
    refused: () => because.length > 0,
    within: (label, value, { from, to }, unit) => {
      if (value === null || (value >= from && value <= to)) return;
      const asked = from === to ? plain(from) : `${plain(from)} to ${plain(to)}`;
      const tail = unit === '' ? '' : ` ${unit}`;
      departures.push(
        `${label} was ${plain(value)}${tail}, the method asks for ${asked}${tail}: repeat it, or report the result as not by the method`,
      );
    },
    against: (limits) => {
      for (const result of results) notes.push(...againstLimits(result, limits));
    },
    workedOut: () =>
      because.length > 0 ? { ok: false, because } : { ok: true, results, working, notes, departures },
  };
};
