/** A grading against its band, on the 0.45-power axis or on a logarithmic one. */
import { useId, useState } from 'react';
import { recall, remember } from '../../live/memory.ts';
import { spread } from './spread.ts';

export type Passing = { readonly mm: number; readonly pct: number };
export type BandAt = { readonly mm: number; readonly fromPct: number; readonly toPct: number };
export type Axis = 'power' | 'log';

const WIDTH = 640;
const HEIGHT = 300;
const LEFT = 46;
const RIGHT = 16;
const TOP = 12;
const BOTTOM = 44;
const PLOT_W = WIDTH - LEFT - RIGHT;
const PLOT_H = HEIGHT - TOP - BOTTOM;
const LABEL_PX = 38;
const FINEST_MM = 0.05;

/** Share of the axis, 0 to 1, at which a sieve stands: (d/D)^0.45, or by logarithm from 0.05 mm to D. */
export const sieveShare = (mm: number, largestMm: number, axis: Axis): number =>
  axis === 'power'
    ? (mm / largestMm) ** 0.45
    : Math.log(Math.max(mm, FINEST_MM) / FINEST_MM) / Math.log(largestMm / FINEST_MM);

const KEY = 'lab-sieve-axis';

export function GradationPlot({
  title,
  passing,
  band,
  aim = [],
}: {
  readonly title: string;
  readonly passing: readonly Passing[];
  readonly band: readonly BandAt[];
  /** What the mix is made to. */
  readonly aim?: readonly Passing[];
}) {
  const id = useId();
  const [axis, setAxis] = useState<Axis>(recall(KEY) === 'log' ? 'log' : 'power');
  const choose = (next: Axis) => {
    remember(KEY, next);
    setAxis(next);
  };
  const sieves = [...new Set([...passing, ...band, ...aim].map(({ mm }) => mm))].sort((a, b) => a - b);
  const largest = sieves.at(-1) ?? 19;
  const x = (mm: number): number => LEFT + PLOT_W * sieveShare(mm, largest, axis);
  const y = (pct: number): number => TOP + PLOT_H * (1 - pct / 100);
  const run = (points: readonly Passing[]): string =>
    [...points]
      .sort((a, b) => a.mm - b.mm)
      .map(({ mm, pct }) => `${x(mm).toFixed(1)},${y(pct).toFixed(1)}`)
      .join(' ');
  const upwards = [...band].sort((a, b) => a.mm - b.mm);
  const area = [
    ...upwards.map(({ mm, toPct }) => `${x(mm).toFixed(1)},${y(toPct).toFixed(1)}`),
    ...upwards.toReversed().map(({ mm, fromPct }) => `${x(mm).toFixed(1)},${y(fromPct).toFixed(1)}`),
  ].join(' ');
  const labelAt = spread(
    sieves.map((mm) => x(mm)),
    LABEL_PX,
    LEFT,
    WIDTH - RIGHT,
  );
  const outside = passing.filter(({ mm, pct }) => {
    const at = band.find((one) => one.mm === mm);
    return at !== undefined && (pct < at.fromPct || pct > at.toPct);
  });
  const words =
    passing.length === 0
      ? 'No sieve has been weighed yet.'
      : outside.length === 0
        ? `Within the band on all ${passing.length} sieves.`
        : `Outside the band on ${outside.map(({ mm }) => `${mm} mm`).join(', ')}.`;
  return (
    <figure className="gradation">
      <figcaption id={`${id}-t`}>
        <strong>{title}</strong>
        <fieldset className="row" aria-label="Axis of the sieves">
          <button
            type="button"
            className="button"
            aria-pressed={axis === 'power'}
            onClick={() => choose('power')}
          >
            0.45 power
          </button>
          <button
            type="button"
            className="button"
            aria-pressed={axis === 'log'}
            onClick={() => choose('log')}
          >
            Log
          </button>
        </fieldset>
      </figcaption>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={`${title}. ${words}`}>
        <rect className="pc-frame" x={LEFT} y={TOP} width={PLOT_W} height={PLOT_H} />
        {[0, 20, 40, 60, 80, 100].map((pct) => (
          <g key={pct}>
            <line className="pc-grid" x1={LEFT} x2={WIDTH - RIGHT} y1={y(pct)} y2={y(pct)} />
            <text x={LEFT - 6} y={y(pct) + 4} textAnchor="end">
              {pct}
            </text>
          </g>
        ))}
        {area !== '' && <polygon className="gr-band" points={area} />}
        {sieves.map((mm, i) => (
          <g key={mm}>
            <line className="pc-grid" x1={x(mm)} x2={x(mm)} y1={TOP} y2={TOP + PLOT_H} />
            <line className="gr-lead" x1={x(mm)} x2={labelAt[i]} y1={TOP + PLOT_H} y2={TOP + PLOT_H + 12} />
            <text x={labelAt[i]} y={TOP + PLOT_H + 25} textAnchor="middle">
              {mm}
            </text>
          </g>
        ))}
        {axis === 'power' && <line className="gr-densest" x1={LEFT} x2={x(largest)} y1={y(0)} y2={y(100)} />}
        {aim.length > 0 && <polyline className="pc-beside" points={run(aim)} />}
        <polyline className="pc-run" points={run(passing)} />
        {passing.map(({ mm, pct }) =>
          outside.some((one) => one.mm === mm) ? (
            <path key={mm} className="pc-signal" d={`M${x(mm)} ${y(pct) - 8}l7.5 13h-15z`} />
          ) : (
            <circle key={mm} className="pc-point" cx={x(mm)} cy={y(pct)} r="4" />
          ),
        )}
        <text x={LEFT + PLOT_W / 2} y={HEIGHT - 3} textAnchor="middle">
          sieve, mm{axis === 'power' ? ', to the power 0.45' : ', logarithmic'}
        </text>
      </svg>
      <p className={outside.length > 0 ? 'warn-words' : 'soft-line'}>
        {words} Passing in % by mass; the band is grey
        {axis === 'power' ? ', the thin straight line is the densest packing' : ''}
        {aim.length > 0 ? ', dashed is what the mix is made to' : ''}.
      </p>
    </figure>
  );
}
