/** Patch lists out of tables as people send them: separators, decimal signs, merged cells, formulas, sizes. */
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { neutralised } from '../../machines/reports/csv.ts';
import { guessColumns, looksLikeHead, type Mapping } from '../../machines/yard/patches/csv/columns.ts';
import { linesOf, MOST_BYTES, tooLarge, withoutMark } from '../../machines/yard/patches/csv/limits.ts';
import { guessDecimal, readNumber } from '../../machines/yard/patches/csv/numbers.ts';
import {
  looksLikeFormula,
  looksMerged,
  missingColumns,
  readTable,
} from '../../machines/yard/patches/csv/rows.ts';
import { guessSeparator } from '../../machines/yard/patches/csv/separator.ts';

const mappingOf = (rows: readonly (readonly string[])[], change: Partial<Mapping> = {}): Mapping => {
  const guess = guessColumns(rows[0] ?? []);
  return {
    ...guess,
    decimal: '.',
    fillDown: false,
    otherwise: { compactedBy: 'hand rammer', surface: 'bituminous', route: '' },
    ...change,
  };
};
const tableOf = (text: string): string[][] =>
  Papa.parse<string[]>(withoutMark(text), { delimiter: guessSeparator(text).separator }).data;

describe('the separator', () => {
  it.each([
    ['place,length,width\nA,1,2\nB,3,4', ',', true],
    ['place;length;width\nA;1,5;2,0\nB;3;4', ';', true],
    ['place\tlength\nA\t1', '\t', true],
    ['place|length\nA|1', '|', true],
    ['"Mill Lane, north";1;2\n"Fell Road, south";1;2', ';', true],
    ['one column only\nno sign at all', ',', false],
  ])('of %j is %j', (text, separator, sure) => {
    expect(guessSeparator(text)).toEqual({ separator, sure });
  });

  it('is not sure when the rows differ', () => {
    expect(guessSeparator('a,b;c\n1,2\n5;6;7').sure).toBe(false);
  });
});

describe('the decimal sign', () => {
  it.each([
    [['1,5', '0,75'], ',', true],
    [['1.5', '0.75'], '.', true],
    [['1.234,5'], ',', true],
    [['1,234.5'], '.', true],
    [['0,125'], ',', true],
    [['60', '75'], '.', true],
    [['1,234'], '.', false],
    [['1.234'], '.', false],
    [['1,5', '1.5'], '.', false],
    [['1,5', '0,8', '1.5'], ',', false],
  ] as const)('of %j is %j, sure %s', (cells, decimal, sure) => {
    expect(guessDecimal(cells)).toMatchObject({ decimal, sure });
  });

  it.each([
    ['1.234,5', ',', 1234.5],
    ['1,234.5', '.', 1234.5],
    ["1'234.5", '.', 1234.5],
    ['1 234,5', ',', 1234.5],
    ['1\u00a0234,5', ',', 1234.5],
    ['.5', '.', 0.5],
    ['0,9 m', ',', 0.9],
    ['-3', '.', -3],
  ] as const)('%j with %j is %d', (cell, decimal, value) => {
    expect(readNumber(cell, decimal, 'm')).toEqual({ ok: true, value });
  });

  it.each([
    ['1.234,5', '.', 'see whether "," is meant'],
    ['1,5', '.', 'see whether "," is meant'],
    ['1.5', ',', 'see whether "." is meant'],
    ['', '.', 'is empty'],
    ['60 mm', '.', 'read in m'],
    ['about 1', '.', 'is no number'],
    ['1e3', '.', 'is no number'],
    ['0x10', '.', 'is no number'],
    ['Infinity', '.', 'is no number'],
  ] as const)('%j with %j is refused: %s', (cell, decimal, why) => {
    expect(readNumber(cell, decimal, 'm')).toEqual({ ok: false, why: expect.stringContaining(why) });
  });
});

describe('columns', () => {
  it('are found by the words of the head, with their units', () => {
    const head = [
      'No.',
      'Location',
      'Crew route',
      'Length (m)',
      'Width (cm)',
      'Depth_mm',
      'Base?',
      'Compaction',
    ];
    expect(looksLikeHead(head)).toBe(true);
    expect(guessColumns(head)).toEqual({
      header: true,
      columns: { place: 1, route: 2, length: 3, width: 4, depth: 5, base: 6, compactedBy: 7, surface: null },
      units: { length: 'm', width: 'cm', depth: 'mm' },
    });
  });

  it('without a head go by their order, and what is missing is named', () => {
    expect(looksLikeHead(['Fell Lane 3', '1.2', '0.8', '60'])).toBe(false);
    expect(guessColumns(['Fell Lane 3', '1.2', '0.8', '60']).columns).toMatchObject({
      place: 0,
      route: null,
      length: 1,
      width: 2,
      depth: 3,
    });
    expect(missingColumns(mappingOf([['Place', 'Length']]))).toEqual(['Width', 'Depth']);
  });
});

