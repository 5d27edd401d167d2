/** A lesson's picture: panels over one shared axis, with bands, limits and where the slider stands. */
import { useId } from 'react';
import { type Axis, shareOn, shortFigure } from './picture-scale.ts';

export type Series = {
  readonly name: string;
  readonly style: 'main' | 'second' | 'third';
  readonly points: readonly (readonly [x: number, y: number])[];
};
export type Level = {
  readonly y: number;
  readonly text: string;
  readonly tone: 'plain' | 'warn' | 'trip';
  /** The side its words stand on; right unless said. */
  readonly side?: 'left' | 'right';
};
export type Panel = {
  readonly y: Axis;
  readonly series: readonly Series[];
  readonly levels?: readonly Level[];
  readonly height?: number;
};
export type Band = { readonly from: number; readonly to: number; readonly text: string };
export type Upright = { readonly x: number; readonly text: string };

const WIDTH = 640;
const LEFT = 58;
const RIGHT = 16;
const TOP = 24;
const GAP = 34;
const BOTTOM = 42;
const PLOT = WIDTH - LEFT - RIGHT;

const place = (x: Axis, value: number): number => LEFT + PLOT * shareOn(x, value);

function Lines({ panel, x, top, height }: { panel: Panel; x: Axis; top: number; height: number }) {
  const at = (value: number) => top + height * (1 - shareOn(panel.y, value));
  // A limit's words stand above its line, and below it near the upper edge.
  const wordsAt = (y: number) => (at(y) - top < 20 ? at(y) + 14 : at(y) - 5);
  return (
    <g>
      <rect x={LEFT} y={top} width={PLOT} height={height} className="lp-frame" />
      {panel.y.ticks.map((tick) => (
        <g key={tick}>
          <line x1={LEFT} x2={WIDTH - RIGHT} y1={at(tick)} y2={at(tick)} className="lp-grid" />
          <text x={LEFT - 6} y={at(tick) + 4} textAnchor="end">
            {shortFigure(tick)}
          </text>
        </g>
      ))}
      <text x={LEFT} y={top - 8} className="lp-axis">
        {panel.y.label}
      </text>
      {panel.series.map(({ name, style, points }) => (
        <polyline
          key={name}
          className={`lp-line ${style}`}
          points={points.map(([px, py]) => `${place(x, px).toFixed(1)},${at(py).toFixed(1)}`).join(' ')}
        />
      ))}
      {panel.levels?.map(({ y, text, tone, side = 'right' }) => (
        <g key={text} className={`lp-level ${tone}`}>
          <line x1={LEFT} x2={WIDTH - RIGHT} y1={at(y)} y2={at(y)} />
          <text
            x={side === 'right' ? WIDTH - RIGHT - 6 : LEFT + 6}
            y={wordsAt(y)}
            textAnchor={side === 'right' ? 'end' : 'start'}
          >
            {text}
          </text>
        </g>
      ))}
    </g>
  );
}

/** The value of a series at x, straight between its points; null outside them. */
const valueAt = (points: Series['points'], x: number): number | null => {
  for (let i = 1; i < points.length; i += 1) {
    const [x0, y0] = points[i - 1] ?? [0, 0];
    const [x1, y1] = points[i] ?? [0, 0];
    if (x >= x0 && x <= x1) return x1 === x0 ? y1 : y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
  }
  return null;
};

export function Picture({
  title,
  words,
  x,
  panels,
  at = null,
  bands = [],
  uprights = [],
}: {
  readonly title: string;
  /** What the picture shows, for those who do not see it. */
  readonly words: string;
  readonly x: Axis;
  readonly panels: readonly Panel[];
  readonly at?: number | null;
  readonly bands?: readonly Band[];
  readonly uprights?: readonly Upright[];
}) {
  const id = useId();
  const heights = panels.map((panel) => panel.height ?? 170);
  const tops = heights.map((_, i) => TOP + heights.slice(0, i).reduce((sum, h) => sum + h + GAP, 0));
  const bottom = (tops.at(-1) ?? TOP) + (heights.at(-1) ?? 0);
  const names = panels.flatMap((panel) => panel.series);
  return (
    <figure className="lesson-picture">
      <figcaption>
        <strong>{title}</strong>
        <ul className="lp-legend">
          {names.map(({ name, style }) => (
            <li key={name}>
              <svg viewBox="0 0 30 10" aria-hidden="true">
                <line x1="1" x2="29" y1="5" y2="5" className={`lp-line ${style}`} />
              </svg>
              {name}
            </li>
          ))}
        </ul>
      </figcaption>
      <svg viewBox={`0 0 ${WIDTH} ${bottom + BOTTOM}`} role="img" aria-labelledby={`${id}-t ${id}-d`}>
        <title id={`${id}-t`}>{title}</title>
        <desc id={`${id}-d`}>{words}</desc>
        {tops.map((top, i) =>
          bands.map(({ from, to, text }) => (
            <rect
              key={`${text}${top}`}
              className="lp-band"
              x={place(x, from)}
              width={place(x, to) - place(x, from)}
              y={top}
              height={heights[i]}
            />
          )),
        )}
        {panels.map((panel, i) => (
          <Lines key={panel.y.label} panel={panel} x={x} top={tops[i] ?? 0} height={heights[i] ?? 0} />
        ))}
        {tops.map((top, i) =>
          uprights.map(({ x: value, text }) => (
            <line
              key={`${text}${top}`}
              className="lp-upright"
              x1={place(x, value)}
              x2={place(x, value)}
              y1={top}
              y2={top + (heights[i] ?? 0)}
            />
          )),
        )}
        {at !== null &&
          panels.map((panel, i) => {
            const top = tops[i] ?? 0;
            const height = heights[i] ?? 0;
            return (
              <g key={panel.y.label} className="lp-at">
                <line x1={place(x, at)} x2={place(x, at)} y1={top} y2={top + height} />
                {panel.series.map(({ name, points }) => {
                  const value = valueAt(points, at);
                  if (value === null) return null;
                  const y = top + height * (1 - shareOn(panel.y, value));
                  return <circle key={name} cx={place(x, at)} cy={y} r="5" />;
                })}
              </g>
            );
          })}
        {x.ticks.map((tick) => (
          <text key={tick} x={place(x, tick)} y={bottom + 17} textAnchor="middle">
            {shortFigure(tick)}
          </text>
        ))}
        <text x={LEFT + PLOT / 2} y={bottom + 37} textAnchor="middle" className="lp-axis">
          {x.label}
        </text>
      </svg>
      {(bands.length > 0 || uprights.length > 0) && (
        <ul className="lp-legend">
          {bands.map(({ text }) => (
            <li key={text}>
              <svg viewBox="0 0 30 10" aria-hidden="true">
                <rect width="30" height="10" className="lp-band" />
              </svg>
              {text}
            </li>
          ))}
          {uprights.map(({ text }) => (
            <li key={text}>
              <svg viewBox="0 0 30 10" aria-hidden="true">
                <line x1="1" x2="29" y1="5" y2="5" className="lp-upright" />
              </svg>
              {text}
            </li>
          ))}
        </ul>
      )}
    </figure>
  );
}
