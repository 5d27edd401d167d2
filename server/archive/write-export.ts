/** The export of a shift as the archive writes it. */

import { exportShift } from '../export/export-shift.ts';
import { writeWhole } from '../export/write-file.ts';
import { PlainError } from '../plain-error.ts';
import { spansOf } from '../seal/spans.ts';
import type { WriteExport } from './archive.ts';

export const writeExport: WriteExport = async (store, shift, file) => {
  const span = (await spansOf(store)).find((one) => one.shift === shift);
  if (span === undefined) throw new PlainError(`There is no shift that entry ${shift} opens.`);
  await writeWhole(file, exportShift(store, span), true);
};
