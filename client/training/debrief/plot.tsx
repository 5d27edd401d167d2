/** A small picture of figures over time: lines, limits, shaded stretches and the moment that is looked at. */
import { useRef } from 'react';
import { useSize } from '../../ribbon/use-size.ts';

export type Series = {
  readonly name: string;
  /** Class of its stroke: plot-a (as it was), plot-b (otherwise). */
  readonly tone: 'a' | 'b';
  readonly points: readonly { readonly x: number; readonly y: number }[];
};
export type Stretch = { readonly from: number; readonly to: number };

const LEFT = 50;
const RIGHT = 12;
/** Room for the words of a limit at the very top. */
const TOP = 20;
const BOTTOM = 24;

/** A round step that cuts `span` into about `parts`. */
export const roundStep = (span: number, parts: number): number => {
  const raw = span / Math.max(1, parts);
  const power = 10 ** Math.floor(Math.log10(raw || 1));
  const step = [1, 2, 5, 10].find((n) => n * power >= raw) ?? 10;
  return step * power;
};

/** Bounds that hold all figures, at round values, with zero in when it is near. */
export const boundsOf = (values: readonly number[]): readonly [number, number] => {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  if (low > high) return [0, 1];
  if (low >= 0 && low < high / 2) low = 0;
  if (high === low) return [low - 1, high + 1];
  const step = roundStep(high - low, 4);
  return [Math.floor(low / step) * step, Math.ceil(high / step) * step];
};

/** Points thinned to about one a pixel, keeping the extremes, so that a long drill draws quickly. */
const thinned = (points: Series['points'], most: number): Series['points'] => {
  if (points.length <= most) return points;
  const each = Math.ceil(points.length / (most / 2));
  const kept: { x: number; y: number }[] = [];
  for (let i = 0; i < points.length; i += each) {
    const part = points.slice(i, i + each);
    const low = part.reduce((a, b) => (b.y < a.y ? b : a));
    const high = part.reduce((a, b) => (b.y > a.y ? b : a));
    kept.push(...(low.x < high.x ? [low, high] : low === high ? [low] : [high, low]));
  }
  return kept;
};

export function Plot({
  label,
  unit,
  series,
  fromX,
  toX,
  limits = [],
  shaded = [],
  atX = null,
  xWords,
  heightPx = 190,
}: {
  readonly label: string;
  readonly unit: string;
  readonly series: readonly Series[];
  readonly fromX: number;
  readonly toX: number;
  readonly limits?: readonly { readonly y: number; readonly words: string }[];
  readonly shaded?: readonly Stretch[];
  readonly atX?: number | null;
  readonly xWords: (x: number) => string;
  readonly heightPx?: number;
}) {
  const box = useRef<HTMLDivElement>(null);
  const { w } = useSize(box);
  const width = Math.max(160, w);
  const [low, high] = boundsOf([
    ...series.flatMap(({ points }) => points.map(({ y }) => y)),
    ...limits.map(({ y }) => y),
  ]);
  const xOf = (x: number) => LEFT + ((x - fromX) / Math.max(1, toX - fromX)) * (width - LEFT - RIGHT);
  const yOf = (y: number) => TOP + (1 - (y - low) / (high - low)) * (heightPx - TOP - BOTTOM);
  const step = roundStep(high - low, 4);
  const rows: number[] = [];
  for (let y = low; y <= high + step / 100; y += step) rows.push(y);
  const apart = Math.max(
    1,
    Math.ceil(90 / Math.max(1, (width - LEFT - RIGHT) / Math.max(1, (toX - fromX) / 60_000))),
  );
  const columns: number[] = [];
  for (let x = fromX; x <= toX; x += apart * 60_000) columns.push(x);
  const digits = step < 0.1 ? 2 : step < 1 ? 1 : 0;
  return (
    <div ref={box} className="plot-box">
      {w > 0 && (
        <svg width={width} height={heightPx} role="img" aria-label={label} className="plot">
          {shaded.map(({ from, to }) => (
            <rect
              key={`${from}-${to}`}
              x={xOf(Math.max(from, fromX))}
              y={TOP}
              width={Math.max(1, xOf(Math.min(to, toX)) - xOf(Math.max(from, fromX)))}
              height={heightPx - TOP - BOTTOM}
              className="plot-shade"
            />
          ))}
          {rows.map((y) => (
            <g key={y}>
              <path d={`M${LEFT} ${yOf(y)}H${width - RIGHT}`} className="plot-rule" />
              <text x={LEFT - 6} y={yOf(y) + 4} textAnchor="end" className="plot-words">
                {y.toFixed(digits).replace('-', '−')}
              </text>
            </g>
          ))}
          {columns.map((x) => (
            <text
              key={x}
              x={xOf(x)}
              y={heightPx - 6}
              textAnchor={x === fromX ? 'start' : 'middle'}
              className="plot-words"
            >
              {xOf(x) < width - 40 ? xWords(x) : ''}
            </text>
          ))}
          {limits.map(({ y, words }) => (
            <g key={words}>
              <path d={`M${LEFT} ${yOf(y)}H${width - RIGHT}`} className="plot-limit" />
              <text
                x={width - RIGHT - 4}
                y={yOf(y) - 4}
                textAnchor="end"
                className="plot-words plot-limit-words"
              >
                {words}
              </text>
            </g>
          ))}
          {series.map(({ name, tone, points }) => (
            <path
              key={name}
              d={thinned(points, width)
                .map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${xOf(x).toFixed(1)} ${yOf(y).toFixed(1)}`)
                .join('')}
              className={`plot-line plot-${tone}`}
            />
          ))}
          {atX !== null && atX >= fromX && atX <= toX && (
            <path d={`M${xOf(atX)} ${TOP}V${heightPx - BOTTOM}`} className="plot-at" />
          )}
        </svg>
      )}
      <p className="plot-key">
        {series.map(({ name, tone }) => (
          <span key={name}>
            <svg viewBox="0 0 26 8" className="plot-swatch" aria-hidden="true">
              <path d="M0 4H26" className={`plot-line plot-${tone}`} />
            </svg>
            {name}
          </span>
        ))}
        <span className="soft">{unit}</span>
      </p>
    </div>
  );
}