describe('rows', () => {
  it('as Excel saves them with a decimal comma, a byte order mark and quotes', () => {
    const rows = tableOf(
      '\uFEFFPlace;Length (m);Width (m);Depth (mm);Base;Compacted by\r\n"Mill Lane; ""old"" ford";1,5;0,8;60;yes;Roller\r\nFell Road;12,25;0,5;1.100,0;no;hand\r\n',
    );
    const { good, bad, blank } = readTable(rows, mappingOf(rows, { decimal: ',' }));
    expect(good).toEqual([
      {
        line: 2,
        notes: [],
        hole: {
          place: 'Mill Lane; "old" ford',
          route: '',
          lengthM: 1.5,
          widthM: 0.8,
          depthMm: 60,
          baseReached: true,
          compactedBy: 'roller',
          surface: 'bituminous',
        },
      },
    ]);
    expect(bad).toEqual([
      {
        line: 3,
        cells: expect.anything(),
        because: [expect.stringContaining('1100 mm is deeper than 600 mm')],
      },
    ]);
    expect(blank).toBe(1);
  });

  it('read under the wrong decimal sign are refused row by row, none of them guessed', () => {
    const rows = tableOf('Place;Length;Width;Depth\nMill Lane;1,5;0,8;60\nFell Road;2,25;0,5;40\n');
    const { good, bad } = readTable(rows, mappingOf(rows));
    expect(good).toEqual([]);
    expect(bad.map(({ line }) => line)).toEqual([2, 3]);
    expect(bad[0]?.because).toEqual([
      expect.stringContaining('Length says "1,5"'),
      expect.stringContaining('Width says "0,8"'),
    ]);
  });

  it('in centimetres are the same holes', () => {
    const rows = tableOf('Place,Length (cm),Width (cm),Depth (cm)\nMill Lane,150,80,6\n');
    expect(readTable(rows, mappingOf(rows)).good[0]?.hole).toMatchObject({
      lengthM: 1.5,
      widthM: 0.8,
      depthMm: 60,
    });
  });

  it('with cells that were merged are filled from above only when a person says so', () => {
    const rows = tableOf('Route,Place,L,W,D\nNorth,Mill Lane,1,1,60\n,,2,1,60\n,Fell Road,1,1,50\n');
    const { columns, header } = guessColumns(rows[0] ?? []);
    expect(looksMerged(rows, columns, header)).toBe(true);
    const plain = readTable(rows, mappingOf(rows));
    expect(plain.good.map(({ line }) => line)).toEqual([2, 4]);
    expect(plain.bad[0]).toMatchObject({ line: 3, because: ['No place is given: write where the hole is.'] });
    const filled = readTable(rows, mappingOf(rows, { fillDown: true }));
    expect(filled.good.map(({ hole }) => [hole.route, hole.place])).toEqual([
      ['North', 'Mill Lane'],
      ['North', 'Mill Lane'],
      ['North', 'Fell Road'],
    ]);
    expect(filled.filledDown).toBe(3);
  });

  it('that begin like a formula stay text, are marked, and leave escaped', () => {
    const nasty = '=HYPERLINK("http://example.invalid","Mill Lane")';
    const rows = tableOf(
      `Place,L,W,D\n"${nasty.replaceAll('"', '""')}",1,1,60\n@cmd,1,1,60\n-5 Mill Lane,1,1,60\n`,
    );
    const { good } = readTable(rows, mappingOf(rows));
    expect(good[0]?.hole.place).toBe(nasty);
    expect(good.map(({ notes }) => notes.length)).toEqual([1, 1, 1]);
    expect(good.map(({ hole }) => neutralised(hole.place)[0])).toEqual(["'", "'", "'"]);
    // Read in again the apostrophe is gone.
    const again = readTable(
      [
        ['Place', 'L', 'W', 'D'],
        [neutralised(nasty), '1', '1', '60'],
      ],
      mappingOf(rows),
    );
    expect(again.good[0]?.hole.place).toBe(nasty);
    expect(looksLikeFormula('-1.5')).toBe(false);
  });

  it('with a wrong separator say so in every row instead of taking nonsense', () => {
    const text = 'Place;Length;Width;Depth\nMill Lane;1;1;60\n';
    const rows = Papa.parse<string[]>(text, { delimiter: ',' }).data;
    expect(missingColumns(mappingOf(rows)).length).toBeGreaterThan(0);
  });

  it('with odd words are told what is allowed', () => {
    const rows = tableOf('Place,L,W,D,Base,Compaction,Surface\nMill Lane,1,1,60,perhaps,jumping,gravel\n');
    expect(readTable(rows, mappingOf(rows)).bad[0]?.because).toEqual([
      'Base reached says "perhaps": write yes or no.',
      'Compacted by says "jumping": write roller or hand rammer.',
      'Surface says "gravel": write bituminous or concrete.',
    ]);
  });

  it('that are too short, or hold control signs, break nothing', () => {
    const rows = [
      ['Place', 'L', 'W', 'D'],
      ['Mill\u0000 Lane\n2', '1', '1', '60'],
      ['x'],
      [],
      ['', '', '', ''],
    ];
    const { good, bad, blank } = readTable(rows, mappingOf(rows));
    expect(good[0]?.hole.place).toBe('Mill Lane 2');
    expect(bad).toHaveLength(1);
    expect(blank).toBe(2);
  });
});

describe('large tables', () => {
  it('are answered before they are read', () => {
    const text = `Place,L,W,D\n${'Mill Lane,1,1,60\n'.repeat(100_000)}`;
    expect(linesOf(text)).toBe(100_001);
    expect(tooLarge(text)).toBe(
      'This has 100 001 rows; a list holds at most 5 000 patches. Split it, for instance by route. Nothing was read.',
    );
    expect(tooLarge('x'.repeat(MOST_BYTES + 1))).toContain('larger than 8 MB');
    expect(tooLarge('Place,L,W,D\nMill Lane,1,1,60\n')).toBeNull();
  });
});
