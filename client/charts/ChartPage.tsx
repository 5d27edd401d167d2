/** The statecharts being run: pick one, see where it stands and what would move it on. */
import { useId, useMemo, useState } from 'react';
import type { AnyStateMachine } from 'xstate';
import type { ChartView } from '../../machines/line/view.types.ts';
import { ChartCanvas } from './ChartCanvas.tsx';
import './charts.css';
import { activePaths, type ChartGraph, graphOf, leavesOf } from './graph.ts';
import { Outline } from './Outline.tsx';
import { knownBy } from './registry.ts';
import { capital, spaced } from './words.ts';

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
  const own = spaced(chart.id.replace(/^alarm[:.-]/, '').replace(/Weigher$/, ''));
  return isShared ? `${name}: ${own}` : name;
};

export const ChartPage = ({ charts }: { readonly charts: readonly ChartView[] }) => {
  const [pickedId, setPickedId] = useState<string | null>(null);
  const pickId = useId();
  const chart =
    charts.find((each) => each.id === pickedId) ?? charts.find((each) => each.id === 'batch') ?? charts[0];
  const machine = chart === undefined ? null : (knownBy(chart.machine)?.machine ?? null);
  const graph = useMemo(() => (machine === null ? null : graphFor(machine)), [machine]);
  const activeKey = chart?.active.join(' ') ?? '';
  const paths = useMemo(() => activePaths(activeKey === '' ? [] : activeKey.split(' ')), [activeKey]);
  if (chart === undefined) return <p className="sc-none">No chart is being run.</p>;
  const name = nameOf(chart, charts);
  const leaves = graph === null ? [] : leavesOf(graph.root, paths);
  return (
    <div className="sc-page">
      <div className="sc-pick">
        <label htmlFor={pickId}>Chart</label>
        <select id={pickId} value={chart.id} onChange={(event) => setPickedId(event.target.value)}>
          {charts.map((each) => (
            <option key={each.id} value={each.id}>
              {nameOf(each, charts)}
            </option>
          ))}
        </select>
      </div>
      <aside className="sc-side">
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
        <ChartCanvas
          key={chart.machine}
          graph={graph}
          paths={paths}
          standsAt={leaves.at(-1)?.path ?? null}
          label={name}
        />
      )}
    </div>
  );
};
