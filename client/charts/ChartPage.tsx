/** The statecharts being run: pick one, see where it stands and what would move it on. */
import { useCallback, useEffect, useId, useMemo, useRef, useState } from 'react';
import type { AnyStateMachine } from 'xstate';
import type { ChartView } from '../../machines/line/view.types.ts';
import { useSize } from '../ribbon/use-size.ts';
import { ChartPicture } from './ChartPicture.tsx';
import './charts.css';
import { laidOut } from './engine.ts';
import { activePaths, type ChartGraph, graphOf, leavesOf } from './graph.ts';
import type { ChartLayout } from './layout.ts';
import { Outline } from './Outline.tsx';
import { knownBy } from './registry.ts';
import { fitPose, usePanZoom } from './use-pan-zoom.ts';
import { capital, spaced } from './words.ts';

const ZOOM_FACTOR = 1.25;

const graphs = new WeakMap<AnyStateMachine, ChartGraph>();

/** The graph of a machine, read once: layouts are kept by it. */
const graphFor = (machine: AnyStateMachine): ChartGraph => {
  const graph = graphs.get(machine) ?? graphOf(machine);
  graphs.set(machine, graph);
  return graph;
};

/** Name of a chart in the list: several charts may run the same machine. */
const nameOf = (chart: ChartView, charts: readonly ChartView[]): string => {
  const name = knownBy(chart.machine)?.name ?? capital(spaced(chart.machine));
  const isShared = charts.filter((each) => each.machine === chart.machine).length > 1;
  return isShared ? `${name}: ${spaced(chart.id.replace(/^alarm[.-]/, ''))}` : name;
};

const useLayout = (graph: ChartGraph | null): ChartLayout | 'failed' | null => {
  const [found, setFound] = useState<{ graph: ChartGraph; layout: ChartLayout | 'failed' } | null>(null);
  useEffect(() => {
    if (graph === null) return;
    let isWanted = true;
    laidOut(graph).then(
      (layout) => isWanted && setFound({ graph, layout }),
      () => isWanted && setFound({ graph, layout: 'failed' }),
    );
    return () => {
      isWanted = false;
    };
  }, [graph]);
  return found?.graph === graph ? found.layout : null;
};

const Canvas = ({
  graph,
  paths,
  label,
}: {
  readonly graph: ChartGraph;
  readonly paths: ReadonlySet<string>;
  readonly label: string;
}) => {
  const frame = useRef<HTMLDivElement>(null);
  const size = useSize(frame);
  const layout = useLayout(graph);
  const { pose, setPose, zoom, onPointerDown, onPointerMove, onPointerUp, onKeyDown } = usePanZoom(frame);
  const isLaidOut = layout !== null && layout !== 'failed';
  const fit = useCallback(() => {
    if (layout === null || layout === 'failed' || size.w === 0) return;
    setPose(fitPose({ w: layout.widthPx, h: layout.heightPx }, size));
  }, [layout, size, setPose]);
  useEffect(fit, [fit]);
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
        {isLaidOut ? (
          <svg width={size.w} height={size.h} role="img" aria-label={label}>
            <g transform={`translate(${pose.x} ${pose.y}) scale(${pose.k})`}>
              <ChartPicture graph={graph} layout={layout} paths={paths} />
            </g>
          </svg>
        ) : (
          <p className="sc-wait">
            {layout === 'failed' ? 'This chart could not be laid out; read it in words below.' : 'Laying it out…'}
          </p>
        )}
      </div>
      <div className="sc-tools">
        <button type="button" onClick={() => zoom(ZOOM_FACTOR)} aria-label="Zoom in">
          +
        </button>
        <button type="button" onClick={() => zoom(1 / ZOOM_FACTOR)} aria-label="Zoom out">
          −
        </button>
        <button type="button" onClick={fit}>
          Fit
        </button>
      </div>
    </div>
  );
};

export const ChartPage = ({ charts }: { readonly charts: readonly ChartView[] }) => {
  const [pickedId, setPickedId] = useState<string | null>(null);
  const pickId = useId();
  const chart = charts.find((each) => each.id === pickedId) ?? charts[0];
  const machine = chart === undefined ? null : (knownBy(chart.machine)?.machine ?? null);
  const graph = useMemo(() => (machine === null ? null : graphFor(machine)), [machine]);
  const activeKey = chart?.active.join(' ') ?? '';
  const paths = useMemo(() => activePaths(activeKey === '' ? [] : activeKey.split(' ')), [activeKey]);
  if (chart === undefined) return <p className="sc-none">No chart is being run.</p>;
  const name = nameOf(chart, charts);
  const leaves = graph === null ? [] : leavesOf(graph.root, paths);
  return (
    <div className="sc-page">
      <aside className="sc-side">
        <label htmlFor={pickId}>Chart</label>
        <select id={pickId} value={chart.id} onChange={(event) => setPickedId(event.target.value)}>
          {charts.map((each) => (
            <option key={each.id} value={each.id}>
              {nameOf(each, charts)}
            </option>
          ))}
        </select>
        <h2>Where it stands</h2>
        <ul className="sc-leaves">
          {leaves.map((leaf) => (
            <li key={leaf.path}>
              <b>● {leaf.title}</b>
              {leaf.instruction !== '' && <span>{leaf.instruction}</span>}
            </li>
          ))}
          {leaves.length === 0 && <li>Not known.</li>}
        </ul>
        {graph !== null && <Outline graph={graph} paths={paths} />}
      </aside>
      {graph === null ? (
        <p className="sc-none">This console has no drawing of “{chart.machine}”.</p>
      ) : (
        <Canvas key={chart.machine} graph={graph} paths={paths} label={name} />
      )}
    </div>
  );
};
