/** What changed when it drifted: the labels of the lots a drift began with, against the last quiet lots before. */
import { LABEL_WORDS, LABELS, type LabelName, type Series } from './series.types.ts';

export type Change = {
  readonly label: LabelName;
  /** What the quiet lots had, the newest last. */
  readonly was: readonly string[];
  readonly now: string;
  /** First lot that had it. */
  readonly since: string;
  readonly words: string;
};

export type DriftNote = {
  /** Lots the drift is counted over: from where it began to where it was found. */
  readonly lots: readonly string[];
  readonly quiet: readonly string[];
  readonly changes: readonly Change[];
  readonly words: string;
};

const listed = (words: readonly string[]): string => words.join(', ');

/**
 * Compares the lots from index `began` to `found` with up to `quietLots` before them. A label counts as changed when a
 * drifting lot has a value no quiet lot had; a label unknown on either side says nothing.
 */
export const whatChanged = (
  lots: Series,
  {
    began,
    found,
    quietLots = 3,
  }: { readonly began: number; readonly found: number; readonly quietLots?: number },
): DriftNote => {
  const drifting = lots.slice(began, found + 1);
  const before = lots.slice(Math.max(0, began - quietLots), began);
  const changes = LABELS.flatMap((label): Change[] => {
    const was = [...new Set(before.flatMap((one) => (one[label] === undefined ? [] : [one[label]])))];
    if (was.length === 0) return [];
    const first = drifting.find((one) => one[label] !== undefined && !was.includes(one[label]));
    const now = first?.[label];
    if (first === undefined || now === undefined) return [];
    return [
      {
        label,
        was,
        now,
        since: first.lot,
        words: `${LABEL_WORDS[label]}: ${listed(was)} before, ${now} since lot ${first.lot}`,
      },
    ];
  });
  const names = drifting.map((one) => one.lot);
  const since = names[0] ?? '';
  const head =
    before.length === 0
      ? `It began with lot ${since}, and there is no quiet lot before it to compare with.`
      : changes.length === 0
        ? `It began about lot ${since}; none of the things noted with a lot changed then: look at pump, meter and scale.`
        : `It began about lot ${since}. Changed since the quiet lots: ${changes.map((one) => one.words).join('; ')}.`;
  return { lots: names, quiet: before.map((one) => one.lot), changes, words: head };
};
