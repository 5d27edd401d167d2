/**
 * A report as one RFC 4180 table: the first column says which table of the report a row belongs to, and
 * columns that table does not have stay empty. Units stand in the heads.
 */
import { type Cell, type Column, columnHead, type ReportDocument, type Table } from './document.ts';

/**
 * A spreadsheet takes a cell for a formula that begins with one of these (also after blanks, and in their
 * wide forms). Words that do get an apostrophe in front, which shows a spreadsheet that they are words;
 * a reader by program takes one leading apostrophe off before such a sign. Numbers are never touched.
 */
const FORMULA = /^[\s\u00a0]*[=+\-@\uff1d\uff0b\uff0d\uff20]|^[\t\r\n]/;

export const neutralised = (words: string): string => (FORMULA.test(words) ? `'${words}` : words);

/** One field: quoted when it must be, quotes doubled (RFC 4180, rules 5 to 7). */
export const field = (value: Cell, digits?: number): string => {
  if (value === null) return '';
  if (typeof value === 'number') return digits === undefined ? String(value) : value.toFixed(digits);
  const words = neutralised(value);
  return /[",\r\n]|^\s|\s$/.test(words) ? `"${words.replaceAll('"', '""')}"` : words;
};

const FIGURE_COLUMNS: readonly Column[] = [
  { key: 'figure', label: 'Figure', unit: '', wide: 1 },
  { key: 'value', label: 'Value', unit: '', wide: 1 },
  { key: 'unitOfValue', label: 'Unit of value', unit: '', wide: 1 },
  { key: 'remark', label: 'Remark', unit: '', wide: 1 },
];

type Flat = {
  readonly id: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
};

/** Figures, tables and words of a document as tables of their own; pictures show what the tables hold. */
export const tablesOf = (report: ReportDocument): Flat[] =>
  report.sections.flatMap((section): Flat[] => {
    switch (section.is) {
      case 'table':
        return [section satisfies Table];
      case 'figures':
        return [
          {
            id: section.id,
            columns: FIGURE_COLUMNS,
            rows: section.figures.map(({ label, value, unit, digits, remark }) => [
              label,
              typeof value === 'number' && digits !== undefined ? Number(value.toFixed(digits)) : value,
              unit,
              remark ?? '',
            ]),
          },
        ];
      case 'words':
        return [
          {
            id: section.id,
            columns: [{ key: 'remark', label: 'Remark', unit: '', wide: 1 }],
            rows: section.lines.map((words) => [words]),
          },
        ];
      case 'code':
        return [
          {
            id: section.id,
            columns: [{ key: 'remark', label: 'Remark', unit: '', wide: 1 }],
            rows: [section.code, ...section.lines].map((words) => [words]),
          },
        ];
      default:
        return [];
    }
  });

/** Heads shared between tables when key, label and unit are the same; the same key may stand under two labels. */
const headKey = (column: Column): string => columnHead(column);

/**
 * The whole document with what is said `about` it first, or the one table called `only`, as CSV: CRLF line ends, one head line, as many
 * fields in every line. Starts with a byte-order mark, so that spreadsheets read it as UTF-8.
 */
export const csvOf = (
  report: ReportDocument,
  only?: string,
  about: readonly (readonly [string, Cell])[] = [],
): string => {
  const head: Flat = {
    id: 'report',
    columns: FIGURE_COLUMNS,
    rows: about.map(([label, value]) => [label, value, '', '']),
  };
  const tables =
    only === undefined
      ? [...(about.length === 0 ? [] : [head]), ...tablesOf(report)]
      : tablesOf(report).filter((table) => table.id === only);
  const heads = [...new Set(tables.flatMap((table) => table.columns.map(headKey)))];
  const lines = [['Table', ...heads].map((head) => field(head)).join(',')];
  for (const table of tables) {
    const at = table.columns.map((column) => heads.indexOf(headKey(column)));
    for (const row of table.rows) {
      const cells = new Array<string>(heads.length).fill('');
      row.forEach((value, i) => {
        const place = at[i];
        if (place !== undefined) cells[place] = field(value, table.columns[i]?.digits);
      });
      lines.push([field(table.id), ...cells].join(','));
    }
  }
  return `\ufeff${lines.join('\r\n')}\r\n`;
};
