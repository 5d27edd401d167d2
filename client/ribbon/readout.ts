/** What stands at a moment of the shift, in words. */
import type { LineView, RibbonBlock } from '../../machines/line/view.types.ts';
import { blockAt } from './blocks.ts';
import type { Bracket } from './brackets.ts';
import { marksNear } from './marks.ts';
import { clockAt, durationText } from './scale.ts';

const blockText = (block: RibbonBlock, view: LineView): string => {
  const { startsAt, atMs } = view.shift;
  const who = block.batch === null ? '' : `Batch ${block.batch} · `;
  const to = block.toMs === null ? 'now' : clockAt(startsAt, block.toMs, true);
  const took = durationText((block.toMs ?? atMs) - block.fromMs);
  return `${who}${block.step} · ${clockAt(startsAt, block.fromMs, true)}–${to} · ${took}`;
};

/** Block, lot and marks at a moment; `reachMs` is how near a mark must be. */
export const readoutAt = (
  view: LineView,
  brackets: readonly Bracket[],
  atMs: number,
  reachMs: number,
): { readonly time: string; readonly block: string; readonly lot: string; readonly marks: string } => {
  const block = blockAt(view.ribbon.blocks, atMs, view.shift.atMs);
  const bracket = brackets.find((each) => each.kind === 'lot' && atMs >= each.fromMs && atMs <= each.toMs);
  const isAhead = atMs > view.shift.atMs;
  const empty = isAhead ? 'still ahead' : 'nothing running';
  return {
    time: clockAt(view.shift.startsAt, atMs, true),
    block: block === null ? empty : blockText(block, view),
    lot: bracket?.texts[0] ?? '',
    marks: marksNear(view.ribbon.marks, atMs, reachMs)
      .slice(0, 3)
      .map((mark) => mark.text)
      .join('; '),
  };
};
