/** Which column of a table is which measure of a hole, guessed from the words at its head. */
import type { CompactedBy, Surface } from '../patch.types.ts';
import type { Decimal } from './numbers.ts';

export const FIELDS = [
  'place',
  'route',
  'length',
  'width',
  'depth',
  'base',
  'compactedBy',
  'surface',
] as const;
export type Field = (typeof FIELDS)[number];

export const FIELD_WORDS: { readonly [F in Field]: string } = {
  place: 'Place',
  route: 'Route',
  length: 'Length',
  width: 'Width',
  depth: 'Depth',
  base: 'Base reached',
  compactedBy: 'Compacted by',
  surface: 'Surface',
};
export const NEEDED: readonly Field[] = ['place', 'length', 'width', 'depth'];

export const UNITS = ['m', 'cm', 'mm'] as const;
export type Unit = (typeof UNITS)[number];
export type Sized = 'length' | 'width' | 'depth';

export type Mapping = {
  readonly columns: { readonly [F in Field]: number | null };
  readonly units: { readonly [S in Sized]: Unit };
  readonly decimal: Decimal;
  readonly header: boolean;
  /** An empty place or route means the one above it, as a merged cell leaves it. */
  readonly fillDown: boolean;
  /** For rows that say nothing. */
  readonly otherwise: {
    readonly compactedBy: CompactedBy;
    readonly surface: Surface;
    readonly route: string;
  };
};

const HEADS: { readonly [F in Field]: RegExp } = {
  place: /place|location|where|address|street|road|site|hole|chainage|position/iu,
  route: /route|round|area|district|section|zone|ward|crew/iu,
  length: /length|^l\b|^l$/iu,
  width: /width|breadth|^w\b|^w$|^b$/iu,
  depth: /depth|deep|thick|^d\b|^d$/iu,
  base: /base|granular/iu,
  compactedBy: /compact|roller|rammer|tool|plant|method/iu,
  surface: /surface|pavement|material/iu,
};

/** Read before the others, as their words are more particular. */
const ORDER: readonly Field[] = [
  'length',
  'width',
  'depth',
  'base',
  'compactedBy',
  'route',
  'surface',
  'place',
];

const unitIn = (head: string, otherwise: Unit): Unit => {
  const found = /(?:^|[\s([_/,])(mm|cm|m)(?:$|[\s)\]_.])/iu.exec(head)?.[1]?.toLowerCase();
  return found === 'mm' || found === 'cm' || found === 'm' ? found : otherwise;
};

const isNumber = (cell: string): boolean =>
  /^[-+]?[\d\s.,']+\s*(m|cm|mm)?$/iu.test(cell.trim()) && /\d/u.test(cell);

/** The first row is a head when none of its cells is a number and at least two are words we know. */
export const looksLikeHead = (row: readonly string[]): boolean =>
  !row.some(isNumber) &&
  row.filter((cell) => FIELDS.some((field) => HEADS[field].test(cell.trim()))).length >= 2;

const NONE: Mapping['columns'] = {
  place: null,
  route: null,
  length: null,
  width: null,
  depth: null,
  base: null,
  compactedBy: null,
  surface: null,
};

/** Columns by the words of the head; without one, by the order our own printed list has: place, route, L, W, D, … */
export const guessColumns = (first: readonly string[]): Pick<Mapping, 'columns' | 'units' | 'header'> => {
  const header = looksLikeHead(first);
  if (!header) {
    const columns = { ...NONE };
    FIELDS.forEach((field, i) => {
      columns[field] = i < first.length ? i : null;
    });
    // Without words at its head a table of four columns is place and the three sizes.
    if (first.length === 4)
      Object.assign(columns, { route: null, length: 1, width: 2, depth: 3, base: null });
    return { columns, units: { length: 'm', width: 'm', depth: 'mm' }, header };
  }
  const columns: { [F in Field]: number | null } = { ...NONE };
  const taken = new Set<number>();
  for (const field of ORDER) {
    const at = first.findIndex((cell, i) => !taken.has(i) && HEADS[field].test(cell.trim()));
    if (at < 0) continue;
    columns[field] = at;
    taken.add(at);
  }
  const head = (field: Sized): string => first[columns[field] ?? -1] ?? '';
  return {
    columns,
    units: {
      length: unitIn(head('length'), 'm'),
      width: unitIn(head('width'), 'm'),
      depth: unitIn(head('depth'), 'mm'),
    },
    header,
  };
};
