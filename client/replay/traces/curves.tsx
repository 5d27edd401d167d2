/** One picture of curves, kept by the plotting library and fed from the recorded readings. */
import { useEffect, useRef } from 'react';
import uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import { useSize } from '../../ribbon/use-size.ts';
import { useReplay, useReplayClient } from '../context.ts';
import { TICKS_PER_S } from '../replay.types.ts';
import type { Trace } from '../worker/traces.ts';
import { type Bound, labelOf } from './groups.ts';
import { plotOptions } from './plot-options.ts';
import type { Plot } from './plots.ts';

const HEIGHT_PX = 190;
const SWITCH_HEIGHT_PX = 110;

const steppedOrThrow = (): uPlot.Series.PathBuilder => {
  const stepped = uPlot.paths.stepped?.({ align: 1 });
  if (stepped === undefined) throw new Error('the plotting library has no stepped curves');
  return stepped;
};
const STEPPED = steppedOrThrow();

export type Zoom = { readonly fromS: number; readonly toS: number };

export function Curves({
  plot,
  trace,
  tags,
  bounds,
  startsAt,
  zoom,
  onZoom,
}: {
  readonly plot: Plot;
  readonly trace: Trace;
  /** Instruments in the order of the trace's columns. */
  readonly tags: readonly string[];
  readonly bounds: readonly Bound[];
  readonly startsAt: string;
  readonly zoom: Zoom;
  readonly onZoom: (zoom: Zoom) => void;
}) {
  const replay = useReplayClient();
  const at = useReplay((state) => state.at.a);
  const box = useRef<HTMLDivElement>(null);
  const drawn = useRef<uPlot | null>(null);
  const size = useSize(box);
  const widthPx = Math.floor(size.w);
  const newest = useRef({ atS: at / TICKS_PER_S, onZoom, trace, zoom });
  newest.current = { atS: at / TICKS_PER_S, onZoom, trace, zoom };
  const heightPx = plot.switches ? SWITCH_HEIGHT_PX : HEIGHT_PX;
  const key = plot.tags.join();

  const dataOf = (of: Trace): uPlot.AlignedData => [
    Float64Array.from(of.ticks, (tick) => tick / TICKS_PER_S),
    ...plot.tags.map((tag) => of.values[tags.indexOf(tag)] ?? new Float64Array(of.ticks.length)),
  ];

  // biome-ignore lint/correctness/useExhaustiveDependencies: built once for these instruments and this width, fed below
  useEffect(() => {
    const place = box.current;
    if (place === null || widthPx < 80) return;
    const u = new uPlot(
      plotOptions({
        plot,
        bounds,
        startsAt,
        widthPx,
        heightPx,
        step: STEPPED,
        atS: () => newest.current.atS,
        onZoom: (fromS, toS) => newest.current.onZoom({ fromS, toS }),
        onSeek: (s) => replay.seek('a', s * TICKS_PER_S),
      }),
      dataOf(newest.current.trace),
      place,
    );
    u.setScale('x', { min: newest.current.zoom.fromS, max: newest.current.zoom.toS });
    drawn.current = u;
    return () => {
      u.destroy();
      drawn.current = null;
    };
  }, [key, widthPx, startsAt]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: the data follow from the trace alone
  useEffect(() => {
    const u = drawn.current;
    if (u === null) return;
    u.setData(dataOf(trace), false);
    u.setScale('x', { min: zoom.fromS, max: zoom.toS });
  }, [trace, zoom]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: another moment is drawn over the same curves
  useEffect(() => {
    drawn.current?.redraw(false, false);
  }, [at]);

  return (
    <figure className="replay-curves">
      <figcaption>
        {plot.switches ? 'Switches, 0 or 1' : plot.unit === '' ? 'No unit' : plot.unit}
        {bounds.length > 0 && (
          <span className="soft">
            {' '}
            · shaded or dashed:{' '}
            {[...new Set(bounds.map(({ tag, words }) => `${labelOf(tag)}, ${words}`))].join('; ')}
          </span>
        )}
      </figcaption>
      <div ref={box} />
    </figure>
  );
}
