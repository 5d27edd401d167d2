/** A way material takes: thin when idle, heavier when it is the way in use, dark with slow ticks when it moves. */

export type Point = readonly [number, number];

type Props = {
  readonly points: readonly Point[];
  readonly inUse?: boolean;
  readonly moving?: boolean;
  /** No arrow head: for lines that run along a wall. */
  readonly bare?: boolean;
};

const HEAD_LONG = 9;
const HEAD_HALF = 5;

/** Corners of an arrow head whose tip is the end of the line from `from` to `to`. */
export const arrowHead = (from: Point, to: Point): readonly Point[] => {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const ux = (to[0] - from[0]) / length;
  const uy = (to[1] - from[1]) / length;
  const bx = to[0] - ux * HEAD_LONG;
  const by = to[1] - uy * HEAD_LONG;
  return [to, [bx - uy * HEAD_HALF, by + ux * HEAD_HALF], [bx + uy * HEAD_HALF, by - ux * HEAD_HALF]];
};

const pathOf = (points: readonly Point[]) =>
  points.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${x} ${y}`).join('');

export const Flow = ({ points, inUse = false, moving = false, bare = false }: Props) => {
  const path = pathOf(points);
  const last = points.at(-1);
  const before = points.at(-2);
  const state = moving ? ' pd-flow-moving' : inUse ? ' pd-flow-used' : '';
  return (
    <g className={`pd-flow${state}`}>
      <path d={path} className="pd-flow-line" />
      {moving && <path d={path} className="pd-flow-ticks" />}
      {moving && !bare && last !== undefined && before !== undefined && (
        <polygon points={arrowHead(before, last).join(' ')} className="pd-flow-head" />
      )}
    </g>
  );
};
