/** Marks over the ribbon: alarms, trips, refusals, samples and what persons did; crowded ones share a place. */
import type { RibbonMark } from '../../machines/line/view.types.ts';
import { commandWords } from '../records/words.ts';

export type MarkKind = Exclude<RibbonMark['mark'], 'lot opened' | 'lot closed'>;

/** Glyph of each kind, worst first: in a crowd the worst is shown. */
export const GLYPHS: readonly (readonly [MarkKind, string])[] = [
  ['trip', '■'],
  ['alarm', '▲'],
  ['refusal', '✕'],
  ['sample', '⚑'],
  ['person', '•'],
];

const rank = (mark: RibbonMark['mark']): number => GLYPHS.findIndex(([kind]) => kind === mark);

export type Crowd = {
  readonly atMs: number;
  readonly kind: MarkKind;
  readonly glyph: string;
  readonly marks: readonly RibbonMark[];
};

/** Joins marks of the same row that stand closer than `apartMs`; marks are taken in order of time. */
export const crowdsOf = (
  marks: readonly RibbonMark[],
  apartMs: number,
  row: 'person' | 'event',
): readonly Crowd[] => {
  const own = marks
    .filter((mark) => rank(mark.mark) >= 0 && (mark.mark === 'person') === (row === 'person'))
    .toSorted((a, b) => a.atMs - b.atMs);
  const crowds: { atMs: number; marks: RibbonMark[] }[] = [];
  for (const mark of own) {
    const last = crowds.at(-1);
    if (last !== undefined && mark.atMs - last.atMs < apartMs) last.marks.push(mark);
    else crowds.push({ atMs: mark.atMs, marks: [mark] });
  }
  return crowds.map(({ atMs, marks: joined }) => {
    const worst = Math.min(...joined.map((mark) => rank(mark.mark)));
    const [kind, glyph] = GLYPHS[worst] ?? ['person', '·'];
    return { atMs, kind, glyph, marks: joined };
  });
};

const REFUSAL = /^(\w+) refused: (.*)$/s;

/** What a mark says; a refusal names its command by the words a person knows it by. */
export const markWords = ({ mark, text }: RibbonMark): string => {
  const [, command, why] = REFUSAL.exec(text) ?? [];
  if (mark !== 'refusal' || command === undefined || why === undefined) return text;
  return `Refused to ${commandWords(command)}: ${why}`;
};

/** Marks within `reachMs` of a moment, nearest first. */
export const marksNear = (
  marks: readonly RibbonMark[],
  atMs: number,
  reachMs: number,
): readonly RibbonMark[] =>
  marks
    .filter((mark) => Math.abs(mark.atMs - atMs) <= reachMs)
    .toSorted((a, b) => Math.abs(a.atMs - atMs) - Math.abs(b.atMs - atMs));
