/** Single results of the lots shown in full, several a lot: what the spread within lots is measured from. Pure. */
import type { Series } from '../../../machines/lab/stats/index.ts';
import type { LabView } from '../../../machines/lab/view.ts';

export const sampleSeries = (view: LabView, mix: string, property: string): Series =>
  view.working
    .filter(({ mixId }) => mixId === mix)
    .flatMap((lot) =>
      lot.worksheets
        .filter((sheet) => sheet.aside === null && !sheet.retest)
        .flatMap((sheet) =>
          sheet.results
            .filter((result) => result.property === property)
            .map(({ value }) => ({ lot: lot.lot, at: sheet.testedAt, value })),
        ),
    );
