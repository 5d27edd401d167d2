/** A patch list with what each hole takes as a table, which the yard reads in again; words are never formulas. */
import { field } from '../../../machines/reports/csv.ts';
import type { Patch, PatchList } from '../../../machines/yard/patches/patch.types.ts';

const HEAD = [
  'Row',
  'Place',
  'Route',
  'Length (m)',
  'Width (m)',
  'Depth (mm)',
  'Base reached',
  'Compacted by',
  'Surface',
  'Layers (mm)',
  'Mix (kg)',
  'Tack (kg)',
  'Prime (kg)',
  'Crusher run (kg)',
  'Sand (kg)',
  'Laid (kg)',
  'Taken out',
];

const rowOf = (patch: Patch, laidKg: number): readonly (string | number)[] => [
  patch.row,
  patch.place,
  patch.route,
  patch.lengthM,
  patch.widthM,
  patch.depthMm,
  patch.baseReached ? 'yes' : 'no',
  patch.compactedBy,
  patch.surface,
  patch.takeOff.layersMm.join(' + '),
  patch.takeOff.mixKg,
  patch.takeOff.tackKg,
  patch.takeOff.primeKg,
  patch.takeOff.crusherRunKg,
  patch.takeOff.sandKg,
  laidKg,
  patch.takenOut ?? '',
];

/** With a byte order mark, so that a spreadsheet reads it as UTF-8; lines end as RFC 4180 has them. */
export const listCsv = (list: Pick<PatchList, 'patches' | 'laidKg'>): string =>
  `\uFEFF${[HEAD, ...list.patches.map((patch) => rowOf(patch, list.laidKg[patch.row] ?? 0))]
    .map((row) => row.map((value) => field(value)).join(','))
    .join('\r\n')}\r\n`;
