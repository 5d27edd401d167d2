/** A chart in a window of its own: moved by drag, zoomed by wheel, pinch, keys and buttons, following where it stands. */
import { useCallback, useEffect, useRef } from 'react';
import { useSize } from '../ribbon/use-size.ts';
import { ChartPicture } from './ChartPicture.tsx';
import { nodeId } from './elk-graph.ts';
import type { Box, ChartGraph } from './graph.ts';
import type { ChartLayout } from './layout.ts';
import { useLayout } from './use-layout.ts';
import { centrePose, fitPose, isInSight, usePanZoom } from './use-pan-zoom.ts';

const ZOOM_FACTOR = 1.25;
/** Below this the words cannot be read: then the part where the chart stands is shown instead of the whole. */
const READABLE_K = 0.95;

const sizeOf = (layout: ChartLayout) => ({ w: layout.widthPx, h: layout.heightPx });

const counted = (box: Box): number => box.children.reduce((sum, child) => sum + 1 + counted(child), 0);

/** Says what takes its time: elk places a large chart in some seconds, once, in a worker. */
const Waiting = ({ graph }: { readonly graph: ChartGraph }) => (
  <div className="sc-wait" role="status">
    <p>
      <b>
        Finding places for {counted(graph.root)} states and {graph.arrows.length} arrows…
      </b>
    </p>
    <p>
      This takes some seconds, once for each chart. “Where it stands” and “The chart in words” are there
      already.
    </p>
    <div className="sc-busy" aria-hidden="true" />
  </div>
);

type Props = {
  readonly graph: ChartGraph;
  readonly paths: ReadonlySet<string>;
  /** Path of the active state to keep in sight. */
  readonly standsAt: string | null;
  readonly label: string;
};

export const ChartCanvas = ({ graph, paths, standsAt, label }: Props) => {
  const frame = useRef<HTMLDivElement>(null);
  const size = useSize(frame);
  const layout = useLayout(graph);
  const { pose, setPose, zoom, onPointerDown, onPointerMove, onPointerUp, onKeyDown } = usePanZoom(frame);
  const drawn = layout === 'failed' ? null : layout;
  const hasSize = size.w > 0;
  const fit = useCallback(() => {
    if (drawn === null || !hasSize) return;
    setPose(fitPose(sizeOf(drawn), size));
  }, [drawn, hasSize, size, setPose]);
  const showWhereItStands = useCallback(() => {
    const box = standsAt === null ? undefined : drawn?.boxes.get(nodeId(standsAt));
    if (drawn === null || box === undefined || !hasSize) return;
    setPose((old) => centrePose(box, sizeOf(drawn), size, Math.max(old.k, READABLE_K)));
  }, [drawn, hasSize, size, standsAt, setPose]);

  const begunWith = useRef<unknown>(null);
  useEffect(() => {
    if (drawn === null || !hasSize) return;
    const whole = fitPose(sizeOf(drawn), size);
    const box = standsAt === null ? undefined : drawn.boxes.get(nodeId(standsAt));
    if (begunWith.current !== drawn) {
      begunWith.current = drawn;
      setPose(
        whole.k >= READABLE_K || box === undefined ? whole : centrePose(box, sizeOf(drawn), size, READABLE_K),
      );
    } else if (box !== undefined)
      setPose((old) => (isInSight(old, box, size) ? old : centrePose(box, sizeOf(drawn), size, old.k)));
  }, [drawn, hasSize, size, standsAt, setPose]);

  return (
    <div className="sc-canvas">
      {/* biome-ignore lint/a11y/useSemanticElements: a picture that is moved about has no element of its own */}
      <div
        ref={frame}
        className="sc-frame"
        role="group"
        aria-label={`${label}, drawn. Arrow keys move it, plus and minus zoom, zero fits it.`}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it is moved and zoomed by keys
        tabIndex={0}
        onKeyDown={onKeyDown(fit)}
        onPointerDown={onPointerDown}
        onPointerMove={onPointerMove}
        onPointerUp={onPointerUp}
        onPointerCancel={onPointerUp}
      >
        {drawn !== null && (
          <svg width={size.w} height={size.h} role="img" aria-label={label}>
            <g transform={`translate(${pose.x} ${pose.y}) scale(${pose.k})`}>
              <ChartPicture graph={graph} layout={drawn} paths={paths} />
            </g>
          </svg>
        )}
        {layout === null && <Waiting graph={graph} />}
        {layout === 'failed' && (
          <p className="sc-wait">This chart could not be laid out; open “The chart in words”.</p>
        )}
      </div>
      <div className="sc-tools">
        <button type="button" onClick={showWhereItStands}>
          Where it stands
        </button>
        <button type="button" onClick={fit}>
          Whole chart
        </button>
        <button type="button" onClick={() => zoom(ZOOM_FACTOR)} aria-label="Zoom in">
          +
        </button>
        <button type="button" onClick={() => zoom(1 / ZOOM_FACTOR)} aria-label="Zoom out">
          −
        </button>
      </div>
    </div>
  );
};
