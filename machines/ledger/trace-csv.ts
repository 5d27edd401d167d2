/** A trace as one RFC 4180 table: patches first, then where the rest is, or what a patch is made of. */
import { field } from '../reports/csv.ts';
import type { Traced } from '../yard/trace/traced.types.ts';

const HEAD = [
  'what',
  'id',
  'place',
  'at',
  'by',
  'loads',
  'lots',
  'affected mix kg',
  'of what is traced kg',
] as const;

type Row = readonly (string | number | null)[];

const kg = (grams: number): number => grams / 1000;

const rowsOf = ({ direction, patches, left, batches, madeOf }: Traced): readonly Row[] => [
  ...patches.map(
    ({ patch, place, laidAt, by, loads, lots, affectedGrams, shareGrams }): Row => [
      'patch',
      patch,
      place,
      laidAt,
      by,
      loads.join(' '),
      lots.join(' '),
      kg(affectedGrams),
      kg(shareGrams),
    ],
  ),
  ...left.map(
    ({ kind, id, affectedGrams, shareGrams }): Row => [
      kind,
      id,
      '',
      '',
      '',
      '',
      '',
      kg(affectedGrams),
      kg(shareGrams),
    ],
  ),
  ...batches.map(
    ({ batch, lot, at, by, mix, shareGrams }): Row => [
      'batch',
      batch,
      mix,
      at,
      by,
      '',
      lot,
      null,
      kg(shareGrams),
    ],
  ),
  ...(direction === 'forward'
    ? []
    : madeOf.map(
        ({ kind, id, grams }): Row => [kind ?? 'not on record', id, '', '', '', '', '', null, kg(grams)],
      )),
];

/** Lines end with CR LF; words that a spreadsheet would take for a formula are neutralised. */
export const traceCsv = (traced: Traced): string =>
  `${[HEAD, ...rowsOf(traced)].map((row) => row.map((cell) => field(cell, typeof cell === 'number' ? 3 : undefined)).join(',')).join('\r\n')}\r\n`;
