/** How one picture of curves is drawn: axes by the shift's clock, windows behind, the moment of the replay in front. */
import type uPlot from 'uplot';
import { clockAt } from '../../ribbon/scale.ts';
import { type Bound, labelOf } from './groups.ts';
import { type Plot, STROKES } from './plots.ts';

const token = (name: string): string =>
  getComputedStyle(document.documentElement).getPropertyValue(name).trim();

const FONT = '12.5px system-ui, sans-serif';
const X_STEPS_S = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14_400];
const SWITCH_RANGE: [number, number] = [-0.15, 1.15];

const drawBounds = (u: uPlot, bounds: readonly Bound[]): void => {
  const { ctx } = u;
  const { left, top, width, height } = u.bbox;
  ctx.save();
  ctx.beginPath();
  ctx.rect(left, top, width, height);
  ctx.clip();
  for (const { from, to } of bounds) {
    const yTo = to === null ? null : u.valToPos(to, 'y', true);
    const yFrom = from === null ? null : u.valToPos(from, 'y', true);
    if (yTo !== null && yFrom !== null) {
      ctx.fillStyle = token('--band');
      ctx.globalAlpha = 0.35;
      ctx.fillRect(left, yTo, width, yFrom - yTo);
      ctx.globalAlpha = 1;
    }
    ctx.strokeStyle = token(from === null || to === null ? '--trip' : '--mark');
    ctx.setLineDash([6, 4]);
    for (const y of [yTo, yFrom])
      if (y !== null) {
        ctx.beginPath();
        ctx.moveTo(left, y);
        ctx.lineTo(left + width, y);
        ctx.stroke();
      }
  }
  ctx.restore();
};

const drawMoment = (u: uPlot, atS: number): void => {
  const x = Math.round(u.valToPos(atS, 'x', true));
  const { left, top, width, height } = u.bbox;
  if (x < left || x > left + width) return;
  const { ctx } = u;
  ctx.save();
  ctx.strokeStyle = token('--ink');
  ctx.setLineDash([]);
  ctx.lineWidth = 2 * devicePixelRatio;
  ctx.beginPath();
  ctx.moveTo(x, top);
  ctx.lineTo(x, top + height);
  ctx.stroke();
  ctx.restore();
};

/** Wide enough that a window beside the curve is seen, never flat. */
const rangeOf = (least: number, most: number, bounds: readonly Bound[]): [number, number] => {
  const edges = bounds.flatMap(({ from, to }) => [from, to]).filter((edge) => edge !== null);
  const [low, high] = [Math.min(least, ...edges), Math.max(most, ...edges)];
  if (!Number.isFinite(low) || !Number.isFinite(high)) return [0, 1];
  const room = Math.max((high - low) * 0.08, 0.5);
  return [low - room, high + room];
};

export type PlotParts = {
  readonly plot: Plot;
  readonly bounds: readonly Bound[];
  readonly startsAt: string;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Second of the shift the replay stands at. */
  readonly atS: () => number;
  readonly onZoom: (fromS: number, toS: number) => void;
  readonly onSeek: (atS: number) => void;
  readonly step: uPlot.Series.PathBuilder;
};

const axes = ({ startsAt }: PlotParts): uPlot.Axis[] => {
  const look = { stroke: token('--soft'), font: FONT, grid: { stroke: token('--rule'), width: 1 } };
  return [
    {
      ...look,
      incrs: X_STEPS_S,
      size: 26,
      values: (_u, splits, _axis, _space, stepS) =>
        splits.map((s) => clockAt(startsAt, s * 1000, stepS < 60)),
    },
    { ...look, size: 62, ticks: { show: false } },
  ];
};

export const plotOptions = (parts: PlotParts): uPlot.Options => {
  const { plot, bounds, widthPx, heightPx, atS, onZoom, onSeek, step, startsAt } = parts;
  let downX = 0;
  return {
    width: widthPx,
    height: heightPx,
    cursor: {
      sync: { key: 'replay', scales: ['x', null] },
      drag: { x: true, y: false, setScale: false },
      focus: { prox: 24 },
    },
    legend: { live: true, markers: { width: 3 } },
    scales: {
      x: { time: false },
      y: plot.switches
        ? { range: SWITCH_RANGE }
        : {
            range: (_u, least, most) =>
              rangeOf(least ?? Number.POSITIVE_INFINITY, most ?? Number.NEGATIVE_INFINITY, bounds),
          },
    },
    series: [
      {
        label: 'Time',
        value: (_u, s) => (s === null || s === undefined ? '–' : clockAt(startsAt, s * 1000, true)),
      },
      ...plot.tags.map((tag, i): uPlot.Series => {
        const stroke = STROKES[i % STROKES.length];
        return {
          label: labelOf(tag),
          stroke: token(stroke?.token ?? '--ink'),
          dash: [...(stroke?.dash ?? [])],
          width: 1.6,
          points: { show: false },
          paths: step,
          value: (_u, value) =>
            value === null || Number.isNaN(value) ? '–' : `${Number(value.toFixed(2))} ${plot.unit}`.trim(),
        };
      }),
    ],
    axes: axes(parts),
    hooks: {
      drawClear: [(u) => drawBounds(u, bounds)],
      draw: [(u) => drawMoment(u, atS())],
      setSelect: [
        (u) => {
          const { left, width } = u.select;
          if (width < 5) return;
          onZoom(u.posToVal(left, 'x'), u.posToVal(left + width, 'x'));
          u.setSelect({ left: 0, top: 0, width: 0, height: 0 }, false);
        },
      ],
      ready: [
        (u) => {
          u.over.addEventListener('pointerdown', (event) => {
            downX = event.clientX;
          });
          u.over.addEventListener('click', (event) => {
            if (Math.abs(event.clientX - downX) < 4)
              onSeek(u.posToVal(event.clientX - u.over.getBoundingClientRect().left, 'x'));
          });
        },
      ],
    },
  };
};
