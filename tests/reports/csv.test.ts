/** The table form against RFC 4180, read by a parser written here from its grammar; formulas are made harmless. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvOf, field, neutralised } from '../../machines/reports/csv.ts';
import type { ReportDocument } from '../../machines/reports/document.ts';
import { parseCsv } from './support/parse-csv.ts';

const documentWith = (rows: readonly (readonly (string | number | null)[])[]): ReportDocument => ({
  kind: 'shift',
  title: '',
  lead: '',
  onePage: false,
  sections: [
    {
      is: 'table',
      id: 't',
      title: '',
      columns: [
        { key: 'a', label: 'Words', unit: '', wide: 1 },
        { key: 'b', label: 'Mass', unit: 'kg', digits: 3, wide: 1 },
      ],
      rows,
      empty: '',
    },
  ],
});

describe('fields', () => {
  it.each([
    ['=1+1', "'=1+1"],
    ['+44 1', "'+44 1"],
    ['-2', "'-2"],
    ['@SUM(A1)', "'@SUM(A1)"],
    ['  =cmd', "'  =cmd"],
    ['\tx', "'\tx"],
    [' plain', '" plain"'],
    ['＝1', "'＝1"],
    ['a=1', 'a=1'],
    ['–', '–'],
  ])('%j is written as %j', (words, wanted) => {
    expect(field(words)).toBe(wanted);
  });

  it('a negative number is a number', () => {
    expect(field(-2.5, 3)).toBe('-2.500');
    expect(field(-2)).toBe('-2');
  });
});

describe('the file', () => {
  it('has one head line with units, CRLF, a byte-order mark and as many fields in every line', () => {
    const text = csvOf(
      documentWith([
        ['a "b", c', 1],
        ['line\r\nbreak', null],
      ]),
    );
    expect(text.startsWith('\ufeffTable,Words,Mass (kg)\r\n')).toBe(true);
    expect(text.endsWith('\r\n')).toBe(true);
    expect(parseCsv(text)).toEqual([
      ['Table', 'Words', 'Mass (kg)'],
      ['t', 'a "b", c', '1.000'],
      ['t', 'line\r\nbreak', ''],
    ]);
  });

  it('gives back whatever words are put in, with one apostrophe before a formula', () => {
    fc.assert(
      fc.property(
        fc.array(fc.string({ unit: 'binary', minLength: 1, maxLength: 20 }), { minLength: 1 }),
        (all) => {
          const rows = parseCsv(csvOf(documentWith(all.map((words) => [words, 1]))));
          expect(rows.slice(1).map((row) => row[1])).toEqual(all.map(neutralised));
          for (const row of rows) expect(row).toHaveLength(3);
          for (const row of rows) for (const cell of row) expect(cell).not.toMatch(/^\s*[=+@-]/);
        },
      ),
    );
  });
});
