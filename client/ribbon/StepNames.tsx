/** The word for its step in every block wide enough to hold it, kept inside the part that is in sight. */
import type { RibbonBlock } from '../../machines/line/view.types.ts';
import { textWidthPx } from '../drawing/text.ts';
import { toneOf } from './blocks.ts';
import { type Scale, xOf } from './scale.ts';

const NAME_PX = 12.5;
const ROOM_PX = 10;

type Props = {
  readonly blocks: readonly RibbonBlock[];
  readonly scale: Scale;
  readonly y: number;
  readonly sidePx: number;
  readonly nowMs: number;
};

export const StepNames = ({ blocks, scale, y, sidePx, nowMs }: Props) => (
  <g>
    {blocks.map((block) => {
      const tone = toneOf(block.step);
      const fromX = Math.max(-sidePx, xOf(scale, block.fromMs));
      const toX = Math.min(scale.widthPx + sidePx, xOf(scale, block.toMs ?? nowMs));
      if (tone === null || tone === 'hold') return null;
      if (toX - fromX < textWidthPx(block.step, NAME_PX) + ROOM_PX) return null;
      return (
        <text
          key={`${block.fromMs}-${block.step}`}
          x={(fromX + toX) / 2}
          y={y}
          textAnchor="middle"
          fontSize={NAME_PX}
          className={`rb-name rb-name-${tone}`}
        >
          {block.step}
        </text>
      );
    })}
  </g>
);
