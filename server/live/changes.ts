/** What changed between two views: whole sections, and the ribbon by its tail. */
import type { LineSection, LineView, RibbonView } from '../../machines/line/view.types.ts';
import type { Change, RibbonChange } from '../../machines/live/protocol.ts';

/** Length of the common front of two lists. Items are small and flat. */
const commonFront = <T>(before: readonly T[], now: readonly T[]): number => {
  const most = Math.min(before.length, now.length);
  let n = 0;
  while (n < most && (before[n] === now[n] || JSON.stringify(before[n]) === JSON.stringify(now[n]))) n++;
  return n;
};

const ribbonChange = (before: RibbonView, now: RibbonView): RibbonChange | null => {
  if (before === now) return null;
  const keepBlocks = commonFront(before.blocks, now.blocks);
  const keepMarks = commonFront(before.marks, now.marks);
  const same =
    keepBlocks === before.blocks.length &&
    keepBlocks === now.blocks.length &&
    keepMarks === before.marks.length &&
    keepMarks === now.marks.length;
  if (same) return null;
  return { keepBlocks, blocks: now.blocks.slice(keepBlocks), keepMarks, marks: now.marks.slice(keepMarks) };
};

/** Sections and ribbon that differ, compared by identity first and then by content. */
export const changesBetween = (before: LineView, now: LineView): Pick<Change, 'sections' | 'ribbon'> => {
  const sections: { [key: string]: unknown } = {};
  for (const key of Object.keys(now) as LineSection[]) {
    if (key === 'ribbon' || before[key] === now[key]) continue;
    if (JSON.stringify(before[key]) !== JSON.stringify(now[key])) sections[key] = now[key];
  }
  return { sections: sections as Change['sections'], ribbon: ribbonChange(before.ribbon, now.ribbon) };
};
