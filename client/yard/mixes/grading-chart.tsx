/** The grading chart: band, target, bins, blend and the lab's lots over sieve openings, on either usual axis. */
import { useState } from 'react';
import {
  type Axis,
  axisTicks,
  axisX,
  bandOutline,
  type ChartPoint,
  extentOf,
  gradingLine,
} from '../../../machines/lab/worksheets/gradation-axes.ts';
import type { SievePoint } from '../../../machines/mix/gradation.ts';
import type { BlendSheet } from '../../../machines/yard/mixes/blend-sheet.ts';

const W = 720;
const H = 400;
const LEFT = 44;
const RIGHT = 14;
const TOP = 12;
const BOTTOM = 52;

export type BinLine = {
  readonly bin: number;
  readonly name: string;
  readonly grading: readonly SievePoint[];
};
export type LotLine = { readonly lot: string; readonly points: readonly SievePoint[] };

const DASHES = ['7 3', '2 3', '10 3 2 3', '4 2 1 2'];

const xOf = (x: number): number => LEFT + Math.min(1, Math.max(0, x)) * (W - LEFT - RIGHT);
const yOf = (pct: number): number => TOP + (1 - pct / 100) * (H - TOP - BOTTOM);
const pathOf = (points: readonly ChartPoint[]): string =>
  points
    .map(({ x, passingPct }, i) => `${i === 0 ? 'M' : 'L'}${xOf(x).toFixed(1)} ${yOf(passingPct).toFixed(1)}`)
    .join('');

function Legend({
  bins,
  lots,
  band,
}: {
  readonly bins: readonly BinLine[];
  readonly lots: number;
  readonly band: boolean;
}) {
  return (
    <ul className="mx-legend" aria-hidden="true">
      <li>
        <svg viewBox="0 0 30 10" aria-hidden="true">
          <path className="mx-blend" d="M0 5H30" />
        </svg>
        blend
      </li>
      {band && (
        <>
          <li>
            <svg viewBox="0 0 30 10" aria-hidden="true">
              <rect className="mx-band" width="30" height="10" />
            </svg>
            band
          </li>
          <li>
            <svg viewBox="0 0 30 10" aria-hidden="true">
              <path className="mx-target" d="M0 5H30" />
            </svg>
            target
          </li>
        </>
      )}
      {bins.map((bin) => (
        <li key={bin.bin}>
          <svg viewBox="0 0 30 10" aria-hidden="true">
            <path className="mx-bin" strokeDasharray={DASHES[bin.bin - 1]} d="M0 5H30" />
          </svg>
          bin {bin.bin}, {bin.name}
        </li>
      ))}
      {lots > 0 && (
        <li>
          <svg viewBox="0 0 30 10" aria-hidden="true">
            <circle className="mx-lot" cx="15" cy="5" r="3.5" />
          </svg>
          lots, by the lab
        </li>
      )}
    </ul>
  );
}

export function GradingChart({
  blend,
  bins,
  lots,
}: {
  readonly blend: BlendSheet;
  readonly bins: readonly BinLine[];
  readonly lots: readonly LotLine[];
}) {
  const [axis, setAxis] = useState<Axis>('power');
  const { sieves, grading } = blend;
  const openings = sieves.length > 0 ? sieves.map((one) => one.sieveMm) : grading.map((one) => one.sieveMm);
  const extent = extentOf([...openings, ...grading.map((one) => one.sieveMm)]);
  const ticks = axisTicks(axis, openings, extent);
  const outside = sieves.filter((one) => one.insidePct < -0.05);
  return (
    <figure className="mx-chart">
      <div className="mx-chart-head">
        <Legend bins={bins} lots={lots.length} band={sieves.length > 0} />
        <fieldset className="mx-axis">
          <legend className="hidden-words">Axis of sieve openings</legend>
          {(
            [
              ['power', '0.45 power'],
              ['log', 'logarithmic'],
            ] as const
          ).map(([name, words]) => (
            <button
              key={name}
              type="button"
              className="button"
              aria-pressed={axis === name}
              onClick={() => setAxis(name)}
            >
              {words}
            </button>
          ))}
        </fieldset>
      </div>
      <svg
        viewBox={`0 0 ${W} ${H}`}
        role="img"
        aria-label={`Grading chart: ${
          outside.length === 0
            ? 'the blend lies in its band'
            : `the blend leaves its band at ${outside.map((one) => `${one.sieveMm} mm`).join(', ')}`
        }. The same figures stand in the table below.`}
      >
        {[0, 20, 40, 60, 80, 100].map((pct) => (
          <g key={pct}>
            <line className="mx-grid" x1={LEFT} x2={W - RIGHT} y1={yOf(pct)} y2={yOf(pct)} />
            <text className="mx-tick" x={LEFT - 6} y={yOf(pct) + 4} textAnchor="end">
              {pct}
            </text>
          </g>
        ))}
        {sieves.length > 0 && (
          <path className="mx-band" d={`${pathOf(bandOutline(axis, sieves, extent))}Z`} />
        )}
        {ticks.map((tick) => (
          <g key={tick.sieveMm}>
            <line className="mx-grid" x1={xOf(tick.x)} x2={xOf(tick.x)} y1={TOP} y2={H - BOTTOM} />
            <text
              className="mx-tick"
              x={xOf(tick.x)}
              y={H - BOTTOM + 16 + tick.row * 15}
              textAnchor={tick.x > 0.97 ? 'end' : 'middle'}
            >
              {tick.name}
            </text>
          </g>
        ))}
        {sieves.length > 0 && (
          <path
            className="mx-target"
            d={pathOf(
              gradingLine(
                axis,
                sieves.map((one) => ({ sieveMm: one.sieveMm, passingPct: one.targetPct })),
                extent,
              ),
            )}
          />
        )}
        {bins.map((bin) => (
          <path
            key={bin.bin}
            className="mx-bin"
            strokeDasharray={DASHES[bin.bin - 1]}
            d={pathOf(gradingLine(axis, bin.grading, extent))}
          />
        ))}
        <path className="mx-blend" d={pathOf(gradingLine(axis, grading, extent))} />
        {sieves.map((one) => {
          const x = xOf(axisX(axis, one.sieveMm, extent));
          const y = yOf(one.passingPct);
          return one.insidePct < -0.05 ? (
            <path key={one.sieveMm} className="mx-out" d={`M${x} ${y - 7}L${x + 7} ${y + 5}H${x - 7}Z`} />
          ) : (
            <circle key={one.sieveMm} className="mx-dot" cx={x} cy={y} r="4" />
          );
        })}
        {lots.flatMap((lot) =>
          lot.points.map((point) => (
            <circle
              key={`${lot.lot} ${point.sieveMm}`}
              className="mx-lot"
              cx={xOf(axisX(axis, point.sieveMm, extent))}
              cy={yOf(point.passingPct)}
              r="3.5"
            />
          )),
        )}
        <text className="mx-tick" x={(LEFT + W - RIGHT) / 2} y={H - 4} textAnchor="middle">
          sieve opening
        </text>
        <text className="mx-tick" x={LEFT + 4} y={TOP + 12}>
          % passing
        </text>
      </svg>
    </figure>
  );
}
