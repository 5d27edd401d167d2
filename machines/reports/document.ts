/** A report laid out in sections, before it is paper, screen or table: what all renderers draw. */
import type { ReportKind } from './filter.ts';
import type { Picture } from './picture.ts';

export type Cell = string | number | null;

export type Column = {
  readonly key: string;
  readonly label: string;
  /** '' for words; stands in the head of the column. */
  readonly unit: string;
  /** Digits after the point, for numbers. */
  readonly digits?: number;
  /** Share of the width, beside the others. */
  readonly wide: number;
};

export type Figure = {
  readonly label: string;
  readonly value: Cell;
  readonly unit: string;
  readonly digits?: number;
  /** What it is held against, or how it came about. */
  readonly remark?: string;
  /** look: outside what it is held against; marked and said in words, never by colour alone. */
  readonly look?: boolean;
};

export type Table = {
  readonly is: 'table';
  readonly id: string;
  readonly title: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
  /** Said in its place when there are no rows. */
  readonly empty: string;
  /** Rows that need a look. */
  readonly look?: readonly number[];
};

export type Section =
  | {
      readonly is: 'figures';
      readonly id: string;
      readonly title: string;
      readonly figures: readonly Figure[];
    }
  | Table
  | { readonly is: 'picture'; readonly id: string; readonly title: string; readonly picture: Picture }
  | { readonly is: 'words'; readonly id: string; readonly title: string; readonly lines: readonly string[] }
  | {
      /** A square a telephone reads (QR) with the same words beside it. */
      readonly is: 'code';
      readonly id: string;
      readonly title: string;
      readonly code: string;
      readonly lines: readonly string[];
    };

export type ReportDocument = {
  readonly kind: ReportKind;
  /** "Lot file 260414-1" */
  readonly title: string;
  /** One sentence that says the most important thing. */
  readonly lead: string;
  readonly sections: readonly Section[];
  /** Fits one sheet of paper by intent: set closer. */
  readonly onePage: boolean;
};

/** Thousands apart by a thin space, from five figures on: 33 721.950. */
const grouped = (digits: string): string => {
  const [whole = '', rest] = digits.split('.');
  const apart = /^-?\d{5,}$/.test(whole) ? whole.replace(/\B(?=(\d{3})+$)/g, '\u2009') : whole;
  return rest === undefined ? apart : `${apart}.${rest}`;
};

/** A number or word as people read it: fixed digits, a true minus, "–" for what is not known. */
export const cellText = (value: Cell, digits?: number): string => {
  if (value === null) return '–';
  if (typeof value === 'string') return value;
  // A number without digits of its own is a name: entry 31852, batch 12.
  const text = digits === undefined ? String(value) : grouped(value.toFixed(digits));
  return text.replace('-', '−');
};

export const columnHead = ({ label, unit }: Pick<Column, 'label' | 'unit'>): string =>
  unit === '' ? label : `${label} (${unit})`;
