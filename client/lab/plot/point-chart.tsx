/** Values lot by lot with their limits: each point can be reached by pointer, touch and arrow keys. */
import { type KeyboardEvent, type PointerEvent, useId } from 'react';
import { atStep, roundScale, spread } from './spread.ts';

export type Point = {
  readonly key: string;
  /** What stands under the axis. */
  readonly label: string;
  readonly value: number;
  /** Why it is marked, in words; empty for a quiet point. */
  readonly signals: readonly string[];
  /** Where its mark stands when that is not on its own value. */
  readonly markAt?: number;
};
export type Line = {
  readonly value: number;
  readonly text: string;
  readonly style: 'centre' | 'limit' | 'spec';
};
/** A second run of values over the same lots. */
export type Beside = { readonly name: string; readonly values: readonly (number | null)[] };

const WIDTH = 680;
const LEFT = 54;
const RIGHT = 118;
const TOP = 14;
const BOTTOM = 30;
const PLOT = WIDTH - LEFT - RIGHT;
const MOST_LABELS = 8;

const Mark = ({ x, y, marked }: { readonly x: number; readonly y: number; readonly marked: boolean }) =>
  marked ? (
    <path className="pc-signal" d={`M${x} ${y - 7}l7 12.4h-14z`} />
  ) : (
    <circle className="pc-point" cx={x} cy={y} r="3.6" />
  );

export function PointChart({
  title,
  unit,
  points,
  lines,
  besides = [],
  stepped = [],
  selected,
  onSelect,
  onOpen,
  height = 210,
}: {
  readonly title: string;
  readonly unit: string;
  readonly points: readonly Point[];
  readonly lines: readonly Line[];
  readonly besides?: readonly Beside[];
  /** Limits that change from lot to lot. */
  readonly stepped?: readonly { readonly name: string; readonly values: readonly number[] }[];
  readonly selected: number | null;
  readonly onSelect: (index: number) => void;
  /** Enter or double tap: go to what is behind the point. */
  readonly onOpen?: (index: number) => void;
  readonly height?: number;
}) {
  const id = useId();
  const scale = roundScale([
    ...points.map(({ value }) => value),
    ...lines.map(({ value }) => value),
    ...besides.flatMap(({ values }) => values.filter((value) => value !== null)),
    ...stepped.flatMap(({ values }) => values),
  ]);
  const step = (scale.ticks[1] ?? 1) - (scale.ticks[0] ?? 0);
  const x = (i: number): number => LEFT + 12 + ((PLOT - 24) * i) / Math.max(1, points.length - 1);
  const y = (value: number): number => TOP + height * (1 - (value - scale.min) / (scale.max - scale.min));
  const every = Math.ceil(points.length / MOST_LABELS);
  const words = spread(
    lines.map(({ value }) => y(value) + 4),
    15,
    TOP + 8,
    TOP + height,
  );
  const path = (values: readonly (number | null)[]): string =>
    values
      .flatMap((value, i) => (value === null ? [] : [`${x(i).toFixed(1)},${y(value).toFixed(1)}`]))
      .join(' ');
  const at = selected === null ? null : (points[selected] ?? null);

  const pick = (event: PointerEvent<HTMLElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    const across = ((event.clientX - box.left) / box.width) * WIDTH;
    const nearest = Math.round(((across - LEFT - 12) / (PLOT - 24)) * Math.max(1, points.length - 1));
    onSelect(Math.min(points.length - 1, Math.max(0, nearest)));
  };
  const keys = (event: KeyboardEvent) => {
    const last = points.length - 1;
    const now = selected ?? last;
    const next =
      event.key === 'ArrowRight' || event.key === 'ArrowUp'
        ? Math.min(last, now + 1)
        : event.key === 'ArrowLeft' || event.key === 'ArrowDown'
          ? Math.max(0, now - 1)
          : event.key === 'Home'
            ? 0
            : event.key === 'End'
              ? last
              : null;
    if (next !== null) onSelect(next);
    else if (event.key === 'Enter' && selected !== null) onOpen?.(selected);
    else return;
    event.preventDefault();
  };
  const said =
    at === null
      ? 'no lot chosen'
      : `lot ${at.label}: ${atStep(at.value, step / 10)} ${unit}${at.signals.length > 0 ? `, signal: ${at.signals.join(', ')}` : ''}`;

  return (
    <figure className="point-chart">
      <figcaption id={`${id}-t`}>
        <strong>{title}</strong>
        {unit !== '' && <span className="soft"> {unit}</span>}
      </figcaption>
      <div
        className="pc-box"
        role="slider"
        tabIndex={0}
        aria-labelledby={`${id}-t`}
        aria-valuemin={1}
        aria-valuemax={Math.max(1, points.length)}
        aria-valuenow={(selected ?? points.length - 1) + 1}
        aria-valuetext={said}
        onKeyDown={keys}
        onPointerMove={pick}
        onPointerDown={pick}
        onDoubleClick={() => selected !== null && onOpen?.(selected)}
      >
        <svg viewBox={`0 0 ${WIDTH} ${TOP + height + BOTTOM}`} aria-hidden="true">
          <rect className="pc-frame" x={LEFT} y={TOP} width={PLOT} height={height} />
          {scale.ticks.map((tick) => (
            <g key={tick}>
              <line className="pc-grid" x1={LEFT} x2={LEFT + PLOT} y1={y(tick)} y2={y(tick)} />
              <text x={LEFT - 7} y={y(tick) + 4} textAnchor="end">
                {atStep(tick, step)}
              </text>
            </g>
          ))}
          {lines.map(({ value, text, style }, i) => (
            <g key={text} className={`pc-line ${style}`}>
              <line x1={LEFT} x2={LEFT + PLOT} y1={y(value)} y2={y(value)} />
              <text x={LEFT + PLOT + 7} y={words[i]}>
                {text}
              </text>
            </g>
          ))}
          {stepped.map(({ name, values }) => (
            <polyline key={name} className="pc-stepped" points={path(values)} />
          ))}
          <polyline className="pc-run" points={path(points.map(({ value }) => value))} />
          {besides.map(({ name, values }) => (
            <polyline key={name} className="pc-beside" points={path(values)} />
          ))}
          {at !== null && selected !== null && (
            <line className="pc-at" x1={x(selected)} x2={x(selected)} y1={TOP} y2={TOP + height} />
          )}
          {points.map(({ key, value, signals, markAt }, i) => (
            <Mark key={key} x={x(i)} y={y(markAt ?? value)} marked={signals.length > 0} />
          ))}
          {at !== null && selected !== null && (
            <circle className="pc-chosen" cx={x(selected)} cy={y(at.markAt ?? at.value)} r="9" />
          )}
          {points.map(({ key, label }, i) =>
            i % every === 0 ? (
              <text key={key} x={x(i)} y={TOP + height + 19} textAnchor="middle">
                {points.length > 7 ? label.replace(/^\d\d/, '') : label}
              </text>
            ) : null,
          )}
        </svg>
      </div>
    </figure>
  );
}
