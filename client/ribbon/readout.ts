/** What stands at a moment of the shift, in words. */
import type { LineView, RibbonBlock } from '../../machines/line/view.types.ts';
import { elide, textWidthPx } from '../drawing/text.ts';
import { blockAt } from './blocks.ts';
import type { Bracket } from './brackets.ts';
import { marksNear, markWords } from './marks.ts';
import { clockAt, durationText } from './scale.ts';

const blockText = (block: RibbonBlock, view: LineView): string => {
  const { startsAt, atMs } = view.shift;
  const who = block.batch === null ? '' : `Batch ${block.batch} · `;
  // What a wait that is over was for is not kept; the present one says it.
  const what = block.step === 'wait' && block.toMs === null ? `wait: ${view.now.title}` : block.step;
  const to = block.toMs === null ? 'now' : clockAt(startsAt, block.toMs, true);
  const took = durationText((block.toMs ?? atMs) - block.fromMs);
  return `${who}${what} · ${clockAt(startsAt, block.fromMs, true)}–${to} · ${took}`;
};

export type Readout = {
  readonly time: string;
  readonly block: string;
  readonly lot: string;
  readonly marks: string;
};

/** Block, lot and marks at a moment; `reachMs` is how near a mark must be. */
export const readoutAt = (
  view: LineView,
  brackets: readonly Bracket[],
  atMs: number,
  reachMs: number,
): Readout => {
  const block = blockAt(view.ribbon.blocks, atMs, view.shift.atMs);
  const bracket = brackets.find((each) => each.kind === 'lot' && atMs >= each.fromMs && atMs <= each.toMs);
  const isAhead = atMs > view.shift.atMs;
  const none =
    view.ribbon.blocks.length === 0 ? 'nothing has run yet; each step is drawn here' : 'nothing running';
  const empty = isAhead ? 'still ahead' : none;
  return {
    time: clockAt(view.shift.startsAt, atMs, true),
    block: block === null ? empty : blockText(block, view),
    lot: bracket?.texts[0] ?? '',
    marks: marksNear(view.ribbon.marks, atMs, reachMs).slice(0, 3).map(markWords).join('; '),
  };
};

export const SEPARATOR = ' · ';
const SIZE_PX = 14;
/** Below this an elided part says nothing. */
const LEAST_PART_PX = 60;

/** The parts of a readout that fit beside each other in `roomPx`; the last of them may be elided. Marks come before the lot. */
export const fitReadout = (
  readout: Readout,
  roomPx: number,
): readonly { readonly kind: 'block' | 'marks' | 'lot'; readonly text: string }[] => {
  let left = roomPx - textWidthPx(`${readout.time} `, SIZE_PX, true);
  const said: { kind: 'block' | 'marks' | 'lot'; text: string }[] = [];
  for (const kind of ['block', 'marks', 'lot'] as const) {
    if (readout[kind] === '') continue;
    if (said.length > 0) left -= textWidthPx(SEPARATOR, SIZE_PX);
    if (left < LEAST_PART_PX) break;
    const text = elide(readout[kind], left, SIZE_PX);
    said.push({ kind, text });
    left -= textWidthPx(text, SIZE_PX);
  }
  return said;
};
