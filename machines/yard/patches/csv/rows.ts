/** A table read as holes, row by row: the good ones, and what is wrong with the others. */
import type { CompactedBy, Measured, Surface } from '../patch.types.ts';
import { troubleWith } from '../trouble.ts';
import { FIELD_WORDS, type Field, type Mapping, NEEDED, type Sized, type Unit } from './columns.ts';
import { readNumber } from './numbers.ts';

/** `line` counts rows of the table from 1, its head included, as a spreadsheet does. */
export type GoodRow = { readonly line: number; readonly hole: Measured; readonly notes: readonly string[] };
export type BadRow = {
  readonly line: number;
  readonly cells: readonly string[];
  readonly because: readonly string[];
};
export type ReadTable = {
  readonly good: readonly GoodRow[];
  readonly bad: readonly BadRow[];
  /** Rows without a word in them. */
  readonly blank: number;
  /** Cells filled in from the row above. */
  readonly filledDown: number;
};

const IN_M: { readonly [U in Unit]: number } = { m: 1, cm: 0.01, mm: 0.001 };
const round = (value: number): number => Math.round(value * 1e6) / 1e6;

/** A cell on one line; the apostrophe an export put before a sign of a formula is taken off again. */
const one = (cell: string): string =>
  cell
    .replace(/[\p{Cc}\s\u00a0]+/gu, ' ')
    .trim()
    .replace(/^'(?=[=+\-@])/u, '');

const YES = /^(yes|y|true|1|x|✓|base|granular|reached)$/iu;
const NO = /^(no|n|false|0|-|–|not reached|)$/iu;
const ROLLER = /^(roller|rolled|r|plate)$/iu;
const HAND = /^(hand rammer|hand|rammer|h|by hand|hand-rammer)$/iu;
const BITUMINOUS = /^(bituminous|bitumen|asphalt|blacktop|b)$/iu;
const CONCRETE = /^(concrete|cement concrete|c)$/iu;

type Reading = { readonly because: string[]; readonly cell: (field: Field) => string };

const sizeOf = ({ because, cell }: Reading, field: Sized, mapping: Mapping): number => {
  const unit = mapping.units[field];
  const read = readNumber(cell(field), mapping.decimal, unit);
  if (!read.ok) {
    because.push(`${FIELD_WORDS[field]} ${read.why}.`);
    return 1;
  }
  const metres = read.value * IN_M[unit];
  return field === 'depth' ? round(metres * 1000) : round(metres);
};

const choice = <T>(
  { because, cell }: Reading,
  field: Field,
  choices: readonly (readonly [RegExp, T])[],
  otherwise: T,
  allowed: string,
): T => {
  const text = cell(field);
  if (text === '') return otherwise;
  const found = choices.find(([words]) => words.test(text));
  if (found !== undefined) return found[1];
  because.push(`${FIELD_WORDS[field]} says "${text.slice(0, 24)}": write ${allowed}.`);
  return otherwise;
};

/** What of a row could not be read; troubles with sizes that were not read at all are not told twice. */
const holeOf = (reading: Reading, mapping: Mapping): Measured => {
  const { otherwise } = mapping;
  return {
    place: reading.cell('place'),
    route: reading.cell('route') || otherwise.route,
    lengthM: sizeOf(reading, 'length', mapping),
    widthM: sizeOf(reading, 'width', mapping),
    depthMm: sizeOf(reading, 'depth', mapping) || 0,
    baseReached: choice(
      reading,
      'base',
      [
        [YES, true],
        [NO, false],
      ],
      false,
      'yes or no',
    ),
    compactedBy: choice<CompactedBy>(
      reading,
      'compactedBy',
      [
        [ROLLER, 'roller'],
        [HAND, 'hand rammer'],
      ],
      otherwise.compactedBy,
      'roller or hand rammer',
    ),
    surface: choice<Surface>(
      reading,
      'surface',
      [
        [BITUMINOUS, 'bituminous'],
        [CONCRETE, 'concrete'],
      ],
      otherwise.surface,
      'bituminous or concrete',
    ),
  };
};

const FIELD_OF: { readonly [K in keyof Measured]?: Field } = {
  lengthM: 'length',
  widthM: 'width',
  depthMm: 'depth',
  place: 'place',
};

/** Text that a spreadsheet would run as a formula. It is kept as text, and escaped wherever it is exported. */
export const looksLikeFormula = (text: string): boolean =>
  /^[=+\-@\t\r]/u.test(text) && !/^[-+]?[\d.,\s]+$/u.test(text);

const rowOf = (cells: readonly string[], line: number, mapping: Mapping): GoodRow | BadRow => {
  const because: string[] = [];
  const cell = (field: Field): string => {
    const at = mapping.columns[field];
    return at === null ? '' : one(cells[at] ?? '');
  };
  const hole = holeOf({ because, cell }, mapping);
  const unread = new Set(
    (['length', 'width', 'depth'] as const).filter((field) =>
      because.some((words) => words.startsWith(FIELD_WORDS[field])),
    ),
  );
  for (const { field, message } of troubleWith(hole)) {
    const column = FIELD_OF[field];
    if (column === undefined || !unread.has(column as Sized)) because.push(message);
  }
  if (hole.place.length > 120) because.push('Place is longer than 120 signs: shorten it.');
  if (hole.route.length > 60) because.push('Route is longer than 60 signs: shorten it.');
  if (because.length > 0)
    return { line, cells: cells.slice(0, 12).map((text) => text.slice(0, 60)), because };
  const notes = [hole.place, hole.route].some(looksLikeFormula)
    ? ['begins like a formula: kept as text, and never run']
    : [];
  return { line, hole, notes };
};

const isBlank = (cells: readonly string[]): boolean => cells.every((cell) => one(cell) === '');

/** Columns still missing, in words; nothing is read before they are named. */
export const missingColumns = (mapping: Mapping): readonly string[] =>
  NEEDED.filter((field) => mapping.columns[field] === null).map((field) => FIELD_WORDS[field]);

/** Every row of the table under that mapping; order as in the table. */
export const readTable = (rows: readonly (readonly string[])[], mapping: Mapping): ReadTable => {
  const good: GoodRow[] = [];
  const bad: BadRow[] = [];
  let blank = 0;
  let filledDown = 0;
  const above: { place: string; route: string } = { place: '', route: '' };
  rows.forEach((cells, i) => {
    if (i === 0 && mapping.header) return;
    if (isBlank(cells)) {
      blank += 1;
      return;
    }
    const row = [...cells];
    if (mapping.fillDown)
      for (const field of ['place', 'route'] as const) {
        const at = mapping.columns[field];
        if (at === null) continue;
        const text = one(row[at] ?? '');
        if (text !== '') above[field] = text;
        else if (above[field] !== '') {
          row[at] = above[field];
          filledDown += 1;
        }
      }
    const read = rowOf(row, i + 1, mapping);
    if ('hole' in read) good.push(read);
    else bad.push(read);
  });
  return { good, bad, blank, filledDown };
};

/** Whether a table has empty cells under filled ones in place or route, as merged cells leave them. */
export const looksMerged = (
  rows: readonly (readonly string[])[],
  columns: Mapping['columns'],
  header: boolean,
): boolean =>
  (['place', 'route'] as const).some((field) => {
    const at = columns[field];
    if (at === null) return false;
    const cells = rows
      .slice(header ? 1 : 0)
      .filter((row) => !isBlank(row))
      .map((row) => one(row[at] ?? ''));
    return (cells[0] ?? '') !== '' && cells.some((cell) => cell === '');
  });
