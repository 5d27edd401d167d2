/** Everything that happened to a lot in the lab, in the order of the plant's clock. Pure. */
import type { LabLot } from '../../../machines/lab/state.ts';

export type Happening = {
  readonly at: string;
  /** Id of a person, or '' where the line itself did it. */
  readonly by: string;
  readonly words: string;
  /** Where more of it is. */
  readonly path: string | null;
};

const reasonAfter = (words: string, reason: string): string =>
  reason === '' ? words : `${words}: ${reason}`;

export function timelineOf(lot: LabLot): readonly Happening[] {
  const samples = lot.samples.flatMap((sample): Happening[] => {
    const path = `/lab/samples/${lot.lot}/${sample.n}`;
    return [
      ...(sample.takenAt === null
        ? []
        : [
            {
              at: sample.takenAt,
              by: sample.takenBy ?? '',
              words: `Sample ${sample.n} (${sample.test}) taken${sample.batch === null ? '' : ` from batch ${sample.batch}`}`,
              path,
            },
          ]),
      ...sample.custody.map(({ at, from, to }) => ({
        at,
        by: from,
        words: `Sample ${sample.n} handed over to ${to}`,
        path,
      })),
    ];
  });
  const sheets = lot.worksheets.flatMap((sheet): Happening[] => {
    const path = `/lab/worksheets/${sheet.id}`;
    return [
      {
        at: sheet.enteredAt,
        by: sheet.enteredBy,
        words: `${sheet.id} entered: ${sheet.test} of sample ${sheet.sample}${sheet.retest ? ', retest' : ''}`,
        path,
      },
      ...sheet.corrections.map(({ at, by, reason }) => ({
        at,
        by,
        words: reasonAfter(`${sheet.id} corrected`, reason),
        path,
      })),
      ...sheet.photos.map(({ at, by, caption }) => ({
        at,
        by,
        words: reasonAfter(`Photograph attached to ${sheet.id}`, caption),
        path,
      })),
      ...(sheet.aside === null
        ? []
        : [
            {
              at: sheet.aside.at,
              by: sheet.aside.by,
              words: reasonAfter(`${sheet.id} set aside`, sheet.aside.reason),
              path,
            },
          ]),
    ];
  });
  const decided = lot.events.map(
    ({ at, by, what, reason }): Happening => ({ at, by, words: reasonAfter(what, reason), path: null }),
  );
  return [
    { at: lot.openedAt, by: '', words: 'Opened by its first batch', path: null },
    ...(lot.closedAt === null
      ? []
      : [{ at: lot.closedAt, by: '', words: lot.short ? 'Closed short' : 'Closed', path: null }]),
    ...samples,
    ...sheets,
    ...decided,
  ].sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
}
