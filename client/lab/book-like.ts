/** The book's own arithmetic on what the console is shown: the same judgement and the same sheets as on the server. Pure. */
import type { Judgement } from '../../machines/lab/judge/judge.types.ts';
import { sheetContext } from '../../machines/lab/sheet-work.ts';
import { gradingsNow, judgementOf } from '../../machines/lab/standing.ts';
import { EMPTY_LAB, type LabLot, type LabState } from '../../machines/lab/state.ts';
import type { LabView } from '../../machines/lab/view.ts';
import type { SheetContext } from '../../machines/lab/worksheets/index.ts';
import { sieveOf } from '../../machines/scenario/lab-tests.ts';
import type { Specification } from '../../machines/scenario/specification.schema.ts';

const asBook = (view: LabView): LabState => ({
  ...EMPTY_LAB,
  now: { ...EMPTY_LAB.now, gradings: view.gradings },
  specifications: Object.fromEntries(view.specifications.map((one) => [`${one.id}@${one.version}`, one])),
  mixes: Object.fromEntries(view.mixes.map((one) => [`${one.id}@${one.version}`, one])),
  others: view.others.toReversed(),
});

/** Null where the lot's mix names no specification. */
export const judged = (view: LabView, lot: LabLot): Judgement | null => judgementOf(asBook(view), lot);

/** Stone of the plant at hand, by number of its bin. */
export const stoneOf = (view: LabView): ReturnType<typeof gradingsNow> => gradingsNow(asBook(view));

/** What a worksheet on this sample is worked out with; lot null for a test on something else. */
export const contextOf = (
  view: LabView,
  lot: LabLot | null,
  sample: number | null,
  at: string,
): SheetContext => sheetContext(asBook(view), lot, sample, at);

export const specOf = (view: LabView, lot: LabLot | null): Specification | null =>
  view.specifications.find(
    ({ id, version }) => id === lot?.specification && version === lot.specificationVersion,
  ) ?? null;

/** The grading band of a specification: where a side is open it reaches to nothing or to all. */
export const bandOf = (
  spec: Specification | null,
): readonly { readonly mm: number; readonly fromPct: number; readonly toPct: number }[] =>
  (spec?.limits ?? []).flatMap(({ property, from, to, when }) => {
    const mm = sieveOf(property);
    return mm === null || when !== undefined ? [] : [{ mm, fromPct: from ?? 0, toPct: to ?? 100 }];
  });
