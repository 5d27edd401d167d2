/** The worksheets there are, by id; machines/lab/worksheets has one file a sheet. */
export const SHEET_IDS = [
  'moisture',
  'sieve',
  'extraction',
  'ignition',
  'emulsion-residue',
  'cutback-residue',
  'wet-coating',
  'static-immersion',
  'particle-count',
  'water-resistance',
  'workability',
  'bond',
  'binder-delivery',
  'aggregate',
] as const;
export type SheetId = (typeof SHEET_IDS)[number];
