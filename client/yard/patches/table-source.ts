/** A pasted or opened table before it is a list: its text, how it is split, and how it is read. */
import Papa from 'papaparse';
import { guessColumns, type Mapping } from '../../../machines/yard/patches/csv/columns.ts';
import { MOST_BYTES, tooLarge, withoutMark } from '../../../machines/yard/patches/csv/limits.ts';
import { guessDecimal } from '../../../machines/yard/patches/csv/numbers.ts';
import { looksMerged } from '../../../machines/yard/patches/csv/rows.ts';
import { guessSeparator, type Separator } from '../../../machines/yard/patches/csv/separator.ts';

export type Source = {
  readonly how: 'pasted' | 'file';
  readonly file: string | null;
  readonly text: string;
  readonly separator: Separator;
  readonly separatorSure: boolean;
  readonly rows: readonly (readonly string[])[];
  /** What is wrong with the table as such, such as a quote that is never closed. */
  readonly troubles: readonly string[];
};

export type SourceOr =
  | { readonly ok: true; readonly source: Source }
  | { readonly ok: false; readonly why: string };

const TROUBLES_SHOWN = 3;
const QUOTE_WORDS: { readonly [code: string]: string } = {
  MissingQuotes: 'a quotation mark is opened and never closed',
  InvalidQuotes: 'a quotation mark stands in the middle of a cell',
};

const split = (text: string, separator: Separator): Pick<Source, 'rows' | 'troubles'> => {
  // The line end that closes a file is no row of its own.
  const { data, errors } = Papa.parse<string[]>(text.replace(/(?:\r?\n|\r)+$/u, ''), {
    delimiter: separator,
  });
  const quotes = errors.filter(({ type }) => type === 'Quotes');
  const troubles = quotes
    .slice(0, TROUBLES_SHOWN)
    .map(
      ({ row, code }) => `Row ${(row ?? 0) + 1}: ${QUOTE_WORDS[code] ?? 'its quotation marks do not pair'}.`,
    );
  return { rows: data, troubles };
};

export const withSeparator = (source: Source, separator: Separator): Source => ({
  ...source,
  separator,
  ...split(source.text, separator),
});

/** Never throws; a text too large, empty or not text at all is answered in words. */
export const sourceOf = (text: string, how: Source['how'], file: string | null): SourceOr => {
  const why = tooLarge(text);
  if (why !== null) return { ok: false, why };
  const bare = withoutMark(text);
  if (bare.trim() === '')
    return { ok: false, why: 'There is nothing in it: paste a table, or open another file.' };
  if (bare.includes('\u0000'))
    return {
      ok: false,
      why: 'This is no table of text (a spreadsheet file, perhaps): save it as CSV in the spreadsheet, or copy the cells and paste them.',
    };
  const { separator, sure } = guessSeparator(bare);
  return {
    ok: true,
    source: { how, file, text: bare, separator, separatorSure: sure, ...split(bare, separator) },
  };
};

/** UTF-16 as a spreadsheet's "Unicode text" has it, known by the mark it begins with; null for any other file. */
const utf16Of = (bytes: ArrayBuffer): string | null => {
  const [first, second] = new Uint8Array(bytes.slice(0, 2));
  if (first === 0xff && second === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (first === 0xfe && second === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  return null;
};

/** Reads a file as UTF-16 when it says so, else as UTF-8, and as Western European when it is not that. */
export const sourceOfFile = async (file: File): Promise<SourceOr> => {
  if (file.size > MOST_BYTES)
    return {
      ok: false,
      why: `${file.name} is larger than ${MOST_BYTES / 1024 / 1024} MB: split it, for instance by route. Nothing was read.`,
    };
  try {
    const bytes = await file.arrayBuffer();
    let text = utf16Of(bytes);
    if (text === null)
      try {
        text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
      } catch {
        text = new TextDecoder('windows-1252').decode(bytes);
      }
    return sourceOf(text, 'file', file.name.slice(0, 200));
  } catch {
    return { ok: false, why: `${file.name} could not be read: see whether it is still there.` };
  }
};

export type Reading = {
  readonly mapping: Mapping;
  /** The decimal sign is plain from the cells. */
  readonly decimalSure: boolean;
  /** A cell that shows it. */
  readonly decimalExample: string | null;
  /** Cells speak for both signs. */
  readonly decimalMixed: boolean;
  readonly merged: boolean;
};

const CELLS_LOOKED_AT = 2000;

/** How the table would be read, as far as its own words and cells tell. */
export const firstReading = (source: Source): Reading => {
  const guess = guessColumns(source.rows[0] ?? []);
  const at = [guess.columns.length, guess.columns.width, guess.columns.depth].filter(
    (column) => column !== null,
  );
  const cells = source.rows
    .slice(guess.header ? 1 : 0, CELLS_LOOKED_AT)
    .flatMap((row) => at.map((column) => row[column] ?? ''));
  const decimal = guessDecimal(cells);
  return {
    mapping: {
      ...guess,
      decimal: decimal.decimal,
      fillDown: false,
      otherwise: { compactedBy: 'hand rammer', surface: 'bituminous', route: '' },
    },
    decimalSure: decimal.sure,
    decimalExample: decimal.example,
    decimalMixed: decimal.mixed,
    merged: looksMerged(source.rows, guess.columns, guess.header),
  };
};
