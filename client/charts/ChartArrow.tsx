/** A transition between two states: a line with rounded corners, an arrow head and its words on it. */
import type { ElkPoint } from 'elkjs/lib/elk-api.js';
import { LABEL_LINE_PX, LABEL_PX, labelLines } from './elk-graph.ts';
import type { Placed } from './layout.ts';

const CORNER_PX = 7;
const HEAD_PX = 8;

const towards = (from: ElkPoint, to: ElkPoint, px: number): ElkPoint => {
  const length = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  const share = Math.min(px, length / 2) / length;
  return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
};

/** SVG path through the points with rounded corners. */
export const roundedPath = (points: readonly ElkPoint[]): string => {
  const [first] = points;
  if (first === undefined) return '';
  const parts = [`M${first.x} ${first.y}`];
  for (let n = 1; n < points.length; n++) {
    const before = points[n - 1] as ElkPoint;
    const here = points[n] as ElkPoint;
    const next = points[n + 1];
    if (next === undefined) parts.push(`L${here.x} ${here.y}`);
    else {
      const enter = towards(here, before, CORNER_PX);
      const leave = towards(here, next, CORNER_PX);
      parts.push(`L${enter.x} ${enter.y}Q${here.x} ${here.y} ${leave.x} ${leave.y}`);
    }
  }
  return parts.join('');
};

const headOf = (points: readonly ElkPoint[]): string => {
  const tip = points.at(-1);
  const before = points.at(-2);
  if (tip === undefined || before === undefined) return '';
  const angle = Math.atan2(tip.y - before.y, tip.x - before.x);
  const corner = (turn: number) =>
    `${tip.x - HEAD_PX * Math.cos(angle + turn)} ${tip.y - HEAD_PX * Math.sin(angle + turn)}`;
  return `M${tip.x} ${tip.y}L${corner(0.45)}L${corner(-0.45)}Z`;
};

type Props = {
  readonly points: readonly ElkPoint[];
  readonly label: Placed | null;
  readonly words: readonly string[];
  /** It leaves an active state: it may happen next. */
  readonly isNext: boolean;
};

export const ChartArrow = ({ points, label, words, isNext }: Props) => (
  <g className={isNext ? 'sc-arrow sc-next' : 'sc-arrow'}>
    <path d={roundedPath(points)} className="sc-line" />
    <path d={headOf(points)} className="sc-head" />
    {label !== null && (
      <>
        <rect x={label.x} y={label.y} width={label.w} height={label.h} rx={4} className="sc-plate" />
        {labelLines(words).map((line, index) => (
          <text
            // biome-ignore lint/suspicious/noArrayIndexKey: lines have no identity but their place
            key={index}
            x={label.x + label.w / 2}
            y={label.y + 13 + index * LABEL_LINE_PX}
            textAnchor="middle"
            fontSize={LABEL_PX}
            className="sc-words"
          >
            {line}
          </text>
        ))}
      </>
    )}
  </g>
);
