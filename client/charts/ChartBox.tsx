/** One state of a chart: a box with its title, filled and marked when it is active. */
import { MARK_PX, PAD_PX, TITLE_LINE_PX, TITLE_PX, titleLines } from './elk-graph.ts';
import type { Box } from './graph.ts';
import type { Placed } from './layout.ts';

type Props = { readonly box: Box; readonly at: Placed; readonly isActive: boolean; readonly depth: number };

export const ChartBox = ({ box, at, isActive, depth }: Props) => {
  const isHolder = box.children.length > 0;
  const kind = `${isHolder ? 'sc-holder' : 'sc-leaf'}${isActive ? ' sc-active' : ''}${depth % 2 === 1 ? ' sc-odd' : ''}`;
  return (
    <g className={kind}>
      <rect x={at.x} y={at.y} width={at.w} height={at.h} rx={isHolder ? 10 : 8} className="sc-box" />
      {box.kind === 'final' && (
        <rect x={at.x + 3} y={at.y + 3} width={at.w - 6} height={at.h - 6} rx={6} className="sc-inner" />
      )}
      {isActive && <circle cx={at.x + PAD_PX + 4} cy={at.y + PAD_PX + 7} r={4.5} className="sc-dot" />}
      {titleLines(box.title).map((line, index) => (
        <text
          // biome-ignore lint/suspicious/noArrayIndexKey: lines have no identity but their place
          key={index}
          x={at.x + PAD_PX + MARK_PX}
          y={at.y + PAD_PX + 12 + index * TITLE_LINE_PX}
          fontSize={TITLE_PX}
          className="sc-title"
        >
          {line}
        </text>
      ))}
    </g>
  );
};
